/**
 * When a touch counts. A control acts when the finger lifts inside it (with some slop, for gloves and grease),
 * a second lift on the same control that comes too soon is a bounce and is ignored, and the click that browsers send
 * after a lift is ignored too, wherever on the changed screen it lands. Time comes from the events themselves.
 */

/** A second touch sooner than this is a bounce, ms. */
export const BOUNCE_MS = 250;
/**
 * The same for figure keys, ms. A hand in a hurry types the two ones of 11.5 about 150–250 ms apart (from memory),
 * and a swallowed figure is a wrong reading; a bounce of the finger is over much sooner.
 */
export const FIGURE_BOUNCE_MS = 120;
/** A click sooner than this after a lift belongs to that lift, ms. */
export const ECHO_MS = 400;
/** A contact wider or higher than this is a palm, a sleeve or a cloth, px. */
export const WIDEST_PX = 40;
/** How far outside its edge a lift still counts, px. */
const SLOP_PX = 12;

export interface Rect {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Whether a lift at (x, y) still counts for a control with these edges, px. */
export function within(rect: Rect, x: number, y: number): boolean {
  return (
    x >= rect.left - SLOP_PX &&
    x <= rect.right + SLOP_PX &&
    y >= rect.top - SLOP_PX &&
    y <= rect.bottom + SLOP_PX
  );
}

/** Whether a contact of this size, px, is none of a fingertip; a mouse and a pen are one pixel wide. */
export function tooWide(contact: { readonly width: number; readonly height: number }): boolean {
  return Math.max(contact.width, contact.height) > WIDEST_PX;
}

/** What all controls on a page share: when a finger last lifted. */
export interface Touches {
  lastLift: number;
}

export interface PressGuard {
  /** A pointer went down on the control; `counts` is false for a second finger, a palm, another button of the mouse. */
  readonly down: (pointer: number, counts: boolean) => void;
  /** The browser took the pointer away (a scroll began). */
  readonly cancel: () => void;
  /** A pointer lifted; true when the control must act. Time in ms. */
  readonly lift: (pointer: number, inside: boolean, time: number) => boolean;
  /** A click came; true when it is a keyboard's or a helper's and the control must act. Time in ms. */
  readonly click: (time: number) => boolean;
}

/** A guard for one control; `bounceMs` is how soon a second touch is still a bounce, ms. */
export function guardPress(touches: Touches, bounceMs: number = BOUNCE_MS): PressGuard {
  let held: number | null = null;
  /** A pointer that came down and does not count: the click after its lift does not either. */
  let passed: number | null = null;
  let acted = Number.NEGATIVE_INFINITY;
  const act = (time: number): boolean => {
    if (time - acted < bounceMs) return false;
    acted = time;
    return true;
  };
  return {
    down: (pointer, counts) => {
      if (counts) held = pointer;
      else passed = pointer;
    },
    cancel: () => {
      held = null;
      passed = null;
    },
    lift: (pointer, inside, time) => {
      if (passed === pointer) {
        passed = null;
        touches.lastLift = time;
        return false;
      }
      if (held !== pointer) return false;
      held = null;
      touches.lastLift = time;
      return inside && act(time);
    },
    click: (time) => time - touches.lastLift >= ECHO_MS && act(time),
  };
}
