/** The marks of a wrench, how far they can be trusted, and which part of its range to use. */
import { type Quantity, quantity } from '../units/quantity.ts';
import type { UnitOf } from '../units/table.ts';
import { requireMeasure } from './measure.ts';
import { type Interval, type Refusal, refuse } from './require.ts';
import { sayShare, sayTorque } from './say.ts';

/** Least share of full scale at which a wrench is trusted, dimensionless: US Army TM 1-1500-204-23-9. */
export const USABLE_FROM = 0.2;
/** Least share of full scale of the best range, dimensionless: US Army TM 1-1500-204-23-9. */
export const BEST_FROM = 0.3;
/** Greatest share of full scale of the best range, dimensionless: US Army TM 1-1500-204-23-9. */
export const BEST_TO = 0.8;

/** Rounding must not push a torque that stands exactly on an end of a range off it. */
const HAIR = 1e-9;

/**
 * How far a wrench may be off within its usable range, as a share of the setting, dimensionless: 0.04 where full scale
 * is above 10 N·m, 0.06 at or below (ISO 6789:2003, from memory). `fullScale` in N·m, above 0.
 */
export function wrenchAccuracy(fullScale: number): number {
  requireMeasure('fullScale', fullScale);
  return fullScale > 10 ? 0.04 : 0.06;
}

/** Full scale that would put a setting into the best range, N·m; `set` in N·m, above 0. */
export function fullScaleFor(set: number): Interval {
  requireMeasure('set', set);
  return { low: set / BEST_TO, high: set / BEST_FROM };
}

export interface RangePlace {
  readonly ok: true;
  readonly place: 'best' | 'usable';
  /** Setting over full scale, dimensionless. */
  readonly share: number;
}

/** Where a setting lies in a wrench's range; both in N·m. Refuses a setting it cannot be trusted with. */
export function rangePlace(set: number, fullScale: number): RangePlace | Refusal {
  requireMeasure('set', set);
  requireMeasure('fullScale', fullScale);
  const share = set / fullScale;
  if (share > 1 + HAIR)
    return refuse(
      `${sayTorque(set)} is above the full scale of this wrench, ${sayTorque(fullScale)}: take a larger wrench.`,
    );
  if (share < USABLE_FROM - HAIR)
    return refuse(
      `${sayTorque(set)} is ${sayShare(share)} of this wrench's full scale, ${sayTorque(fullScale)}, and below 20 % it cannot be trusted: take a smaller wrench.`,
    );
  const best = share >= BEST_FROM - HAIR && share <= BEST_TO + HAIR;
  return { ok: true, place: best ? 'best' : 'usable', share };
}

export interface Scale {
  readonly unit: UnitOf<'torque'>;
  /** First mark, in that unit, from 0. */
  readonly low: number;
  /** Last mark, in that unit. */
  readonly high: number;
  /** From one mark or click to the next, in that unit, above 0. */
  readonly step: number;
}

export interface Mark {
  readonly ok: true;
  readonly unit: UnitOf<'torque'>;
  /** What the scale shows, in that unit. */
  readonly figure: number;
  /** The same, N·m. */
  readonly set: number;
  /** How far the mark is from what was wanted, as a share of that, signed. */
  readonly error: number;
}

function checkScale({ low, high, step }: Scale): void {
  if (!(Number.isFinite(low) && low >= 0)) throw new RangeError(`scale.low must be from 0, got ${low}`);
  if (!(Number.isFinite(high) && high > low))
    throw new RangeError(`scale.high must be above scale.low, ${low}, got ${high}`);
  if (!(step > 0 && step <= high - low))
    throw new RangeError(`scale.step must be above 0 and within the scale, got ${step}`);
}

function markAt(scale: Scale, index: number, wanted: number): Mark {
  // Decimal steps (0.1, 2.5) leave a tail of binary rounding.
  const figure = Number((scale.low + index * scale.step).toPrecision(12));
  const { si: set }: Quantity<'torque'> = quantity('torque', figure, scale.unit);
  return { ok: true, unit: scale.unit, figure, set, error: set / wanted - 1 };
}

/** The marks above 0 of a scale, lowest first. */
export function marksOf(scale: Scale, wanted: number): readonly Mark[] {
  checkScale(scale);
  requireMeasure('wanted', wanted);
  const last = Math.floor((scale.high - scale.low) / scale.step + HAIR);
  if (last > 100_000) throw new RangeError(`scale.step must leave at most 100000 marks, got ${scale.step}`);
  return Array.from({ length: last + 1 }, (_, index) => markAt(scale, index, wanted)).filter(
    ({ set }) => set > 0,
  );
}

/**
 * Nearest mark of a scale to a wanted setting, N·m; the lower of two just as near. Refuses a setting off the scale.
 * Throws RangeError for a scale that cannot be.
 */
export function nearestMark(wanted: number, scale: Scale): Mark | Refusal {
  const marks = marksOf(scale, wanted);
  const [first, last] = [marks[0]!, marks.at(-1)!];
  const half = quantity('torque', scale.step / 2, scale.unit).si * (1 + HAIR);
  if (wanted < first.set - half || wanted > last.set + half)
    return refuse(
      `${sayTorque(wanted)} is off this scale, which goes from ${first.figure} to ${last.figure} ${scale.unit}: take another wrench.`,
    );
  return marks.reduce((best, mark) =>
    Math.abs(mark.set - wanted) < Math.abs(best.set - wanted) * (1 - HAIR) ? mark : best,
  );
}

/** Nearest mark on each scale of a wrench, the nearest of all first; refuses when the setting is off all of them. */
export function nearestMarks(
  wanted: number,
  scales: readonly Scale[],
): { readonly ok: true; readonly marks: readonly [Mark, ...Mark[]] } | Refusal {
  if (scales.length === 0) throw new RangeError('scales must hold at least one scale, got none');
  const found = scales.map((scale) => nearestMark(wanted, scale));
  const [first, ...rest] = found
    .filter((mark): mark is Mark => mark.ok)
    .sort((a, b) => Math.abs(a.error) - Math.abs(b.error));
  return first ? { ok: true, marks: [first, ...rest] } : (found[0] as Refusal);
}
