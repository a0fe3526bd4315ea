import type { ComponentChildren, JSX } from 'preact';
import { useId, useState } from 'preact/hooks';
import { Later } from './later.tsx';
import { Press } from './press-button.tsx';

/** A line that opens to its details; what is closed is not built at all. */
export function Fold(props: {
  readonly head: ComponentChildren;
  readonly children: () => ComponentChildren;
  readonly class?: string;
}): JSX.Element {
  const id = useId();
  const [open, setOpen] = useState(false);
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
