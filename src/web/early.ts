/**
 * What the first script asks the laptop for before the rest of the app is here: on a slow line a question that waits for
 * the code that asks it comes a whole way to the laptop and back later. Whoever asks then takes the answer from here.
 */

/** How long the laptop may take, ms. */
export const PATIENCE_MS = 10_000;

const asked = new Map<string, Promise<Response>>();

/** Asks at once. An answer that nobody takes in time is thrown away: it would be old. */
export function askEarly(path: string): void {
  const answer = fetch(path, { cache: 'no-store', signal: AbortSignal.timeout(PATIENCE_MS) });
  asked.set(path, answer);
  // Told to who takes it.
  answer.catch(() => undefined);
  setTimeout(() => asked.delete(path), PATIENCE_MS);
}

export function isEarly(path: string): boolean {
  return asked.has(path);
}

/** The answer on its way, for one taker; null where it was not asked for. */
export function takeEarly(path: string): Promise<Response> | null {
  const answer = asked.get(path) ?? null;
  asked.delete(path);
  return answer;
}

/** Where the laptop has a job's entries (`?since=0`), or what belongs to it (`machine`). */
export function jobPath(job: string, what: string): string {
  return `/api/jobs/${encodeURIComponent(job)}${what.startsWith('?') ? '' : '/'}${what}`;
}
