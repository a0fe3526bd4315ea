import type { ComponentChildren, JSX, TargetedKeyboardEvent } from 'preact';
import { useRef } from 'preact/hooks';
import { ECHO_MS, guardPress, type Touches, tooWide, within } from '../press.ts';

const touches: Touches = { lastLift: Number.NEGATIVE_INFINITY };

/** Link on which the last finger or mouse button went down; null for none. */
let downOn: Element | null = null;
/** Whether that was a palm or a cloth. */
let wide = false;
const linkAt = (event: Event): Element | null =>
  event.target instanceof Element ? event.target.closest('a') : null;
document.addEventListener(
  'pointerdown',
  (event) => {
    downOn = linkAt(event);
    wide = tooWide(event);
  },
  true,
);
// The click that a browser sends after a lift may land on a link that has slid under the finger meanwhile.
document.addEventListener(
  'click',
  (event) => {
    const link = linkAt(event);
    if (link === null) return;
    // A key's click has no count; what a palm brings has one.
    const palm = wide && event.detail > 0;
    if (!palm && (link === downOn || event.timeStamp - touches.lastLift >= ECHO_MS)) return;
    event.preventDefault();
    event.stopPropagation();
  },
  true,
);

export interface PressProps {
  readonly act: () => void;
  readonly children: ComponentChildren;
  readonly class?: string;
  readonly disabled?: boolean;
  readonly label?: string;
  readonly pressed?: boolean;
  readonly checked?: boolean;
  readonly expanded?: boolean;
  readonly controls?: string;
  /** How soon a second touch is still a bounce, ms. */
  readonly bounceMs?: number;
  readonly id?: string;
  readonly tabIndex?: number;
  readonly onKeyDown?: (event: TargetedKeyboardEvent<HTMLButtonElement>) => void;
}

/** A button that acts when the finger lifts. Every button of the app is one. */
export function Press(props: PressProps): JSX.Element {
  const guard = useRef(guardPress(touches, props.bounceMs)).current;
  return (
    // biome-ignore lint/a11y/useAriaPropsSupportedByRole: aria-checked is there only together with role=radio
    <button
      type="button"
      id={props.id}
      class={props.class}
      disabled={props.disabled}
      tabIndex={props.tabIndex}
      role={props.checked === undefined ? undefined : 'radio'}
      aria-checked={props.checked}
      aria-label={props.label}
      aria-pressed={props.pressed}
      aria-expanded={props.expanded}
      aria-controls={props.controls}
      onKeyDown={props.onKeyDown}
      onPointerDown={(event) =>
        guard.down(event.pointerId, event.isPrimary && event.button === 0 && !tooWide(event))
      }
      onPointerCancel={() => guard.cancel()}
      onPointerUp={(event) => {
        const inside = within(event.currentTarget.getBoundingClientRect(), event.clientX, event.clientY);
        if (guard.lift(event.pointerId, inside, event.timeStamp)) props.act();
      }}
      onClick={(event) => {
        if (guard.click(event.timeStamp)) props.act();
      }}
    >
      {props.children}
    </button>
  );
}
