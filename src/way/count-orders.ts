/**
 * In how many orders steps can be carried out, when one step can have to wait for others in more ways than one:
 * dynamic programming over the sets of steps done. Time 2ⁿ·n, memory 8·2ⁿ bytes.
 */

/** One way in which a step can be ready: all of these steps are done. */
export type Ready = readonly number[];

/** Most steps counted, count. */
export const MOST_STEPS = 22;

/**
 * Orders of all steps, count: `ready[i]` lists the ways in which step i can be ready, each a list of steps done before.
 * Exact up to 2^53. Throws RangeError for more than MOST_STEPS, or a step that is none.
 */
export function countOrders(ready: readonly (readonly Ready[])[]): number {
  const n = ready.length;
  if (n > MOST_STEPS) throw new RangeError(`ready must have at most ${MOST_STEPS} steps, got ${n}`);
  const masks = ready.map((ways) =>
    ways.map((steps) =>
      steps.reduce((bits, step) => {
        if (!Number.isInteger(step) || step < 0 || step >= n)
          throw new RangeError(`ready must name steps from 0 to ${n - 1}, got ${step}`);
        return bits | (1 << step);
      }, 0),
    ),
  );
  const orders = new Float64Array(2 ** n);
  orders[0] = 1;
  for (let done = 0; done < orders.length; done++) {
    if (orders[done] === 0) continue;
    for (let i = 0; i < n; i++) {
      if ((done >>> i) & 1 || !masks[i]!.some((way) => (way & done) === way)) continue;
      orders[done | (1 << i)]! += orders[done]!;
    }
  }
  return orders[orders.length - 1]!;
}
