/**
 * How thick a stack of shims must be: for a sprocket to stand in line, or for a shaft to have its end play. What comes
 * out is a wish for choose-shims.ts. Lengths in metres.
 */
import { printFine } from './print-length.ts';
import {
  type Interval,
  type Refusal,
  refuse,
  requireFinite,
  requireInterval,
  requireNotNegative,
} from './require.ts';

/** A wanted thickness of stack, m. */
export interface ShimWish {
  /** May be below 0: then no shim at all is inside the tolerance, not at its end. */
  readonly low: number;
  readonly high: number;
  /** Aim, within low and high. */
  readonly target: number;
}

/**
 * Stack for alignment: t* = the stack that was there + the signed step. The step is how far the shimmed sprocket
 * stands short of the line (above 0: it must come out; below 0: it stands proud), measured with a straight edge;
 * `tolerance` is what may be left either way. Refuses where even no shim is too much. Throws RangeError for an old
 * stack or tolerance below 0.
 */
export function shimForAlignment(
  old: number,
  step: number,
  tolerance: number,
): { readonly ok: true; readonly wish: ShimWish } | Refusal {
  requireNotNegative('old', old);
  requireFinite('step', step);
  requireNotNegative('tolerance', tolerance);
  const target = old + step;
  if (target + tolerance < 0)
    return refuse(
      `The sprocket stands ${printFine(-step)} proud, but only ${printFine(old)} of shims can come out: taking them all leaves ${printFine(-target)}. Look for a wrong spacer or a part not seated.`,
    );
  return { ok: true, wish: { low: target - tolerance, high: target + tolerance, target } };
}

/** Step left after the stack is changed, m: above 0 the shimmed sprocket still stands short of the line. */
export function stepAfter(old: number, step: number, fitted: number): number {
  requireNotNegative('old', old);
  requireFinite('step', step);
  requireNotNegative('fitted', fitted);
  return step - (fitted - old);
}

/**
 * Stack for end play: t between EP0 − EPmax and EP0 − EPmin, EP0 the play without any shim. Refuses where the play
 * without shims is already too small. Throws RangeError for a play below 0 or a range upside down.
 */
export function shimForEndPlay(
  bare: number,
  wanted: Interval,
): { readonly ok: true; readonly wish: ShimWish } | Refusal {
  requireNotNegative('bare', bare);
  requireInterval('wanted', wanted);
  requireNotNegative('wanted.low', wanted.low);
  if (bare < wanted.low)
    return refuse(
      `Without any shim the end play is ${printFine(bare)}, under the least wanted of ${printFine(wanted.low)}: a shim cannot add play. Check that every part is seated.`,
    );
  const low = bare - wanted.high;
  const high = bare - wanted.low;
  return { ok: true, wish: { low, high, target: low + (high - low) / 2 } };
}

/** End play without any shim, from a play measured over a stack, m. */
export function barePlay(measured: number, stack: number): number {
  requireNotNegative('measured', measured);
  requireNotNegative('stack', stack);
  return measured + stack;
}

/** End play with a stack fitted, m; below 0 the parts bind before they are home. */
export function endPlayWith(bare: number, stack: number): number {
  requireNotNegative('bare', bare);
  requireNotNegative('stack', stack);
  return bare - stack;
}
