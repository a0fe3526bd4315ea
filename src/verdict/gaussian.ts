/** Small dense algebra of the joint Gaussian of readings: what two lines share, and triangular factors. */
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

/** Solves L·x = right for a lower triangle of `m` rows, in the units of `right` over those of L. */
export function forward(lower: Float64Array, right: Float64Array, m: number): Float64Array {
  const x = new Float64Array(m);
  for (let i = 0; i < m; i++) {
    let sum = right[i]!;
    for (let j = 0; j < i; j++) sum -= lower[i * m + j]! * x[j]!;
    x[i] = sum / lower[i * m + i]!;
  }
  return x;
}

/** Inverse of L·Lᵀ, `m` rows, in one over the square of L's unit. */
export function invert(lower: Float64Array, m: number): Float64Array {
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
