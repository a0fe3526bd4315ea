/**
 * How well one hypothesis explains the readings: a Gaussian in all of them together, with the unknowns integrated
 * out, and reading mistakes as named alternatives.
 *
 * Two passes. `roughWeight` goes through the readings in order and drops whatever fits worse than a mistake would;
 * it ranks thousands of sets in microseconds each. `weigh` then takes the readings of the best sets all together
 * (so their order cannot matter) and adds up: no mistake, each reading under each mistake, and a second mistake on
 * top of the best first one.
 */
import { logNormalDensity } from '../numbers/normal.ts';
import { MISTAKES, type Mistake } from '../reading/mistakes.ts';
import type { Fit } from './line.ts';

/** One numeric reading against one hypothesis. */
export interface Row {
  readonly value: number;
  readonly fit: Fit;
  /** Variance of meter, rounding and line together, the kind's unit squared. */
  readonly scatter: number;
  /** Mistakes that this kind of reading allows. */
  readonly mistakes: readonly Mistake[];
  /** Chance that this reading was taken or typed wrongly, 0–1. */
  readonly slip: number;
  /** Density of a value that means nothing, per unit. */
  readonly anything: number;
}

/** Chance that a reading is taken or typed wrongly, dimensionless (guess; diagnosis texts use some 3 %). */
export const SLIP = 0.03;
/** The same for a reading that was taken again, dimensionless: hardly wrong twice. */
export const SLIP_AGAIN = 0.002;
/** Readings weighed together at the most, dimensionless. */
export const MOST_ROWS = 96;

const factor = new Float64Array(MOST_ROWS * MOST_ROWS);
const innovation = new Float64Array(MOST_ROWS);
const solved = new Float64Array(MOST_ROWS);
const kept: Row[] = [];

/** Covariance that two lines share, product of their units. */
function shared(a: Fit, b: Fit): number {
  const places = a.places.length < b.places.length ? a.places : b.places;
  const x = a.slope;
  const y = b.slope;
  let sum = 0;
  for (let n = 0; n < places.length; n++) sum += x[places[n]!]! * y[places[n]!]!;
  return sum;
}

/** Rows that the last call of `roughWeight` set aside. */
export const setAside: Row[] = [];

