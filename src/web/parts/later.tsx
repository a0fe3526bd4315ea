import type { ComponentChildren, JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';

/**
 * A page is built a piece at a time, one piece between two frames, what is seen first first: on a slow phone a whole
 * station at once would hold up the screen longer than a finger notices.
 */
const queue: (() => void)[] = [];
let running = false;
/** A page that is not on screen has no frames; then time alone moves the queue on, ms. */
const WITHOUT_FRAMES_MS = 120;

/** Does it once the screen has shown that the touch came: what writes into the log changes half the page. */
export function afterFrame(act: () => void): void {
  let done = false;
  const once = (): void => {
    if (done) return;
    done = true;
    act();
  };
  requestAnimationFrame(() => setTimeout(once, 0));
  setTimeout(once, WITHOUT_FRAMES_MS);
}

function work(): void {
  queue.shift()?.();
  if (queue.length > 0) afterFrame(work);
  else running = false;
}

/** Puts a piece of work behind those that wait; gives the way to take it out again. */
export function inTurn(act: () => void): () => void {
  queue.push(act);
  if (!running) {
    running = true;
    afterFrame(work);
  }
  return () => {
    const at = queue.indexOf(act);
    if (at >= 0) queue.splice(at, 1);
  };
}

/** Children that are built when their turn comes, and stay. */
export function Later(props: { readonly children: () => ComponentChildren }): JSX.Element | null {
  const [ready, setReady] = useState(false);
  useEffect(() => inTurn(() => setReady(true)), []);
  return ready ? (props.children() as JSX.Element) : null;
}

/** Entries of a list to show by now, count: a few at once, the rest in turn. */
export function useGrowing(total: number, atOnce: number): number {
  const [shown, show] = useState(atOnce);
  useEffect(
    () => (shown < total ? inTurn(() => show((count) => count + atOnce)) : undefined),
    [shown < total, shown],
  );
  return Math.min(shown, total);
}
