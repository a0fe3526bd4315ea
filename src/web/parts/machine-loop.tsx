import { useComputed } from '@preact/signals';
import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { looked } from '../state/machine-draft.ts';

/** The loop as the file describes it, drawn anew a moment after a figure changes; its text is our own drawing's, escaped. */
export function MachineLoop(): JSX.Element {
  const loop = useComputed(() => looked.value?.loop ?? null).value;
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (place.current && loop !== null) place.current.innerHTML = loop;
  }, [loop]);
  return (
    <figure class="loop-figure machine-loop">
      <div ref={place} hidden={loop === null} />
      <figcaption class="quiet">
        {loop === null
          ? 'The loop is drawn as soon as the charging circuit reads.'
          : 'The charging circuit as this file describes it.'}
      </figcaption>
    </figure>
  );
}
