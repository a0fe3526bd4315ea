/**
 * Which of the shims at hand to stack: within tolerance, then fewest shims, then nearest to the aim; equally near, the
 * thinner stack, then the one with the thicker single shims. Exact: every choice is either tried or shown to be worse.
 *
 * Lengths are metres outside and whole steps of 10 nm inside, so a thou (2540 steps) and a hundredth of a millimetre
 * (1000) add up without rounding and "on the limit" means just that.
 *
 * Depth first over the sizes, thickest first, for 0, 1, 2 … shims; a branch ends when the thickest or thinnest shims
 * still free cannot bring it near enough. Tried and left: trying every count of every size (12 sizes of 4 take 5¹²
 * steps); a table of reachable sums (loses which stack made them, and is no faster at six shims).
 */
import { printFine } from './print-length.ts';
import { requireFinite, requireNotNegative, requirePositive, requireWhole } from './require.ts';
import type { ShimWish } from './shim.ts';

/** Step in which thickness is counted, m. */
export const SHIM_STEP = 1e-8;
/** Most sizes in one choice, count. */
export const MOST_SIZES = 24;
/** Most shims in one stack, count. */
export const MOST_SHIMS = 8;

export interface ShimSize {
  /** Thickness of one, m: as measured if it was, else as marked. */
  readonly thickness: number;
  /** How many are at hand. */
  readonly count: number;
  /** How far off the thickness of each may be either way, m; 0 when not given. */
  readonly error?: number;
}

export interface ShimStack {
  /** How many of each size, in the order of the sizes given. */
  readonly counts: readonly number[];
  readonly shims: number;
  /** Thickness, m. */
  readonly total: number;
  /** Thickness less the aim, m. */
  readonly error: number;
  /** Worst case of the shims' own errors together, m either way. */
  readonly uncertainty: number;
}

export type ShimChoice =
  | {
      readonly ok: true;
      readonly stack: ShimStack;
      /** The total lies on an end of the tolerance, or the shims' own errors may carry it past. */
      readonly onLimit: boolean;
      readonly says: string;
    }
  | {
      readonly ok: false;
      readonly why: string;
      /** Nearest stack outside the tolerance; with no shims at hand the empty one. */
      readonly nearest: ShimStack;
      /** How far the nearest stack is outside, m: above 0 too thick, below 0 too thin. */
      readonly miss: number;
    };

interface Sized {
  readonly index: number;
  readonly thick: number;
  readonly count: number;
}

interface Found {
  readonly outside: number;
  readonly off: number;
  readonly total: number;
  readonly counts: readonly number[];
}

function steps(metres: number): number {
  return Math.round(metres / SHIM_STEP);
}

/** Sum of the `wanted` thickest (or, from the far end, thinnest) shims of sizes from `from` on. */
function extreme(sizes: readonly Sized[], from: number, wanted: number, thinnest: boolean): number {
  let [left, sum] = [wanted, 0];
  for (let n = 0; n < sizes.length - from && left > 0; n++) {
    const size = sizes[thinnest ? sizes.length - 1 - n : from + n]!;
    const take = Math.min(left, size.count);
    sum += take * size.thick;
    left -= take;
  }
  return left > 0 ? Number.NaN : sum;
}

/** Best stack of exactly `shims` shims, as long as it beats `best`; sizes thickest first. */
function search(
  sizes: readonly Sized[],
  shims: number,
  low: number,
  high: number,
  aim: number,
  start: Found | null,
): Found | null {
  let best = start;
  const counts = new Array<number>(sizes.length).fill(0);
  const outsideOf = (least: number, most: number) => Math.max(0, low - most, least - high);
  const visit = (at: number, left: number, total: number): void => {
    if (left === 0) {
      const outside = outsideOf(total, total);
      const off = Math.abs(total - aim);
      const better =
        !best ||
        outside < best.outside ||
        (outside === best.outside && (off < best.off || (off === best.off && total < best.total)));
      // Equal totals: the first one found has the thicker single shims.
      if (better) best = { outside, off, total, counts: counts.slice() };
      return;
    }
    if (at === sizes.length) return;
    const most = total + extreme(sizes, at, left, false);
    const least = total + extreme(sizes, at, left, true);
    // NaN: not that many shims left.
    if (Number.isNaN(most)) return;
    if (best) {
      const outside = outsideOf(least, most);
      const off = Math.max(0, aim - most, least - aim);
      if (outside > best.outside || (outside === best.outside && off > best.off)) return;
    }
    const size = sizes[at]!;
    for (let take = Math.min(left, size.count); take >= 0; take--) {
      counts[at] = take;
      visit(at + 1, left - take, total + take * size.thick);
    }
    counts[at] = 0;
  };
  visit(0, shims, 0);
  return best;
}

