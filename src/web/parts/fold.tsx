import type { ComponentChildren, JSX } from 'preact';
import { useEffect, useId, useState } from 'preact/hooks';
import { Later } from './later.tsx';
import { Press } from './press-button.tsx';

/**
 * A line that opens to its details; what is closed is not built at all. `open` opens it from outside whenever it becomes
 * true; closing is the reader's.
 */
export function Fold(props: {
  readonly head: ComponentChildren;
  readonly children: () => ComponentChildren;
  readonly class?: string;
  readonly open?: boolean;
}): JSX.Element {
  const id = useId();
  const [open, setOpen] = useState(props.open ?? false);
  useEffect(() => {
    if (props.open) setOpen(true);
  }, [props.open]);
  return (
    <div class={props.class ?? 'folded'}>
      <Press class="fold" expanded={open} controls={id} act={() => setOpen(!open)}>
        <span class="turn" aria-hidden="true">
          {open ? '▾' : '▸'}
        </span>
        <span class="fold-head">{props.head}</span>
      </Press>
      <div id={id} hidden={!open} class="fold-body">
        {open && <Later>{props.children}</Later>}
      </div>
    </div>
  );
}
