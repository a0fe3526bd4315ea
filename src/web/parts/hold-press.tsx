import type { ComponentChildren, JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { later } from '../browser.ts';
import { tooWide } from '../press.ts';

/** How long a control is held that does what nobody should do by accident, ms. */
export const HOLD_MS = 800;

/** A button that acts when it was held; a key is held as a finger is. */
export function HoldPress(props: {
  readonly act: () => void;
  readonly children: ComponentChildren;
  readonly class?: string;
  readonly disabled?: boolean;
}): JSX.Element {
  const [held, setHeld] = useState(false);
  const stop = useRef<(() => void) | null>(null);
  const letGo = (): void => {
    stop.current?.();
    stop.current = null;
    setHeld(false);
  };
  const hold = (): void => {
    if (stop.current || props.disabled) return;
    setHeld(true);
    stop.current = later(() => {
      letGo();
      props.act();
    }, HOLD_MS);
  };
  useEffect(() => letGo, []);
  return (
    <button
      type="button"
      class={`hold ${held ? 'held ' : ''}${props.class ?? ''}`}
      disabled={props.disabled}
      onPointerDown={(event) => event.isPrimary && event.button === 0 && !tooWide(event) && hold()}
      onPointerUp={letGo}
      onPointerLeave={letGo}
      onPointerCancel={letGo}
      onKeyDown={(event) => {
        if (event.key !== ' ' && event.key !== 'Enter') return;
        event.preventDefault();
        hold();
      }}
      onKeyUp={letGo}
      onBlur={letGo}
    >
      {props.children} <span class="under">hold it</span>
    </button>
  );
}
