/** Sines of the EMFs, tabled once for each number of steps in a cycle. */

const sineTables = new Map<number, Float64Array>();
/** sin at the middle of each step of a cycle. */
export function middleSines(steps: number): Float64Array {
  let table = sineTables.get(steps);
  if (!table) {
    table = new Float64Array(steps);
    for (let n = 0; n < steps; n++) table[n] = Math.sin((2 * Math.PI * (n + 0.5)) / steps);
    sineTables.set(steps, table);
  }
  return table;
}
