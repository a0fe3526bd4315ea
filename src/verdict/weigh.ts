/**
 * How well one hypothesis explains the readings: a Gaussian in all of them together, with the unknowns integrated
 * out, and reading mistakes as named alternatives.
 *
 * Two passes. `roughWeight` (rough-weight.ts) goes through the readings in order and drops whatever fits worse than a
 * mistake would; it ranks thousands of sets in microseconds each. `weigh` then takes the readings of the best sets all
 * together (so their order cannot matter) and adds up: no mistake, each reading under each mistake, and a second mistake
 * on top of the best first one.
 */
import { MISTAKES, type Mistake } from '../reading/mistakes.ts';
import { forward, growing, invert, keep, shared, shareWith, solve } from './gaussian.ts';
import { DOUBTABLE, type Guess, greatest, guesses, type Instead } from './guess.ts';
import { UNKNOWNS } from './latent.ts';
import type { Fit } from './line.ts';
import type { Solved } from './unknowns.ts';

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
  /** Equal for rows that expect the same (but for a coincidence in the last of 53 bits), dimensionless. */
  readonly mark: number;
}

/** Chance that a reading is taken or typed wrongly, dimensionless (guess; diagnosis texts use some 3 %). */
export const SLIP = 0.03;
/** The same for a reading that was taken again, dimensionless: hardly wrong twice. */
export const SLIP_AGAIN = 0.002;
/** Readings weighed together at the most, dimensionless. */
export const MOST_ROWS = 96;

/** A reading taken for a mistake, and the value it then meant. */
export interface Slip {
  readonly row: number;
  readonly mistake: Mistake;
  readonly meant: number;
  readonly share: number;
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
  /** The factor column by column, as many rows as readings, and one over its diagonal (gaussian.ts). */
  readonly columns: Float64Array;
  readonly inverse: Float64Array;
  readonly innovation: Float64Array;
  /** What the readings say of the unknowns (unknowns.ts), made when first asked for. */
  unknowns?: Solved;
}

/** Scratch of `weigh`, which grows and is used again. */
let slopes = new Float64Array(0);
let solved = new Float64Array(0);
let away = new Float64Array(0);

/** Weighs one hypothesis on all rows together. `instead` tells what else a row that does not fit may have been. */
export function weigh(rows: readonly Row[], instead?: (row: number) => readonly Instead[]): Weighed {
  const m = rows.length;
  if (slopes.length < UNKNOWNS * m) slopes = new Float64Array(UNKNOWNS * m);
  if (solved.length < m) solved = new Float64Array(m);
  const factor = growing(m, slopes, solved);
  const { columns, inverse } = factor;
  const c = solved;
  if (away.length < m) away = new Float64Array(m);
  const residual = away;
  const white = new Float64Array(m);
  let logRight = 0;
  let square = 0;
  let logRoot = 0;
  for (let i = 0; i < m; i++) {
    const { value, fit, scatter, slip } = rows[i]!;
    let variance = shareWith(factor, fit, i) + scatter;
    solve(factor, i);
    const off = value - fit.middle;
    let known = 0;
    for (let j = 0; j < i; j++) {
      known += c[j]! * white[j]!;
      variance -= c[j]! * c[j]!;
    }
    const root = Math.sqrt(Math.max(variance, 0.05 * scatter));
    keep(factor, fit, i, root);
    residual[i] = off;
    white[i] = (off - known) / root;
    logRight += Math.log1p(-slip);
    square += white[i]! ** 2;
    logRoot += Math.log(root);
  }
  const base = logRight - 0.5 * square - logRoot - 0.5 * m * Math.log(2 * Math.PI);
  const given: Given = { rows, columns, inverse, innovation: white };
  // No row can be further off than all of them together: nothing to doubt, nothing to invert.
  if (square < DOUBTABLE) return { log: base, slips: [], given, misfit: square, mended: 0, unnamed: 0 };

  const precision = invert(columns, inverse, m);
  // Asked for once: the second round doubts mostly the same rows.
  const told = new Map<number, readonly Instead[]>();
  const once =
    instead &&
    ((row: number) => {
      const list = told.get(row) ?? instead(row);
      told.set(row, list);
      return list;
    });
  const first = guesses(rows, residual, precision, m, once);
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
    const replaced = residual.slice(0, m);
    replaced[best.row] = best.meant - rows[best.row]!.fit.middle;
    mended.push(best);
    pairs = guesses(rows, replaced, precision, m, once).filter((c) => c.row !== best.row && c.gain > -4);
    const next = greatest(pairs);
    if (next && next.gain > 0) {
      replaced[next.row] = next.meant - rows[next.row]!.fit.middle;
      mended.push(next);
    }
    chosen = forward(columns, inverse, replaced, m);
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
    given: { rows, columns, inverse, innovation: chosen },
    misfit,
    mended: mended.length,
    unnamed: mended.filter((c) => c.mistake === MISTAKES.anything).length,
  };
}

/** Mean and variance, meter and rounding counted in, of row j given all the others; into `out` [mean, variance] for each. */
export function leaveOneOut({ rows, columns, inverse, innovation }: Given, out: Float64Array): void {
  const m = rows.length;
  const precision = invert(columns, inverse, m);
  const together = new Float64Array(m);
  // The residual that the factor was solved for, L·white: it may have had mistakes put right.
  const residual = new Float64Array(m);
  // P·r = L⁻ᵀ·white, from the back.
  for (let i = m - 1; i >= 0; i--) {
    const from = i * m;
    const white = innovation[i]!;
    let sum = white;
    for (let k = i + 1; k < m; k++) {
      sum -= columns[from + k]! * together[k]!;
      residual[k]! += columns[from + k]! * white;
    }
    together[i] = sum * inverse[i]!;
    residual[i]! += white / inverse[i]!;
  }
  for (let j = 0; j < m; j++) {
    const pjj = precision[j * m + j]!;
    out[2 * j] = rows[j]!.fit.middle + residual[j]! - together[j]! / pjj;
    out[2 * j + 1] = 1 / pjj;
  }
}

/** Mean and variance of what a further reading would show, into `out` [mean, variance without meter]. */
export function predict({ rows, columns, inverse, innovation }: Given, fit: Fit, out: Float64Array): void {
  const together = Float64Array.from(rows, (row) => shared(row.fit, fit));
  const known = forward(columns, inverse, together, rows.length);
  let mean = fit.middle;
  let variance = shared(fit, fit) + fit.residual;
  known.forEach((c, i) => {
    mean += c * innovation[i]!;
    variance -= c * c;
  });
  out[0] = mean;
  out[1] = Math.max(variance, fit.residual, 1e-10);
}
