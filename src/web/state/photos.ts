/**
 * Photographs of this device: kept in this browser first, then told to the job as an event, then sent to the laptop by a
 * queue; and those of others, fetched when they are to be shown.
 */
import { signal } from '@preact/signals';
import { later } from '../browser.ts';
import { makePhoto } from '../photo-make.ts';
import { openPhotoQueue } from '../photo-queue.ts';
import { fetchPhoto, isLacking, sendPhoto } from '../photo-server.ts';
import { openPhotoStore } from '../photo-store.ts';
import { happenedIn } from './job.ts';
import { photosHeldUp, setPhotosWaiting } from './photos-waiting.ts';

const store = openPhotoStore('chargewright-photos');

/** Goes up whenever a photograph that was missing may have come: those who miss one look again. */
export const mayHaveCome = signal(0);
const look = (): void => {
  mayHaveCome.value += 1;
};

const queue = openPhotoQueue({
  waiting: store.waiting,
  bytes: async (photo) => (await store.find(photo))?.bytes ?? null,
  send: sendPhoto,
  acknowledged: (photo) => store.setWaiting(photo, false),
  changed: setPhotosWaiting,
  heldUp: (why) => {
    photosHeldUp.value = why;
  },
  later,
});

/** Sends again what the laptop would not take. */
export function sendPhotosAgain(): void {
  void queue.flush(true);
}

/** Starts sending what an earlier visit left, and again whenever the laptop may be back. Once is enough. */
export function startPhotoSending(): void {
  if (started) return;
  started = true;
  const wake = (): void => {
    if (document.visibilityState !== 'visible') return;
    void queue.flush();
    look();
  };
  for (const what of ['online', 'focus']) addEventListener(what, wake);
  document.addEventListener('visibilitychange', wake);
  void queue.flush();
}
let started = false;

/** What came of taking one: nothing to say, or one sentence. */
export type Took = { readonly ok: true } | { readonly ok: false; readonly why: string };

/** Keeps a photograph of a file and tells the job of it. Until both are done there is no entry, and the file is as it was. */
export async function takePhoto(
  job: string,
  file: File,
  { step, about }: { readonly step: string; readonly about: string },
): Promise<Took> {
  const made = await makePhoto(file);
  if (!made.ok) return made;
  const { photo, bytes } = made;
  try {
    await store.keep(photo, bytes, true, Date.now());
  } catch {
    // A browser that stores nothing, or has no room: then the laptop must have it before the job speaks of it.
    const sent = await sendPhoto(photo, bytes);
    if (!sent.ok)
      return {
        ok: false,
        why: 'This browser has no room to keep the photograph, and the laptop does not take it now; nothing was kept. Free some space or start the laptop, then take it again.',
      };
  }
  happenedIn(job, { type: 'photoAdded', photo, step, about });
  startPhotoSending();
  void queue.flush();
  look();
  return { ok: true };
}

export type Found =
  | { readonly ok: true; readonly bytes: ArrayBuffer }
  | { readonly ok: false; readonly is: 'missing' | 'damaged' | 'away' };

/** A photograph out of this browser, or else from the laptop, whence it is kept for the time without. */
export async function findPhoto(photo: string): Promise<Found> {
  const here = await store.find(photo).catch(() => null);
  if (here) {
    if (!here.waiting) void giveBack(photo);
    return { ok: true, bytes: here.bytes };
  }
  const got = await inTurn(() => fetchPhoto(photo));
  if (got.ok) await store.keep(photo, got.bytes, false, Date.now()).catch(() => undefined);
  return got;
}

/** Photographs that the laptop was asked about in this visit. */
const askedAbout = new Set<string>();

/** A laptop that was put back from an old backup, or lost its folder, gets what this browser still holds. */
async function giveBack(photo: string): Promise<void> {
  if (askedAbout.has(photo)) return;
  askedAbout.add(photo);
  const lacking = await inTurn(() => isLacking(photo));
  if (lacking === null) askedAbout.delete(photo);
  if (lacking !== true) return;
  await store.setWaiting(photo, true).catch(() => undefined);
  void queue.flush();
}

/** Questions at one time: a long job must not stand in the way of its own entries, count. */
const AT_ONCE = 3;
let running = 0;
const line: (() => void)[] = [];

async function inTurn<T>(work: () => Promise<T>): Promise<T> {
  if (running >= AT_ONCE) await new Promise<void>((go) => line.push(go));
  running += 1;
  try {
    return await work();
  } finally {
    running -= 1;
    line.shift()?.();
  }
}
