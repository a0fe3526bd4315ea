/**
 * What this browser keeps of the laptop: events that the laptop has, machine files, the list of jobs. All of it can be had
 * again from the laptop, so a browser that keeps nothing only loses the work with the laptop switched off.
 */
import type { JobEvent } from '../../job/event.ts';
import { openBrowserStore } from '../browser-store.ts';
import type { Got } from '../server.ts';

export const kept = openBrowserStore('chargewright');

/** Writes follow one another: two batches with one event between them must not race for its id. */
let writing: Promise<unknown> = Promise.resolve();

/** Keeps events that the laptop has. */
export function keepHere(events: readonly JobEvent[]): void {
  writing = writing.then(() => kept.append(events)).catch(() => undefined);
}

/** Waits until what was handed over is kept, or cannot be. */
export function settled(): Promise<unknown> {
  return writing;
}

/** An answer of the laptop, or, where it does not answer, the one it gave last; `old` says which. */
export async function remembered(
  name: string,
  ask: () => Promise<Got<string>>,
): Promise<Got<string> & { readonly old?: true }> {
  const got = await ask();
  if (got.ok) {
    void kept.setText(name, got.body).catch(() => undefined);
    return got;
  }
  if (got.kind !== 'unreachable') return got;
  const text = await kept.text(name).catch(() => null);
  return text === null ? got : { ok: true, body: text, old: true };
}
