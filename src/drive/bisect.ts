/** Root of a rising function by halving: slow, sure, and quick enough for a handful of calls behind a key press. */

/**
 * Where a rising function crosses nought between `low` and `high`, in the argument's unit. Halves until the doubles
 * are neighbours. Throws RangeError unless the function is at or below nought at `low` and at or above it at `high`.
 */
export function bisect(rising: (x: number) => number, low: number, high: number): number {
  const [first, last] = [rising(low), rising(high)];
  if (!(first <= 0 && last >= 0))
    throw new RangeError(
      `rising must cross 0 between low and high, got ${first} at ${low} and ${last} at ${high}`,
    );
  let [a, b] = [low, high];
  for (let i = 0; i < 200; i++) {
    const middle = a + (b - a) / 2;
    if (middle <= a || middle >= b) break;
    if (rising(middle) < 0) a = middle;
    else b = middle;
  }
  return Math.abs(rising(a)) < Math.abs(rising(b)) ? a : b;
}
