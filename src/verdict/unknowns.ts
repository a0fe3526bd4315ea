/**
 * What the readings say of each unknown under one hypothesis: the factor of the readings' covariance solved for the slopes
 * in each unknown, once, for whoever asks for an unknown or predicts a further reading.
 */
import { UNKNOWNS } from './latent.ts';
import type { Given } from './weigh.ts';

export interface Solved {
  /** Unknowns that any of the readings feels, in ascending order. */
  readonly felt: readonly number[];
  /** Unknown by unknown, as `felt` lists them, reading by reading: what that reading adds to what those before it say. */
  readonly slopes: Float64Array;
}

/** What the readings say of the unknowns; remembered with what is given. */
export function solvedOf(given: Given): Solved {
  if (given.unknowns) return given.unknowns;
  const { rows, columns, inverse } = given;
  const m = rows.length;
  const felt: number[] = [];
  for (let p = 0; p < UNKNOWNS; p++)
    for (let i = 0; i < m; i++)
      if (rows[i]!.fit.slope[p] !== 0) {
        felt.push(p);
        break;
      }
  const slopes = new Float64Array(felt.length * m);
  for (let n = 0; n < felt.length; n++) {
    const p = felt[n]!;
    const at = n * m;
    for (let i = 0; i < m; i++) slopes[at + i] = rows[i]!.fit.slope[p]!;
    for (let i = 0; i < m; i++) {
      const a = slopes[at + i]! * inverse[i]!;
      slopes[at + i] = a;
      if (a === 0) continue;
      const from = i * m;
      for (let k = i + 1; k < m; k++) slopes[at + k]! -= columns[from + k]! * a;
    }
  }
  given.unknowns = { felt, slopes };
  return given.unknowns;
}
