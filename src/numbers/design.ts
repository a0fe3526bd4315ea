/**
 * Room `numbers`: small numerical tools without units: orthogonal designs, the normal distribution, seeded random
 * streams, small linear algebra. Pure; it knows no clock and no random source of its own.
 *
 * This file: the two-level orthogonal design (Hadamard matrix of Sylvester, 1867; Plackett & Burman 1946 for the
 * use): n runs estimate the slopes of n − 1 factors without cross-talk.
 */

/** Sign of factor `column` (0 … n−2) in run `row` of the Sylvester design with n = a power of two, ±1. */
export function designSign(row: number, column: number): 1 | -1 {
  let bits = row & (column + 1);
  let odd = 0;
  while (bits) {
    odd ^= bits & 1;
    bits >>= 1;
  }
  return odd ? -1 : 1;
}
