/**
 * What the readings say of each unknown, kept ready for hypotheses that are asked about many further readings: with the
 * factor of the readings' covariance solved for every unknown once, a prediction is a sum over the unknowns that move the
 * reading. `predict` solves for each reading anew; for two hundred readings that was a third of an answer's time.
 */
import { UNKNOWNS } from './latent.ts';
import type { Fit } from './line.ts';
import type { Given } from './weigh.ts';

/** Predictions of the hypotheses that were begun with last. */
export interface Projector {
  /** Begins with other hypotheses, each by what it is given. Returns this same projector. */
  readonly over: (hypotheses: readonly Given[]) => Projector;
  /** As `predict` says of the hypothesis with number `h` on that list: into `out` [mean, variance without meter]. */
  readonly predict: (h: number, fit: Fit, out: Float64Array) => void;
}

/** Opens a projector. Its lists grow and are used again, so it is worth keeping. */
export function openProjector(): Projector {
  /** One block of unknowns × readings for each hypothesis, made when first asked for. */
  let blocks = new Float64Array(0);
  let made = new Uint8Array(0);
  let solved = new Float64Array(0);
  let cross = new Float64Array(0);
  let size = 0;
  let list: readonly Given[] = [];
  const projector: Projector = {
    over: (hypotheses) => {
      list = hypotheses;
      const count = list.length;
      const rows = Math.max(0, ...list.map((given) => given.rows.length));
      size = UNKNOWNS * rows;
      if (blocks.length < count * size) blocks = new Float64Array(count * size);
      if (made.length < count) made = new Uint8Array(count);
      else made.fill(0);
      if (solved.length < size) solved = new Float64Array(size);
      if (cross.length < rows) cross = new Float64Array(rows);
      return projector;
    },
    predict: (h, fit, out) => {
      const given = list[h]!;
      if (!made[h]) {
        project(given, solved, blocks, h * size);
        made[h] = 1;
      }
      const m = given.rows.length;
      const block = blocks;
      const c = cross;
      const white = given.innovation;
      const { slope, places } = fit;
      let own = 0;
      for (let i = 0; i < m; i++) c[i] = 0;
      for (let n = 0; n < places.length; n++) {
        const p = places[n]!;
        const s = slope[p]!;
        own += s * s;
        const from = h * size + p * m;
        for (let i = 0; i < m; i++) c[i]! += s * block[from + i]!;
      }
      let mean = fit.middle;
      let variance = own + fit.residual;
      for (let i = 0; i < m; i++) {
        const known = c[i]!;
        mean += known * white[i]!;
        variance -= known * known;
      }
      out[0] = mean;
      out[1] = Math.max(variance, fit.residual, 1e-10);
    },
  };
  return projector;
}

/** Solves the factor for every unknown, into `block` from place `start` on: unknown by unknown, reading by reading. */
function project({ rows, factor }: Given, solved: Float64Array, block: Float64Array, start: number): void {
  const m = rows.length;
  for (let i = 0; i < m; i++) {
    const { slope } = rows[i]!.fit;
    const at = i * UNKNOWNS;
    for (let p = 0; p < UNKNOWNS; p++) solved[at + p] = slope[p]!;
    for (let j = 0; j < i; j++) {
      const share = factor[i * m + j]!;
      if (share === 0) continue;
      const from = j * UNKNOWNS;
      for (let p = 0; p < UNKNOWNS; p++) solved[at + p]! -= share * solved[from + p]!;
    }
    const root = 1 / factor[i * m + i]!;
    for (let p = 0; p < UNKNOWNS; p++) {
      solved[at + p]! *= root;
      block[start + p * m + i] = solved[at + p]!;
    }
  }
}
