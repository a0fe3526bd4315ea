/**
 * The order of least unevenness, exactly: dynamic programming over all sets of steps already done (Held and Karp's
 * scheme). A step is one screw, or two opposite screws tightened one after the other. Time 2ⁿ·n/2, memory 8·2ⁿ bytes.
 *
 * What is still to come depends only on the set that is done, so one table of the least cost to go is enough, and the
 * order is read off it from the front: among orders that cost the same, the one that starts with the lowest numbers.
 */
import type { Layout } from './layout.ts';

/** Most steps solved exactly, count. */
export const MOST_EXACT = 20;

/** Costs this near each other are the same, dimensionless: far above rounding, far below what a hand could feel. */
const SAME = 1e-9;

/** Summed pulls of every set of the steps from `from` to `to`: four figures a set. */
function sumsOfSets(sums: Float64Array, from: number, to: number): Float64Array {
  const table = new Float64Array(4 * 2 ** (to - from));
  for (let set = 1; set < 2 ** (to - from); set++) {
    const last = 31 - Math.clz32(set);
    const rest = set ^ (1 << last);
    for (let k = 0; k < 4; k++) table[set * 4 + k] = table[rest * 4 + k]! + sums[(from + last) * 4 + k]!;
  }
  return table;
}

/**
 * The best order of the screws in `steps` (places from 0), with step `first` in front unless it is null. A step's
 * screws stay in their order. Throws RangeError for no steps, or more than MOST_EXACT.
 */
export function exactOrder(
  { pulls }: Layout,
  steps: readonly (readonly [number] | readonly [number, number])[],
  first: number | null = null,
): number[] {
  const n = steps.length;
  if (n < 1 || n > MOST_EXACT) throw new RangeError(`steps must be from 1 to ${MOST_EXACT}, got ${n}`);
  const paired = steps.some((step) => step.length === 2);
  // What a step adds by its first screw, and by all of it.
  const opening = new Float64Array(n * 4);
  const whole = new Float64Array(n * 4);
  steps.forEach(([a, b], j) => {
    for (let k = 0; k < 4; k++) {
      opening[j * 4 + k] = pulls[a * 4 + k]!;
      whole[j * 4 + k] = pulls[a * 4 + k]! + (b === undefined ? 0 : pulls[b * 4 + k]!);
    }
  });
  const half = n >> 1;
  const below = sumsOfSets(whole, 0, half);
  const above = sumsOfSets(whole, half, n);
  const lowBits = 2 ** half - 1;
  const at = (set: number, k: number) => below[(set & lowBits) * 4 + k]! + above[(set >>> half) * 4 + k]!;
  /** Cost of the prefix that ends inside step j after a set; nought where a step has no inside. */
  const inside = (set: number, j: number): number => {
    if (!paired || steps[j]!.length === 1) return 0;
    let cost = 0;
    for (let k = 0; k < 4; k++) cost += (at(set, k) + opening[j * 4 + k]!) ** 2;
    return cost;
  };
  const full = 2 ** n - 1;
  /** Least cost of the prefix that is this set and of all that follow. */
  const togo = new Float64Array(2 ** n);
  const onward = (set: number, j: number) => togo[set | (1 << j)]! + inside(set, j);
  const least = (set: number): number => {
    let best = Number.POSITIVE_INFINITY;
    // Bit by bit over the steps not done.
    for (let left = full & ~set; left !== 0; left &= left - 1) {
      const bit = left & -left;
      const cost = togo[set | bit]! + (paired ? inside(set, 31 - Math.clz32(bit)) : 0);
      if (cost < best) best = cost;
    }
    return best;
  };
  for (let set = full; set > 0; set--) {
    const own = at(set, 0) ** 2 + at(set, 1) ** 2 + at(set, 2) ** 2 + at(set, 3) ** 2;
    togo[set] = own + (set === full ? 0 : least(set));
  }
  const order: number[] = [];
  for (let set = 0; set !== full; ) {
    let next = set === 0 ? first : null;
    const best = next === null ? least(set) : 0;
    for (let j = 0; j < n && next === null; j++)
      if (!(set & (1 << j)) && onward(set, j) <= best + SAME) next = j;
    order.push(...steps[next!]!);
    set |= 1 << next!;
  }
  return order;
}
