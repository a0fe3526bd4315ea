/**
 * Stack-up: what tolerances of several parts in a row come to. For one bike only the worst case counts, with the parts
 * measured where they can be; the root of the sum of squares (RSS) says what most of many bikes would show, and leans
 * on parts that err independently and without a common lean. All figures in metres (or all in any one unit).
 */
import { type Interval, requireFinite, requireNotNegative } from './require.ts';

export interface StackPart {
  /** How much the result moves for the part: +1 adds its length, −1 takes it away; a lever ratio otherwise. */
  readonly share: number;
  /** Length by the drawing, m. */
  readonly nominal: number;
  /** Tolerance either way, m, from 0. */
  readonly tolerance: number;
  /** Length as measured, with the error of measuring either way, m: takes the place of nominal and tolerance. */
  readonly measured?: { readonly length: number; readonly error: number };
}

export interface StackUp {
  /** Result with each part at its measured or nominal length, m. */
  readonly middle: number;
  /** Worst case either way, Σ|aᵢ|Tᵢ, m. */
  readonly worst: number;
  /** Root of the sum of squares, √Σ(aᵢTᵢ)², m. */
  readonly rss: number;
  /** Middle less and plus the worst case, m. */
  readonly range: Interval;
  /** Part whose tolerance counts most, index: the one to measure next; null when nothing is uncertain. */
  readonly measureNext: number | null;
}

/** How far off a part may be either way, m. */
function errorOf(part: StackPart): number {
  return part.measured ? part.measured.error : part.tolerance;
}

/**
 * Adds up a row of parts. Throws RangeError for no parts, a tolerance or error below 0, or a figure that is not
 * finite.
 */
export function stackUp(parts: readonly StackPart[]): StackUp {
  if (parts.length === 0) throw new RangeError('parts must hold at least 1 part, got 0');
  parts.forEach((part, i) => {
    requireFinite(`parts[${i}].share`, part.share);
    requireFinite(`parts[${i}].nominal`, part.nominal);
    requireNotNegative(`parts[${i}].tolerance`, part.tolerance);
    if (part.measured) {
      requireFinite(`parts[${i}].measured.length`, part.measured.length);
      requireNotNegative(`parts[${i}].measured.error`, part.measured.error);
    }
  });
  const terms = parts.map((part) => Math.abs(part.share) * errorOf(part));
  const middle = parts.reduce((sum, part) => sum + part.share * (part.measured?.length ?? part.nominal), 0);
  const worst = terms.reduce((sum, term) => sum + term, 0);
  const largest = Math.max(...terms);
  return {
    middle,
    worst,
    rss: Math.hypot(...terms),
    range: { low: middle - worst, high: middle + worst },
    measureNext: largest > 0 ? terms.indexOf(largest) : null,
  };
}

/**
 * Tolerance that is left for one more part, m, when the whole may be off by `allowed`; null when the others use it
 * up. Inverse of `stackUp` in its worst case or in RSS. Throws RangeError for a share of 0 or `allowed` below 0.
 */
export function toleranceLeft(
  parts: readonly StackPart[],
  share: number,
  allowed: number,
  by: 'worst' | 'rss',
): number | null {
  requireNotNegative('allowed', allowed);
  requireFinite('share', share);
  if (share === 0) throw new RangeError('share must not be 0, got 0');
  const others = parts.length === 0 ? { worst: 0, rss: 0 } : stackUp(parts);
  const left = by === 'worst' ? allowed - others.worst : allowed * allowed - others.rss * others.rss;
  if (left < 0) return null;
  return (by === 'worst' ? left : Math.sqrt(left)) / Math.abs(share);
}
