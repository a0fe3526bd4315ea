/**
 * Guesses at what went wrong with one reading under one hypothesis: every mistake that could have made its value, with
 * its odds against "read rightly", all other readings given.
 */
import { logNormalDensity } from '../numbers/normal.ts';
import { MISTAKES, type Mistake } from '../reading/mistakes.ts';
import { shared } from './gaussian.ts';
import type { Fit } from './line.ts';
import type { Row } from './weigh.ts';

/** What may have been measured instead of what was asked for: another pair, other points, another engine state. */
export interface Instead {
  readonly mistake: Mistake;
  readonly fit: Fit;
  /** Variance of meter, rounding and line together, the kind's unit squared. */
  readonly scatter: number;
}

/** A mistake that may have been made, with its log odds against "read rightly", nats. */
export interface Guess {
  readonly row: number;
  readonly mistake: Mistake;
  readonly meant: number;
  readonly gain: number;
}

/** Squared distance, in its own deviations, to what all others expect from which a reading is worth doubting, dimensionless. */
export const DOUBTABLE = 4;
/** … and worth asking where else the tips may have been from this one: such mistakes are one in a thousand readings. */
const ASTRAY = 8;
/** A meter that shows nothing shows it within a digit or two: width of that, the kind's unit. */
const NOTHING_WIDE = 0.05;

/** The likeliest of some guesses; null for none. */
export function greatest(list: readonly Guess[]): Guess | null {
  return list.length ? list.reduce((a, b) => (a.gain > b.gain ? a : b)) : null;
}

/** Every mistake of every row: log odds against "read rightly", from the row's distribution given all the others. */
export function guesses(
  rows: readonly Row[],
  residual: Float64Array,
  inverse: Float64Array,
  m: number,
  instead?: (row: number) => readonly Instead[],
): Guess[] {
  const found: Guess[] = [];
  for (let j = 0; j < m; j++) {
    let pr = 0;
    for (let i = 0; i < m; i++) pr += inverse[j * m + i]! * residual[i]!;
    const pjj = inverse[j * m + j]!;
    const off = (pr * pr) / pjj;
    if (off < DOUBTABLE) continue;
    const variance = 1 / pjj;
    const away = pr * variance;
    const row = rows[j]!;
    const expected = row.fit.middle + residual[j]! - away;
    const against = Math.log(row.slip) - Math.log1p(-row.slip) - logNormalDensity(away, variance);
    const add = (mistake: Mistake, meant: number, density: number) => {
      const gain = against + Math.log(mistake.share) + density;
      if (gain > -7) found.push({ row: j, mistake, meant, gain });
    };
    for (const mistake of row.mistakes) {
      if (mistake === MISTAKES.nothing) {
        // Only where the others expect more than nothing.
        if (expected * expected > 9 * variance) add(mistake, expected, -Math.log(NOTHING_WIDE));
        continue;
      }
      const meant = mistake.undo(row.value);
      if (meant === null) continue;
      const spread = variance + (mistake.spread * meant) ** 2 + mistake.blur ** 2;
      const loose = mistake.spread > 0 || mistake.blur > 0;
      add(
        mistake,
        loose ? expected : meant,
        logNormalDensity(meant - expected, spread) + Math.log(mistake.stretch(row.value)),
      );
    }
    add(MISTAKES.anything, expected, Math.log(row.anything));
    if (!instead || off < ASTRAY) continue;
    for (const other of instead(j)) {
      const density = densityInstead(rows, residual, inverse, m, j, other);
      add(other.mistake, expected, density);
    }
  }
  return found;
}

/** Log density of row j's value if it was taken as `other`, given all the other rows, nats. */
function densityInstead(
  rows: readonly Row[],
  residual: Float64Array,
  inverse: Float64Array,
  m: number,
  j: number,
  other: Instead,
): number {
  if (Number.isNaN(other.fit.middle)) return Number.NEGATIVE_INFINITY;
  const away = rows[j]!.value - other.fit.middle;
  const prior = shared(other.fit, other.fit) + other.scatter;
  if (away * away > 30 * prior) return Number.NEGATIVE_INFINITY;
  const together = new Float64Array(m);
  for (let i = 0; i < m; i++) together[i] = i === j ? 0 : shared(rows[i]!.fit, other.fit);
  // With row j taken out of the inverse covariance P: P − Pj·Pjᵀ/Pjj on the others.
  let mean = 0;
  let square = 0;
  let atJ = 0;
  let rJ = 0;
  for (let i = 0; i < m; i++) rJ += inverse[j * m + i]! * residual[i]!;
  for (let i = 0; i < m; i++) {
    if (i === j) continue;
    const c = together[i]!;
    atJ += c * inverse[j * m + i]!;
    let pr = 0;
    let pc = 0;
    for (let k = 0; k < m; k++) {
      pr += inverse[i * m + k]! * residual[k]!;
      pc += inverse[i * m + k]! * together[k]!;
    }
    mean += c * pr;
    square += c * pc;
  }
  const pjj = inverse[j * m + j]!;
  mean -= (atJ * rJ) / pjj;
  square -= (atJ * atJ) / pjj;
  return logNormalDensity(away - mean, Math.max(prior - square, 0.2 * other.scatter));
}
