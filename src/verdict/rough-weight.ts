/** The first of two passes of weighing (weigh.ts): what fits worse than a mistake would is dropped on the way. */
import { logNormalDensity } from '../numbers/normal.ts';
import { growing, keep, shareWith, solve } from './gaussian.ts';
import { UNKNOWNS } from './latent.ts';
import { MOST_ROWS, type Row } from './weigh.ts';

const kept = growing(MOST_ROWS, new Float64Array(UNKNOWNS * MOST_ROWS), new Float64Array(MOST_ROWS));
const innovation = new Float64Array(MOST_ROWS);

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
  const c = kept.solved;
  let log = 0;
  let m = 0;
  setAside.length = 0;
  const many = Math.min(rows.length, MOST_ROWS);
  for (let n = 0; n < many; n++) {
    if (rest !== null && log + rest[n]! < least) return log + rest[n]!;
    const row = rows[n]!;
    const own = shareWith(kept, row.fit, m);
    solve(kept, m);
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
    keep(kept, row.fit, m, root);
    white[m++] = misfit / root;
  }
  return log;
}
