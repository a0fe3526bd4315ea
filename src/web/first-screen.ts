/**
 * When the page that was asked for stands on the screen for the first time. On a slow line what comes after it (the clocks, a
 * long paper, drawings) would share the line with what is read first; so it waits, and comes while that is read.
 */

/** Longest wait, ms: a page that never came up must not keep the rest from coming. */
const LONGEST_MS = 4000;

let tell: () => void = () => undefined;
let stands = false;
const told = new Promise<void>((done) => {
  tell = done;
});
setTimeout(firstScreenStands, LONGEST_MS);

export function firstScreenStands(): void {
  stands = true;
  tell();
}

/** Does it when the first screen stands; at once where it does. */
export function afterFirstScreen(act: () => void): void {
  if (stands) act();
  else void told.then(act);
}
