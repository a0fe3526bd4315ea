/** Measures of this room: figures above 0, and of a size that stays finite in every sum. */
import { type Interval, requireNotNegative, requirePositive, requirePositiveInterval } from './require.ts';

const LEAST = 1e-9;
const MOST = 1e9;

/** Throws RangeError unless from 1e-9 to 1e9, in whatever SI unit. */
export function requireMeasure(name: string, value: number): void {
  requirePositive(name, value);
  if (value < LEAST || value > MOST)
    throw new RangeError(`${name} must be from ${LEAST} to ${MOST} in SI units, got ${value}`);
}

/** Throws RangeError unless 0, or up to 1e9, in whatever SI unit. */
export function requireMeasureOrNought(name: string, value: number): void {
  requireNotNegative(name, value);
  if (value > MOST) throw new RangeError(`${name} must be from 0 to ${MOST} in SI units, got ${value}`);
}

/** Throws RangeError unless both ends are measures, the low one not above the high one. */
export function requireMeasures(name: string, value: Interval): void {
  requirePositiveInterval(name, value);
  requireMeasure(`${name}.low`, value.low);
  requireMeasure(`${name}.high`, value.high);
}
