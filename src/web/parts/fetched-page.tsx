import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';

/** A page whose code is fetched when it is opened. Said plainly when the laptop does not answer. */
export function Fetched<T>(props: {
  readonly of: () => Promise<T>;
  readonly children: (page: T) => JSX.Element;
}): JSX.Element {
  const [page, open] = useState<{ readonly is: T } | null>(null);
  const [failed, fail] = useState(false);
  useEffect(() => {
    let here = true;
    props.of().then(
      (is) => here && open({ is }),
      () => here && fail(true),
    );
    return () => {
      here = false;
    };
  }, [props.of]);
  if (page) return props.children(page.is);
  return (
    <div class="stack">
      <h1 tabIndex={-1}>{failed ? 'This page cannot be opened now' : 'One moment'}</h1>
      <p class="step" role="status">
        {failed ? 'The laptop does not answer. Start its program there, then reload this page.' : 'Opening…'}
      </p>
    </div>
  );
}
