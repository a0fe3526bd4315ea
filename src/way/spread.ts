/** Times that are not certain: low, likely and high as a triangular distribution, drawn by its inverse. */
import type { Spread } from './work.ts';

/** Throws RangeError unless 0 ≤ low ≤ likely ≤ high. */
export function requireSpread(name: string, { low, likely, high }: Spread): void {
  if (!(low >= 0 && low <= likely && likely <= high && Number.isFinite(high)))
    throw new RangeError(`${name} must have 0 ≤ low ≤ likely ≤ high, got ${low}, ${likely} and ${high}`);
}

/** A time at a share 0–1 of the distribution, min. Throws RangeError for another share. */
export function timeAt({ low, likely, high }: Spread, share: number): number {
  if (!(share >= 0 && share <= 1)) throw new RangeError(`share must be from 0 to 1, got ${share}`);
  const wide = high - low;
  if (wide === 0) return low;
  const turn = (likely - low) / wide;
  return share < turn
    ? low + Math.sqrt(share * wide * (likely - low))
    : high - Math.sqrt((1 - share) * wide * (high - likely));
}

/** Variance of a triangular distribution, min². Throws RangeError for times that are none. */
export function varianceOf(minutes: Spread): number {
  requireSpread('minutes', minutes);
  const { low, likely, high } = minutes;
  return (low ** 2 + likely ** 2 + high ** 2 - low * likely - low * high - likely * high) / 18;
}
