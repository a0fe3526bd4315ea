/**
 * Small dense algebra of the joint Gaussian of readings: what two lines share, and triangular factors. Factors are kept
 * column by column, with one over their diagonals apart: going down a column every element waits only for itself, where a
 * dot product along a row waits for each addition before the next.
 */
import { UNKNOWNS } from './latent.ts';
import type { Fit } from './line.ts';

/** Covariance that two lines share, in the product of their units: V² for two readings of volts. */
export function shared(a: Fit, b: Fit): number {
  const places = a.places.length < b.places.length ? a.places : b.places;
  const x = a.slope;
  const y = b.slope;
  let sum = 0;
  for (let n = 0; n < places.length; n++) sum += x[places[n]!]! * y[places[n]!]!;
  return sum;
}

/** A factor that grows by one reading at a time, in the units of the readings. */
export interface Growing {
  /** Readings that it has room for. */
  readonly room: number;
  /** Under the diagonal: place i · room + k is row k of column i. */
  readonly columns: Float64Array;
  /** One over the diagonal. */
  readonly inverse: Float64Array;
  /** Slopes of the readings in it, unknown by unknown: place p · room + i is the slope of reading i in unknown p. */
  readonly slopes: Float64Array;
  /** What a reading shares with those in it; then its row of the factor. */
  readonly solved: Float64Array;
}

/** A factor with room for so many readings, empty. `slopes` may be used again by the next one, and `solved` too. */
export function growing(room: number, slopes: Float64Array, solved: Float64Array): Growing {
  return {
    room,
    columns: new Float64Array(room * room),
    inverse: new Float64Array(room),
    slopes,
    solved,
  };
}

/**
 * What a line shares with itself, in the square of its unit: V² for volts. What it shares with each of the `m` readings in a
 * factor is written to `solved`. Four unknowns at a go.
 */
export function shareWith({ solved, slopes, room }: Growing, { slope, places }: Fit, m: number): number {
  // Local names: fields are read afresh at each use.
  const c = solved;
  const kept = slopes;
  const stride = room;
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
    const [atW, atX, atY, atZ] = [w * stride, x * stride, y * stride, z * stride];
    for (let i = 0; i < m; i++)
      c[i]! += sw * kept[atW + i]! + sx * kept[atX + i]! + sy * kept[atY + i]! + sz * kept[atZ + i]!;
  }
  for (; n < count; n++) {
    const p = places[n]!;
    const s = slope[p]!;
    own += s * s;
    const from = p * stride;
    for (let i = 0; i < m; i++) c[i]! += s * kept[from + i]!;
  }
  return own;
}

/** Solves the factor of the first `m` readings for `solved`, in place, two columns at a go. */
export function solve({ columns, inverse, solved, room }: Growing, m: number): void {
  const c = solved;
  const lower = columns;
  const roots = inverse;
  const stride = room;
  let i = 0;
  for (; i + 1 < m; i += 2) {
    const from = i * stride;
    const next = from + stride;
    const a = c[i]! * roots[i]!;
    const b = (c[i + 1]! - lower[from + i + 1]! * a) * roots[i + 1]!;
    c[i] = a;
    c[i + 1] = b;
    for (let k = i + 2; k < m; k++) c[k]! -= lower[from + k]! * a + lower[next + k]! * b;
  }
  if (i < m) c[i]! *= roots[i]!;
}

/** Keeps a reading as number m: its slopes, and its row of the factor from `solved`, with `root` on the diagonal. */
export function keep(
  { columns, inverse, slopes, solved, room }: Growing,
  { slope }: Fit,
  m: number,
  root: number,
): void {
  for (let i = 0; i < m; i++) columns[i * room + m] = solved[i]!;
  for (let p = 0; p < UNKNOWNS; p++) slopes[p * room + m] = slope[p]!;
  inverse[m] = 1 / root;
}

/** Solves L·x = right for a lower triangle of `m` rows, in the units of `right` over those of L. */
export function forward(
  columns: Float64Array,
  inverse: Float64Array,
  right: Float64Array,
  m: number,
): Float64Array {
  const x = right.slice(0, m);
  for (let i = 0; i < m; i++) {
    const a = x[i]! * inverse[i]!;
    x[i] = a;
    const from = i * m;
    for (let k = i + 1; k < m; k++) x[k]! -= columns[from + k]! * a;
  }
  return x;
}

/** Scratch of `invert`, which grows and is used again. */
let halves = new Float64Array(0);
let wholes = new Float64Array(0);

/** Inverse of L·Lᵀ, `m` rows, in one over the square of L's unit. It holds until the next call. */
export function invert(columns: Float64Array, inverse: Float64Array, m: number): Float64Array {
  if (halves.length < m * m) {
    halves = new Float64Array(m * m);
    wholes = new Float64Array(m * m);
  }
  const half = halves;
  const full = wholes;
  half.fill(0, 0, m * m);
  full.fill(0, 0, m * m);
  for (let i = 0; i < m; i++) {
    const row = i * m;
    const root = inverse[i]!;
    for (let k = 0; k < i; k++) {
      const a = columns[k * m + i]! * root;
      if (a === 0) continue;
      const from = k * m;
      for (let j = 0; j <= k; j++) half[row + j]! -= a * half[from + j]!;
    }
    half[row + i] = root;
  }
  for (let k = 0; k < m; k++) {
    const from = k * m;
    for (let i = 0; i <= k; i++) {
      const a = half[from + i]!;
      const row = i * m;
      for (let j = 0; j <= i; j++) full[row + j]! += a * half[from + j]!;
    }
  }
  for (let i = 0; i < m; i++) for (let j = 0; j < i; j++) full[j * m + i] = full[i * m + j]!;
  return full;
}
