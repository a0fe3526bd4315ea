/**
 * Wear: a chain grows longer as its pins and bushes wear, and climbs up the teeth of the larger sprocket. Limits of
 * common practice (manufacturers' handbooks, from memory): 3 % where the centre distance can be adjusted, 1.5 % where
 * it cannot, and never more than 200/z % for a large sprocket of z teeth. Lengths in metres.
 */
import { requirePitch, requireTeeth, type Teeth } from './chain.ts';
import { printLength } from './print-length.ts';
import {
  type Interval,
  type Refusal,
  refuse,
  requireNotNegative,
  requirePositive,
  requireWhole,
  requireWithin,
} from './require.ts';

/** Wear at which a chain on an adjustable centre distance is done, dimensionless. */
export const ADJUSTABLE_LIMIT = 0.03;
/** Wear at which a chain on a fixed centre distance is done, dimensionless. */
export const FIXED_LIMIT = 0.015;

/** Length over a number of pitches at a wear (0.02 is 2 %), m. */
export function lengthAtWear(pitch: number, pitches: number, wear: number): number {
  requirePitch(pitch);
  requireWhole('pitches', pitches, 1, 10_000);
  requireWithin('wear', wear, -0.05, 0.2);
  return pitch * pitches * (1 + wear);
}

/** Loop excess that wear adds to a whole chain, m: what the adjuster has to take up. */
export function excessFromWear(pitch: number, links: number, wear: number): number {
  return lengthAtWear(pitch, links, wear) - lengthAtWear(pitch, links, 0);
}

/** Wear beyond which the chain is done, dimensionless: the least of the limits above. */
export function wearLimit(teeth: Teeth, centreAdjustable: boolean): number {
  requireTeeth(teeth);
  return Math.min(centreAdjustable ? ADJUSTABLE_LIMIT : FIXED_LIMIT, 2 / Math.max(...teeth));
}

export interface WearMeasured {
  readonly pitch: number;
  /** Pitches between the two marks. */
  readonly pitches: number;
  /** Length between the marks, pin to pin, chain taut, m. */
  readonly length: number;
  /** How far off the length may be either way, m; 0 when not given. */
  readonly error?: number;
}

/**
 * Wear from a length over N pitches, as an interval (dimensionless, 0.02 is 2 %). Refuses a length that is no chain
 * of this pitch and count: over 0.5 % shorter than new, or over 8 % longer. Throws RangeError for input that cannot be.
 */
export function wearFromLength(
  measured: WearMeasured,
): { readonly ok: true; readonly wear: number; readonly interval: Interval } | Refusal {
  const { pitch, pitches, length } = measured;
  const error = measured.error ?? 0;
  requirePitch(pitch);
  requireWhole('pitches', pitches, 1, 10_000);
  requirePositive('length', length);
  requireNotNegative('error', error);
  const fresh = pitch * pitches;
  const wear = length / fresh - 1;
  const interval = { low: (length - error) / fresh - 1, high: (length + error) / fresh - 1 };
  if (interval.high < -0.005 || interval.low > 0.08) {
    const nearer = Math.floor(length / pitch / 0.995);
    const hint =
      nearer >= 1 && nearer !== pitches
        ? ` It would fit ${nearer} pitches: count again.`
        : ' Check the pitch.';
    return refuse(
      `${printLength(length)} is no length of ${pitches} pitches, which are ${printLength(fresh)} when new.${hint}`,
    );
  }
  return { ok: true, wear, interval };
}

/**
 * The verdict on a measured wear. 'unsure': the limit lies within what the measurement can tell; measure over more
 * pitches.
 */
export interface WearVerdict {
  readonly ok: true;
  readonly state: 'good' | 'near' | 'unsure' | 'worn';
  readonly wear: number;
  readonly interval: Interval;
  readonly limit: number;
  readonly says: string;
}

/** Judges a length over N pitches: near is from three quarters of the limit on. Refuses as `wearFromLength` does. */
export function judgeWear(
  measured: WearMeasured,
  teeth: Teeth,
  centreAdjustable: boolean,
): WearVerdict | Refusal {
  const found = wearFromLength(measured);
  if (!found.ok) return found;
  const limit = wearLimit(teeth, centreAdjustable);
  const { wear, interval } = found;
  const percent = (share: number) => `${Number((share * 100).toFixed(2))} %`.replace('-', '−');
  const [state, end] =
    interval.low >= limit
      ? (['worn', 'The chain is done: fit a new one, and look at the teeth.'] as const)
      : interval.high >= limit
        ? (['unsure', 'The measurement cannot tell: measure over more pitches.'] as const)
        : interval.high >= limit * 0.75
          ? (['near', 'It nears its limit: plan a new one.'] as const)
          : (['good', 'It is good.'] as const);
  const says = `The chain is ${percent(wear)} longer than new, its limit here is ${percent(limit)}. ${end}`;
  return { ok: true, state, wear, interval, limit, says };
}
