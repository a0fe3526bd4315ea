/**
 * One story's weight along an order of readings: after none of them, after the first, … after all. The same figure as
 * `weigh` gives for each of these selections (a test holds the two together), but all of them in one pass: each
 * reading borders the inverse of the covariance by one row instead of factoring anew. 25 readings take some 20 µs where
 * 25 calls of `weigh` take 600.
 */
import { logNormalDensity } from '../numbers/normal.ts';
import { MISTAKES } from '../reading/mistakes.ts';
import type { Fit } from './line.ts';
import { MOST_ROWS, type Row } from './weigh.ts';

/** Squared standardised misfit under which a reading is not worth doubting, as in `weigh`, dimensionless. */
const FITS = 4;
/** Log odds under which a mistake, or a second one, is passed over, as in `weigh`, nats. */
const LEAST = -7;
const LEAST_SECOND = -4;
/** Width of what a meter shows that shows nothing, as in `weigh`, the kind's unit. */
const NOTHING_WIDE = 0.05;
/** Nats behind the best story at which a story's mistakes are not gone through: it is out either way. */
const HOPELESS = 20;

const SIZE = MOST_ROWS;
const inverse = new Float64Array(SIZE * SIZE);
const pull = new Float64Array(SIZE);
const second = new Float64Array(SIZE);
const across = new Float64Array(SIZE);
const weights = new Float64Array(SIZE);
const residual = new Float64Array(SIZE);
const after = new Float64Array(SIZE);
const spread = new Float64Array(SIZE);
const places = new Int32Array(SIZE);
const gains: number[] = [];

/** What one story makes of every reading: a row for a number it foretells, and a log weight for anything else. */
export interface Telling {
  readonly rows: readonly (Row | null)[];
  /** Log weight of what is no number (OL, a thing seen), nats. */
  readonly terms: Float64Array;
}

const covariance = new Float64Array(SIZE * SIZE);
let covered: Telling | null = null;

/** Fills `covariance` for a story; a second order of the same story finds it filled. */
function cover(story: Telling): void {
  if (covered === story) return;
  covered = story;
  const { rows } = story;
  for (let i = 0; i < rows.length; i++) {
    const a = rows[i];
    if (!a) continue;
    for (let j = 0; j <= i; j++) {
      const b = rows[j];
      if (!b) continue;
      const c = common(a.fit, b.fit) + (i === j ? a.scatter : 0);
      covariance[i * SIZE + j] = c;
      covariance[j * SIZE + i] = c;
    }
  }
}

/** Covariance that two lines share, in the units of both multiplied. */
export function common(a: Fit, b: Fit): number {
  const shorter = a.places.length < b.places.length ? a.places : b.places;
  let sum = 0;
  for (let n = 0; n < shorter.length; n++) sum += a.slope[shorter[n]!]! * b.slope[shorter[n]!]!;
  return sum;
}

/**
 * Log weights after 0, 1, … m readings of `order`, nats, into `out` at `from`. `best` holds the greatest of each so far
 * and is raised. With `without`, the log weight of all readings but each one goes there, by the reading's own place.
 */
export function weighAlong(
  story: Telling,
  order: readonly number[],
  out: Float64Array,
  from: number,
  best: Float64Array,
  without: Float64Array | null = null,
): void {
  cover(story);
  const { rows, terms } = story;
  const m = order.length;
  let log = 0;
  let other = 0;
  let k = 0;
  let total = 0;
  out[from] = 0;
  for (let step = 0; step < m; step++) {
    const at = order[step]!;
    other += terms[at]!;
    const row = rows[at];
    if (row) {
      log += border(row, at, k);
      places[k] = at;
      k++;
      total = log + mistaken(rows, k, -1, best[step + 1]! - other - log);
    }
    const value = other + total;
    out[from + step + 1] = value;
    if (value > best[step + 1]!) best[step + 1] = value;
  }
  if (!without) return;
  for (let step = 0; step < m; step++) {
    const at = order[step]!;
    without[at] = other - terms[at]! + total;
  }
  for (let n = 0; n < k; n++) {
    const row = rows[places[n]!]!;
    const variance = 1 / inverse[n * SIZE + n]!;
    const left = log - logNormalDensity(pull[n]! * variance, variance) - Math.log1p(-row.slip);
    without[places[n]!] = other - terms[places[n]!]! + left + mistaken(rows, k, n, Number.NEGATIVE_INFINITY);
  }
}

