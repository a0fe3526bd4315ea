import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { firstScreenStands } from '../first-screen.ts';
import { fetched } from '../pages.ts';

/** A page whose code is fetched when it is opened. Said plainly when the laptop does not answer. */
export function Fetched<T>(props: {
  readonly of: () => Promise<T>;
  readonly children: (page: T) => JSX.Element;
  /** Nothing is shown until it is there, and nothing where it cannot be had: for what stands beside a page. */
  readonly quiet?: boolean;
  /** What stands in the place of a part whose page has a heading of its own, until the part comes. */
  readonly below?: JSX.Element;
}): JSX.Element | null {
  const [page, open] = useState((fetched.get(props.of) as { readonly is: T } | undefined) ?? null);
  const [failed, fail] = useState(false);
  useEffect(() => {
    const there = fetched.get(props.of) as { readonly is: T } | undefined;
    if (there) {
      // It may have come between the drawing of this and now, asked for by another.
      open(there);
      return;
    }
    let here = true;
    props.of().then(
      (is) => {
        fetched.set(props.of, { is });
        if (!here) return;
        // Who came here by keyboard or ear stands at the heading that says "one moment"; who types stands nowhere.
        const atHeading = document.activeElement?.tagName === 'H1';
        open({ is });
        if (atHeading)
          requestAnimationFrame(() =>
            document.querySelector<HTMLElement>('h1')?.focus({ preventScroll: true }),
          );
      },
      () => here && fail(true),
    );
    return () => {
      here = false;
    };
  }, [props.of]);
  useEffect(() => {
    // Effects come after the frame that shows them.
    if (page && !props.quiet) firstScreenStands();
  }, [page !== null]);
  if (page) return props.children(page.is);
  if (props.quiet) return null;
  const says = (
    <p class="step" role="status">
      {failed ? 'The laptop does not answer. Start its program there, then reload this page.' : 'Opening…'}
    </p>
  );
  if (props.below) return failed ? says : props.below;
  return (
    <div class="stack">
      <h1 tabIndex={-1}>{failed ? 'This page cannot be opened now' : 'One moment'}</h1>
      {says}
    </div>
  );
}
