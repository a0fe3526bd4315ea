/**
 * A story's weight along an order of readings, in a few µs: readings that fit worse than a mistake would are set aside
 * one after another, as `roughWeight` does it, and a story that has fallen far behind is not told to the end. For
 * the thousands of stories that only matter while little has been read.
 */
import { logNormalDensity } from '../numbers/normal.ts';
import { common, type Telling } from './explain-path.ts';
import { MOST_ROWS, type Row } from './weigh.ts';

/** Nats behind the best story, with as many readings heard, at which a story is dropped, well beyond the odds that count. */
const DROPPED = 18;

const factor = new Float64Array(MOST_ROWS * MOST_ROWS);
const innovation = new Float64Array(MOST_ROWS);
const solved = new Float64Array(MOST_ROWS);
const kept: Row[] = [];

/**
 * Log weights after 0, 1, … m readings of `order`, nats, into `out` at `from`. With `best`, the greatest known after as
 * many readings, a story is dropped (−Infinity from there on) once it is far behind. `steps` gets each reading's own
 * part; a story is then forgiven the one reading that buries it most beside `lead`, the parts of the likeliest story.
 */
export function roughAlong(
  story: Telling,
  order: readonly number[],
  out: Float64Array,
  from: number,
  best: Float64Array | null,
  steps: Float64Array | null = null,
  lead: Float64Array | null = null,
): void {
  const { rows, terms } = story;
  let log = 0;
  let k = 0;
  let forgiven = 0;
  out[from] = 0;
  for (let step = 0; step < order.length; step++) {
    const at = order[step]!;
    const row = rows[at];
    let part = terms[at]!;
    if (row) {
      let gain = 0;
      let variance = common(row.fit, row.fit) + row.scatter;
      for (let i = 0; i < k; i++) {
        let c = common(kept[i]!.fit, row.fit);
        for (let j = 0; j < i; j++) c -= factor[i * MOST_ROWS + j]! * solved[j]!;
        c /= factor[i * MOST_ROWS + i]!;
        solved[i] = c;
        gain += c * innovation[i]!;
        variance -= c * c;
      }
      variance = Math.max(variance, 0.2 * row.scatter);
      const misfit = row.value - row.fit.middle - gain;
      const right = Math.log1p(-row.slip) + logNormalDensity(misfit, variance);
      const wrong = Math.log(row.slip * row.anything);
      part += Math.max(right, wrong);
      if (right >= wrong) {
        const root = Math.sqrt(variance);
        for (let j = 0; j < k; j++) factor[k * MOST_ROWS + j] = solved[j]!;
        factor[k * MOST_ROWS + k] = root;
        innovation[k] = misfit / root;
        kept[k++] = row;
      }
    }
    log += part;
    if (steps) steps[at] = part;
    if (lead) forgiven = Math.max(forgiven, lead[at]! - part);
    out[from + step + 1] = log;
    if (best && log + forgiven < best[step + 1]! - DROPPED) {
      out.fill(Number.NEGATIVE_INFINITY, from + step + 2, from + order.length + 1);
      return;
    }
  }
}
