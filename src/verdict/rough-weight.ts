/** The first of two passes of weighing (weigh.ts): what fits worse than a mistake would is dropped on the way. */
import { logNormalDensity } from '../numbers/normal.ts';
import { UNKNOWNS } from './latent.ts';
import type { Fit } from './line.ts';
import { MOST_ROWS, type Row } from './weigh.ts';

/** Columns of the triangular factor: place i · MOST_ROWS + k is row k of column i. */
const factor = new Float64Array(MOST_ROWS * MOST_ROWS);
/** One over the factor's diagonal. */
const inverseRoot = new Float64Array(MOST_ROWS);
/** Slopes of the rows kept, unknown by unknown: place p · MOST_ROWS + i is the slope of row i in unknown p. */
const slopes = new Float64Array(UNKNOWNS * MOST_ROWS);
const innovation = new Float64Array(MOST_ROWS);
const solved = new Float64Array(MOST_ROWS);

/** Rows that the last call of `roughWeight` set aside. */
export const setAside: Row[] = [];

/** What each row added in the last call of `roughWeight`, nats. */
export const added = new Float64Array(MOST_ROWS);

/**
 * Log weight with doubtful readings set aside one after another, nats. Most of an answer's time on twenty readings is
 * spent here. Rejected: going on from the rows that a set has in common with the last one weighed. Even with the sets
 * sorted by their rows 79 to 99 % of the work is left: a further fault moves one reading or other early on.
 *
 * With `rest`, the most that each row and all after it can add, it stops once the weight must end under `least`, and
 * returns what it could at most have come to.
 */
export function roughWeight(
  rows: readonly Row[],
  rest: Float64Array | null = null,
  least = Number.NEGATIVE_INFINITY,
): number {
  // Local names: module variables are read afresh at each use.
  const white = innovation;
  const c = solved;
  let log = 0;
  let m = 0;
  setAside.length = 0;
  const many = Math.min(rows.length, MOST_ROWS);
  for (let n = 0; n < many; n++) {
    if (rest !== null && log + rest[n]! < least) return log + rest[n]!;
    const row = rows[n]!;
    const own = sharedWithKept(row.fit, m);
    solveKept(m);
    let gain = 0;
    let variance = own + row.scatter;
    for (let i = 0; i < m; i++) {
      const known = c[i]!;
      gain += known * white[i]!;
      variance -= known * known;
    }
    variance = Math.max(variance, 0.2 * row.scatter);
    const misfit = row.value - row.fit.middle - gain;
    const right = Math.log1p(-row.slip) + logNormalDensity(misfit, variance);
    const wrong = Math.log(row.slip * row.anything);
    added[n] = Math.max(right, wrong);
    if (right < wrong) {
      log += wrong;
      setAside.push(row);
      continue;
    }
    log += right;
    const root = Math.sqrt(variance);
    keep(row.fit, m, root);
    white[m++] = misfit / root;
  }
  return log;
}

/**
 * Writes what a line shares with each of the `m` rows kept to `solved`; returns what it shares with itself. Four unknowns
 * at a go down the columns: as one dot product for each row, every addition waited for the one before it.
 */
function sharedWithKept({ slope, places }: Fit, m: number): number {
  const c = solved;
  const kept = slopes;
  const count = places.length;
  let own = 0;
  for (let i = 0; i < m; i++) c[i] = 0;
  let n = 0;
  for (; n + 3 < count; n += 4) {
    const w = places[n]!;
    const x = places[n + 1]!;
    const y = places[n + 2]!;
    const z = places[n + 3]!;
    const sw = slope[w]!;
    const sx = slope[x]!;
    const sy = slope[y]!;
    const sz = slope[z]!;
    own += sw * sw + sx * sx + sy * sy + sz * sz;
    const [atW, atX, atY, atZ] = [w * MOST_ROWS, x * MOST_ROWS, y * MOST_ROWS, z * MOST_ROWS];
    for (let i = 0; i < m; i++)
      c[i]! += sw * kept[atW + i]! + sx * kept[atX + i]! + sy * kept[atY + i]! + sz * kept[atZ + i]!;
  }
  for (; n < count; n++) {
    const p = places[n]!;
    const s = slope[p]!;
    own += s * s;
    const from = p * MOST_ROWS;
    for (let i = 0; i < m; i++) c[i]! += s * kept[from + i]!;
  }
  return own;
}

/** Solves the factor of the `m` rows kept for `solved`, in place, two columns at a go. */
function solveKept(m: number): void {
  const c = solved;
  const lower = factor;
  const inverse = inverseRoot;
  let i = 0;
  for (; i + 1 < m; i += 2) {
    const from = i * MOST_ROWS;
    const next = from + MOST_ROWS;
    const a = c[i]! * inverse[i]!;
    const b = (c[i + 1]! - lower[from + i + 1]! * a) * inverse[i + 1]!;
    c[i] = a;
    c[i + 1] = b;
    for (let k = i + 2; k < m; k++) c[k]! -= lower[from + k]! * a + lower[next + k]! * b;
  }
  if (i < m) c[i]! *= inverse[i]!;
}

/** Keeps a row as number m: its slopes, and its row of the factor from `solved`. */
function keep({ slope }: Fit, m: number, root: number): void {
  for (let i = 0; i < m; i++) factor[i * MOST_ROWS + m] = solved[i]!;
  for (let p = 0; p < UNKNOWNS; p++) slopes[p * MOST_ROWS + m] = slope[p]!;
  inverseRoot[m] = 1 / root;
}
