/** What the app asks of the laptop about photographs. Whatever goes wrong comes back as a value in words; nothing here throws. */
import { checkPhoto } from '../job/photo-file.ts';
import type { PhotoSent } from './photo-queue.ts';
import { saidIn, UNREACHABLE } from './server.ts';

/** A megabyte over a weak network takes a while, ms. */
const PATIENCE_MS = 60_000;
const LOOK_MS = 10_000;

export type PhotoFetched =
  | { readonly ok: true; readonly bytes: ArrayBuffer }
  /** `missing`: the laptop has none; `damaged`: its own cannot be shown; `away`: it does not answer, or not now. */
  | { readonly ok: false; readonly is: 'missing' | 'damaged' | 'away' };

const addressOf = (photo: string): string => `/api/photos/${photo}`;

export async function sendPhoto(photo: string, bytes: ArrayBuffer): Promise<PhotoSent> {
  const response = await fetch(addressOf(photo), {
    method: 'PUT',
    headers: { 'content-type': 'image/jpeg' },
    body: bytes,
    signal: AbortSignal.timeout(PATIENCE_MS),
  }).catch(() => null);
  if (response === null) return { ok: false, kind: 'unreachable', why: UNREACHABLE };
  const answer: unknown = await response.json().catch(() => null);
  if (response.ok) {
    // Only an answer that names it is one of the laptop's program.
    const named = (answer as { readonly photo?: unknown } | null)?.photo === photo;
    return named ? { ok: true } : { ok: false, kind: 'unreachable', why: UNREACHABLE };
  }
  const why = saidIn(answer) ?? `The laptop answered ${response.status} ${response.statusText}.`;
  const { status } = response;
  // Not let in, too many at once, or a fault on the laptop: the same photograph may well be taken later.
  const later = status >= 500 || status === 401 || status === 408 || status === 429;
  return { ok: false, kind: later ? 'unreachable' : 'refused', why, said: true };
}

export async function fetchPhoto(photo: string): Promise<PhotoFetched> {
  const response = await fetch(addressOf(photo), { signal: AbortSignal.timeout(PATIENCE_MS) }).catch(
    () => null,
  );
  if (response === null) return { ok: false, is: 'away' };
  if (!response.ok) return { ok: false, is: missingOr(response.status) };
  const bytes = await response.arrayBuffer().catch(() => null);
  // A page in the way (a network that wants a password) answers 200 as well.
  return bytes && checkPhoto(new Uint8Array(bytes)).ok ? { ok: true, bytes } : { ok: false, is: 'away' };
}

/** Whether the laptop lacks a photograph; null when it does not answer. */
export async function isLacking(photo: string): Promise<boolean | null> {
  const response = await fetch(addressOf(photo), {
    method: 'HEAD',
    cache: 'no-store',
    signal: AbortSignal.timeout(LOOK_MS),
  }).catch(() => null);
  if (response === null) return null;
  return response.ok ? false : missingOr(response.status) === 'away' ? null : true;
}

function missingOr(status: number): 'missing' | 'damaged' | 'away' {
  if (status === 404) return 'missing';
  return status === 410 ? 'damaged' : 'away';
}
