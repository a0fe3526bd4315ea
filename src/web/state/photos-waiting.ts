/**
 * How many photographs of this browser are not on the laptop yet, known before the photographs themselves are looked at: the
 * head of every page says whether all is on the laptop.
 */
import { signal } from '@preact/signals';
import { keepSetting, readSetting } from '../browser.ts';

const NAME = 'photos-waiting';

export const photosWaiting = signal(Math.max(0, Math.floor(Number(readSetting(NAME)) || 0)));
/** Why the laptop would not take some of them, whole sentences. */
export const photosRefused = signal<readonly string[]>([]);
/** Why the laptop, though it answers, can keep none now; null where it can, or is silent. */
export const photosHeldUp = signal<string | null>(null);

export function setPhotosWaiting(count: number, refused: ReadonlyMap<string, string>): void {
  if (count !== photosWaiting.peek()) keepSetting(NAME, String(count));
  photosWaiting.value = count;
  photosRefused.value = [...new Set(refused.values())];
}
