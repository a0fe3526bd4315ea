/**
 * What the readings say of each unknown, kept ready for hypotheses that are asked about many further readings: the
 * unknowns' means and covariance given the readings, worked out once. A prediction is then a sum over the unknowns that
 * move the reading, and over pairs of them. `predict` solves for each reading anew; for two hundred readings that was a
 * third of an answer's time. Keeping the solved factor alone, unknown by unknown, cost a sum over unknowns and readings.
 */
import { UNKNOWNS } from './latent.ts';
import type { Fit } from './line.ts';
import { COUNT, HEAD, LONGEST, pack, RESIDUAL } from './sheets.ts';
import { solvedOf } from './unknowns.ts';
import type { Given } from './weigh.ts';

/** Predictions of the hypotheses that were begun with last. */
export interface Projector {
  /** Begins with other hypotheses, each by what it is given. Returns this same projector. */
  readonly over: (hypotheses: readonly Given[]) => Projector;
  /** As `predict` says of the hypothesis with number `h` on that list: into `out` [mean, variance without meter]. */
  readonly predict: (h: number, fit: Fit, out: Float64Array) => void;
  /** The same of a line packed in `lines` from place `from` on (sheets.ts). */
  readonly predictPacked: (h: number, lines: Float64Array, from: number, out: Float64Array) => void;
}

/** Numbers kept for each hypothesis: the unknowns' means, then their covariance row by row. */
const BLOCK = UNKNOWNS + UNKNOWNS * UNKNOWNS;

/** Opens a projector. Its lists grow and are used again, so it is worth keeping. */
export function openProjector(): Projector {
  /** One block for each hypothesis, made when first asked for. */
  let blocks = new Float64Array(0);
  let made = new Uint8Array(0);
  let list: readonly Given[] = [];
  const packed = new Float64Array(LONGEST);
  const projector: Projector = {
    over: (hypotheses) => {
      list = hypotheses;
      const count = list.length;
      if (blocks.length < count * BLOCK) blocks = new Float64Array(count * BLOCK);
      if (made.length < count) made = new Uint8Array(count);
      else made.fill(0);
      return projector;
    },
    predict: (h, fit, out) => {
      pack(fit, packed, 0);
      projector.predictPacked(h, packed, 0, out);
    },
    predictPacked: (h, lines, from, out) => {
      const start = h * BLOCK;
      if (!made[h]) {
        project(list[h]!, blocks, start);
        made[h] = 1;
      }
      const block = blocks;
      const count = lines[from + COUNT]!;
      const residual = lines[from + RESIDUAL]!;
      let mean = lines[from]!;
      let variance = residual;
      // Taken over one by one: the places are whole numbers among doubles, and each is asked for many times.
      const at = places;
      const s = slopes;
      for (let n = 0; n < count; n++) {
        const p = lines[from + HEAD + 2 * n]!;
        const slope = lines[from + HEAD + 2 * n + 1]!;
        at[n] = p;
        s[n] = slope;
        const row = start + UNKNOWNS + p * UNKNOWNS;
        let others = 0.5 * slope * block[row + p]!;
        for (let k = 0; k < n; k++) others += s[k]! * block[row + at[k]!]!;
        mean += slope * block[start + p]!;
        variance += 2 * slope * others;
      }
      out[0] = mean;
      out[1] = Math.max(variance, residual, 1e-10);
    },
  };
  return projector;
}

/** Means and covariance of the unknowns given the readings, into `block` from place `start` on. */
function project(given: Given, block: Float64Array, start: number): void {
  const { felt, slopes: solved } = solvedOf(given);
  const m = given.rows.length;
  const size = felt.length;
  block.fill(0, start, start + BLOCK);
  for (let p = 0; p < UNKNOWNS; p++) block[start + UNKNOWNS + p * UNKNOWNS + p] = 1;
  const told = known;
  for (let i = 0; i < m; i++) {
    const white = given.innovation[i]!;
    for (let n = 0; n < size; n++) told[n] = solved[n * m + i]!;
    for (let n = 0; n < size; n++) {
      const a = told[n]!;
      if (a === 0) continue;
      const p = felt[n]!;
      block[start + p]! += a * white;
      const row = start + UNKNOWNS + p * UNKNOWNS;
      // Only what lies under the diagonal is asked for.
      for (let k = 0; k <= n; k++) block[row + felt[k]!]! -= a * told[k]!;
    }
  }
}

/** Scratch of one hypothesis and one line. */
const known = new Float64Array(UNKNOWNS);
const places = new Int32Array(UNKNOWNS);
const slopes = new Float64Array(UNKNOWNS);