function requireStock(sizes: readonly ShimSize[], wish: ShimWish, most: number): void {
  if (sizes.length > MOST_SIZES)
    throw new RangeError(`sizes must hold at most ${MOST_SIZES} sizes, got ${sizes.length}`);
  sizes.forEach(({ thickness, count, error }, i) => {
    requirePositive(`sizes[${i}].thickness`, thickness);
    if (steps(thickness) < 1 || thickness > 0.1)
      throw new RangeError(`sizes[${i}].thickness must be from 1e-8 to 0.1 m, got ${thickness}`);
    requireWhole(`sizes[${i}].count`, count, 0, 1000);
    if (error !== undefined) requireNotNegative(`sizes[${i}].error`, error);
  });
  requireFinite('wish.low', wish.low);
  requireFinite('wish.target', wish.target);
  requireNotNegative('wish.high', wish.high);
  if (!(wish.low <= wish.target && wish.target <= wish.high))
    throw new RangeError(
      `wish.target must be from wish.low to wish.high, ${wish.low} to ${wish.high}, got ${wish.target}`,
    );
  requireWhole('most', most, 0, MOST_SHIMS);
}

/** "0.508 mm (20 thou) + 0.762 mm (30 thou)", thickest first; "no shim". */
export function stackWords(sizes: readonly ShimSize[], counts: readonly number[]): string {
  const words = sizes
    .map(({ thickness }, i) => ({ thickness, count: counts[i] ?? 0 }))
    .filter(({ count }) => count > 0)
    .sort((a, b) => b.thickness - a.thickness)
    .map(({ thickness, count }) => (count > 1 ? `${count} × ` : '') + printFine(thickness));
  return words.length === 0 ? 'no shim' : words.join(' + ');
}

/**
 * Chooses shims for a wanted stack from those at hand, at most `most` of them (0–8). No fit is a value: it names the
 * nearest stack and how far it misses. Throws RangeError for a thickness outside 10 nm–0.1 m, a count that is no
 * whole number, more than 24 sizes, or a wish upside down or all below 0.
 */
export function chooseShims(sizes: readonly ShimSize[], wish: ShimWish, most: number): ShimChoice {
  requireStock(sizes, wish, most);
  const sorted = sizes
    .map(({ thickness, count }, index) => ({ index, thick: steps(thickness), count }))
    .filter(({ count }) => count > 0)
    .sort((a, b) => b.thick - a.thick || a.index - b.index);
  const [low, high, aim] = [steps(wish.low), steps(wish.high), steps(wish.target)];
  let best: Found | null = null;
  for (let shims = 0; shims <= most && best?.outside !== 0; shims++) {
    const found: Found | null = search(sorted, shims, low, high, aim, best);
    // Outside the tolerance a larger stack must be truly nearer, not as near.
    if (found && (!best || found.outside < best.outside)) best = found;
  }
  // No shims at all is always a stack.
  const chosen = best!;
  const counts = new Array<number>(sizes.length).fill(0);
  chosen.counts.forEach((count, i) => {
    const size = sorted[i];
    if (size) counts[size.index] = count;
  });
  const shims = counts.reduce((sum, count) => sum + count, 0);
  const uncertainty = counts.reduce((sum, count, i) => sum + count * (sizes[i]!.error ?? 0), 0);
  const stack: ShimStack = {
    counts,
    shims,
    total: chosen.total * SHIM_STEP,
    error: (chosen.total - aim) * SHIM_STEP,
    uncertainty,
  };
  const words = `${stackWords(sizes, counts)}${shims > 1 ? ` = ${printFine(stack.total)}` : ''}`;
  const range = `${printFine(Math.max(0, wish.low))} to ${printFine(wish.high)}`;
  if (chosen.outside > 0) {
    const miss = chosen.total > high ? chosen.outside * SHIM_STEP : -chosen.outside * SHIM_STEP;
    const side = miss > 0 ? 'too thick' : 'too thin';
    const why = `No stack of at most ${most} of these shims fits ${range}; nearest is ${words}, ${printFine(Math.abs(miss))} ${side}.`;
    return { ok: false, why, nearest: stack, miss };
  }
  const margin = Math.min(chosen.total - low, high - chosen.total);
  const onLimit = margin === 0 ? high > low : margin < steps(uncertainty);
  const warning = !onLimit
    ? ''
    : margin === 0
      ? ' It lies on the very limit: measure again after fitting.'
      : ` The shims' own errors, ${printFine(uncertainty)} either way, may carry it past the limit: measure the stack.`;
  return { ok: true, stack, onLimit, says: `Fit ${words}.${warning}` };
}