/** Log weight with doubtful readings set aside one after another, nats. */
export function roughWeight(rows: readonly Row[]): number {
  let log = 0;
  let m = 0;
  kept.length = 0;
  setAside.length = 0;
  for (const row of rows) {
    if (m >= MOST_ROWS) break;
    let gain = 0;
    let variance = shared(row.fit, row.fit) + row.scatter;
    for (let i = 0; i < m; i++) {
      let c = shared(kept[i]!.fit, row.fit);
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
    if (right < wrong) {
      log += wrong;
      setAside.push(row);
      continue;
    }
    log += right;
    const root = Math.sqrt(variance);
    for (let j = 0; j < m; j++) factor[m * MOST_ROWS + j] = solved[j]!;
    factor[m * MOST_ROWS + m] = root;
    innovation[m] = misfit / root;
    kept[m++] = row;
  }
  return log;
}

/** A reading taken for a mistake, and the value it then meant. */
export interface Slip {
  readonly row: number;
  readonly mistake: Mistake;
  readonly meant: number;
  readonly share: number;
}

/** What may have been measured instead of what was asked for: another pair, other points, another engine state. */
export interface Instead {
  readonly mistake: Mistake;
  readonly fit: Fit;
  /** Variance of meter, rounding and line together, the kind's unit squared. */
  readonly scatter: number;
}

export interface Weighed {
  /** Log weight, nats. */
  readonly log: number;
  /** Mistakes with their share of this hypothesis' weight. */
  readonly slips: readonly Slip[];
  /** The unknowns given the readings, for predictions. */
  readonly given: Given;
  /** Sum of squared misfits over the readings, with the unknowns integrated out and the mistakes put right: a χ². */
  readonly misfit: number;
  /** Readings put right in it, 0–2, and how many of these by no mistake that has a name. */
  readonly mended: number;
  readonly unnamed: number;
}

/** The Gaussian of the unknowns given the readings, kept as a triangular factor of the readings' covariance. */
export interface Given {
  readonly rows: readonly Row[];
  readonly factor: Float64Array;
  readonly innovation: Float64Array;
}

/** Weighs one hypothesis on all rows together. `instead` tells what else a row that does not fit may have been. */
export function weigh(rows: readonly Row[], instead?: (row: number) => readonly Instead[]): Weighed {
  const m = rows.length;
  const lower = new Float64Array(m * m);
  const residual = new Float64Array(m);
  let logRight = 0;
  for (let i = 0; i < m; i++) {
    const row = rows[i]!;
    residual[i] = row.value - row.fit.middle;
    logRight += Math.log1p(-row.slip);
    for (let j = 0; j <= i; j++) {
      let c = shared(row.fit, rows[j]!.fit) + (i === j ? row.scatter : 0);
      for (let k = 0; k < j; k++) c -= lower[i * m + k]! * lower[j * m + k]!;
      lower[i * m + j] = i === j ? Math.sqrt(Math.max(c, 0.05 * row.scatter)) : c / lower[j * m + j]!;
    }
  }
  const white = forward(lower, residual, m);
  let square = 0;
  let logRoot = 0;
  for (let i = 0; i < m; i++) {
    square += white[i]! ** 2;
    logRoot += Math.log(lower[i * m + i]!);
  }
  const base = logRight - 0.5 * square - logRoot - 0.5 * m * Math.log(2 * Math.PI);
  const given: Given = { rows, factor: lower, innovation: white };
  // No row can be further off than all of them together: nothing to doubt, nothing to invert.
  if (square < DOUBTABLE) return { log: base, slips: [], given, misfit: square, mended: 0, unnamed: 0 };

  const inverse = invert(lower, m);
  // Asked for once: the second round doubts mostly the same rows.
  const told = new Map<number, readonly Instead[]>();
  const once =
    instead &&
    ((row: number) => {
      const list = told.get(row) ?? instead(row);
      told.set(row, list);
      return list;
    });
  const first = guesses(rows, residual, inverse, m, once);
  // A second mistake on top of the best first one.
  const best = greatest(first);
  const slips: { row: number; mistake: Mistake; meant: number; log: number }[] = first.map((c) => ({
    ...c,
    log: c.gain,
  }));
  let pairs: Guess[] = [];
  let chosen: Float64Array = white;
  let misfit = square;
  const mended: Guess[] = [];
  if (best && best.gain > 0) {
    const replaced = Float64Array.from(residual);
    replaced[best.row] = best.meant - rows[best.row]!.fit.middle;
    mended.push(best);
    pairs = guesses(rows, replaced, inverse, m, once).filter((c) => c.row !== best.row && c.gain > -4);
    const next = greatest(pairs);
    if (next && next.gain > 0) {
      replaced[next.row] = next.meant - rows[next.row]!.fit.middle;
      mended.push(next);
    }
    chosen = forward(lower, replaced, m);
    misfit = 0;
    for (let i = 0; i < m; i++) misfit += chosen[i]! ** 2;
    for (const c of pairs) {
      // Each pair speaks for both of its readings.
      slips.push({ ...c, log: best.gain + c.gain });
      slips.push({ ...best, log: best.gain + c.gain });
    }
  }
  // Weights are kept relative to the greatest, since a hopeless reading's odds pass any number's range.
  let top = 0;
  for (const c of slips) top = Math.max(top, c.log);
  let all = Math.exp(-top);
  for (const c of first) all += Math.exp(c.gain - top);
  for (const c of pairs) all += Math.exp(best!.gain + c.gain - top);
  return {
    log: base + top + Math.log(all),
    slips: slips
      .map((s) => ({ row: s.row, mistake: s.mistake, meant: s.meant, share: Math.exp(s.log - top) / all }))
      .filter((s) => s.share > 0.005),
    given: { rows, factor: lower, innovation: chosen },
    misfit,
    mended: mended.length,
    unnamed: mended.filter((c) => c.mistake === MISTAKES.anything).length,
  };
}

/** A mistake that may have been made, with its log odds against "read rightly", nats. */
interface Guess {
  readonly row: number;
  readonly mistake: Mistake;
  readonly meant: number;
  readonly gain: number;
}

/** A reading is worth doubting from this squared distance to what all others expect of it, in its own deviations. */
const DOUBTABLE = 4;
/** … and worth asking where else the tips may have been from this one: such mistakes are one in a thousand readings. */
const ASTRAY = 8;
/** A meter that shows nothing shows it within a digit or two: width of that, the kind's unit. */
const NOTHING_WIDE = 0.05;

function greatest(list: readonly Guess[]): Guess | null {
  return list.length ? list.reduce((a, b) => (a.gain > b.gain ? a : b)) : null;
}

/** Every mistake of every row: log odds against "read rightly", from the row's distribution given all the others. */
function guesses(
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

const together = new Float64Array(MOST_ROWS);

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

/** Mean and variance, meter and rounding counted in, of row j given all the others; into `out` [mean, variance] for each. */
export function leaveOneOut(given: Given, out: Float64Array): void {
  const { rows, factor: lower, innovation } = given;
  const m = rows.length;
  const inverse = invert(lower, m);
  // P·r = L⁻ᵀ·white, from the back.
  for (let i = m - 1; i >= 0; i--) {
    let sum = innovation[i]!;
    for (let k = i + 1; k < m; k++) sum -= lower[k * m + i]! * together[k]!;
    together[i] = sum / lower[i * m + i]!;
  }
  for (let j = 0; j < m; j++) {
    const pjj = inverse[j * m + j]!;
    // The residual that the factor was solved for: it may have had mistakes put right.
    let r = 0;
    for (let k = 0; k <= j; k++) r += lower[j * m + k]! * innovation[k]!;
    out[2 * j] = rows[j]!.fit.middle + r - together[j]! / pjj;
    out[2 * j + 1] = 1 / pjj;
  }
}

function forward(lower: Float64Array, right: Float64Array, m: number): Float64Array {
  const x = new Float64Array(m);
  for (let i = 0; i < m; i++) {
    let sum = right[i]!;
    for (let j = 0; j < i; j++) sum -= lower[i * m + j]! * x[j]!;
    x[i] = sum / lower[i * m + i]!;
  }
  return x;
}

/** Inverse of L·Lᵀ. */
function invert(lower: Float64Array, m: number): Float64Array {
  const half = new Float64Array(m * m);
  for (let col = 0; col < m; col++) {
    half[col * m + col] = 1 / lower[col * m + col]!;
    for (let i = col + 1; i < m; i++) {
      let sum = 0;
      for (let j = col; j < i; j++) sum -= lower[i * m + j]! * half[j * m + col]!;
      half[i * m + col] = sum / lower[i * m + i]!;
    }
  }
  const full = new Float64Array(m * m);
  for (let i = 0; i < m; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = 0;
      for (let k = i; k < m; k++) sum += half[k * m + i]! * half[k * m + j]!;
      full[i * m + j] = sum;
      full[j * m + i] = sum;
    }
  }
  return full;
}

const cross = new Float64Array(MOST_ROWS);

/** Mean and variance of what a further reading would show, into `out` [mean, variance without meter]. */
export function predict(given: Given, fit: Fit, out: Float64Array): void {
  const m = given.rows.length;
  let mean = fit.middle;
  let variance = shared(fit, fit) + fit.residual;
  for (let i = 0; i < m; i++) {
    let c = shared(given.rows[i]!.fit, fit);
    for (let j = 0; j < i; j++) c -= given.factor[i * m + j]! * cross[j]!;
    c /= given.factor[i * m + i]!;
    cross[i] = c;
    mean += c * given.innovation[i]!;
    variance -= c * c;
  }
  out[0] = mean;
  out[1] = Math.max(variance, fit.residual, 1e-10);
}