/** Joins one row to the inverse; its log density given the rows before it, read rightly. */
function border(row: Row, at: number, k: number): number {
  for (let i = 0; i < k; i++) across[i] = covariance[at * SIZE + places[i]!]!;
  let variance = covariance[at * SIZE + at]!;
  let away = row.value - row.fit.middle;
  residual[k] = away;
  for (let i = 0; i < k; i++) {
    let sum = 0;
    for (let j = 0; j < k; j++) sum += inverse[i * SIZE + j]! * across[j]!;
    weights[i] = sum;
    variance -= sum * across[i]!;
    away -= sum * residual[i]!;
  }
  variance = Math.max(variance, 0.05 * row.scatter);
  for (let i = 0; i < k; i++) {
    const share = weights[i]! / variance;
    for (let j = 0; j < k; j++) inverse[i * SIZE + j]! += share * weights[j]!;
    inverse[i * SIZE + k] = -share;
    inverse[k * SIZE + i] = -share;
    pull[i]! -= share * away;
  }
  inverse[k * SIZE + k] = 1 / variance;
  pull[k] = away / variance;
  return Math.log1p(-row.slip) + logNormalDensity(away, variance);
}

/** Best mistake found by the last `collect`. */
let topGain = 0;
let topRow = -1;
let topMeant = 0;

/**
 * Log factor by which mistakes raise the weight of the first k rows, without row `skip` if that is none of −1, nats.
 * `wanted`: how far the best story is ahead; far enough, and the factor is only bounded.
 */
function mistaken(rows: readonly (Row | null)[], k: number, skip: number, wanted: number): number {
  const pivot = skip < 0 ? 0 : inverse[skip * SIZE + skip]!;
  let worst = 0;
  for (let i = 0; i < k; i++) {
    const link = skip < 0 ? 0 : inverse[i * SIZE + skip]! / pivot;
    const precision =
      i === skip ? 1 : inverse[i * SIZE + i]! - link * (skip < 0 ? 0 : inverse[i * SIZE + skip]!);
    after[i] = i === skip ? 0 : pull[i]! - (skip < 0 ? 0 : link * pull[skip]!);
    spread[i] = 1 / precision;
    worst = Math.max(worst, after[i]! * after[i]! * spread[i]!);
  }
  if (worst < FITS) return 0;
  if (wanted - worst > HOPELESS) return 0;
  gains.length = 0;
  collect(rows, k, after, skip, -1, LEAST);
  const first = topGain;
  if (gains.length && first > 0) {
    const row = topRow;
    const moved = topMeant - rows[places[row]!]!.fit.middle - residual[row]!;
    for (let i = 0; i < k; i++) {
      const link = skip < 0 ? 0 : (inverse[i * SIZE + skip]! * inverse[row * SIZE + skip]!) / pivot;
      second[i] = after[i]! + (inverse[i * SIZE + row]! - link) * moved;
    }
    const many = gains.length;
    collect(rows, k, second, skip, row, LEAST_SECOND);
    for (let n = many; n < gains.length; n++) gains[n]! += first;
  }
  let top = 0;
  for (const gain of gains) top = Math.max(top, gain);
  let all = Math.exp(-top);
  for (const gain of gains) all += Math.exp(gain - top);
  return top + Math.log(all);
}

/** Log odds of every mistake worth counting, appended to `gains`; the rows' misfits come from `pulls`. */
function collect(
  rows: readonly (Row | null)[],
  k: number,
  pulls: Float64Array,
  skip: number,
  done: number,
  least: number,
): void {
  topGain = Number.NEGATIVE_INFINITY;
  for (let j = 0; j < k; j++) {
    if (j === skip) continue;
    const variance = spread[j]!;
    const away = pulls[j]! * variance;
    if (away * pulls[j]! < FITS || j === done) continue;
    const row = rows[places[j]!]!;
    const expected = row.value - away;
    const right = Math.log1p(-row.slip) + logNormalDensity(away, variance);
    const slip = Math.log(row.slip);
    const add = (gain: number, meant: number) => {
      if (!(gain > least)) return;
      gains.push(gain);
      if (gain > topGain) {
        topGain = gain;
        topRow = j;
        topMeant = meant;
      }
    };
    for (const mistake of row.mistakes) {
      if (mistake === MISTAKES.nothing) {
        // Only where the others expect more than nothing.
        if (expected * expected > 9 * variance)
          add(slip + Math.log(mistake.share / NOTHING_WIDE) - right, expected);
        continue;
      }
      const meant = mistake.undo(row.value);
      if (meant === null) continue;
      const wide = variance + (mistake.spread * meant) ** 2 + mistake.blur ** 2;
      add(
        slip +
          Math.log(mistake.share * mistake.stretch(row.value)) +
          logNormalDensity(meant - expected, wide) -
          right,
        mistake.spread > 0 || mistake.blur > 0 ? expected : meant,
      );
    }
    add(slip + Math.log(MISTAKES.anything.share * row.anything) - right, expected);
  }
}
