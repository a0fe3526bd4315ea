/** The polygon effect: a chain on a sprocket of few teeth runs unevenly even when all is true. */
import { FEWEST_TEETH, MOST_TEETH } from './chain.ts';
import { type Refusal, refuse, requirePositive, requireWhole } from './require.ts';

/**
 * Swing of chain speed over its mean within one pitch, dimensionless.
 * Δv/v = (π/z)·[1/sin(π/z) − 1/tan(π/z)]. Teeth 6–400, else RangeError.
 */
export function polygonEffect(teeth: number): number {
  requireWhole('teeth', teeth, FEWEST_TEETH, MOST_TEETH);
  const half = Math.PI / teeth;
  // 1/sin x − 1/tan x = tan(x/2), without the loss of digits.
  return half * Math.tan(half / 2);
}

/** Fewest teeth that keep the swing of chain speed within `most`. Inverse of `polygonEffect`. */
export function teethForEffect(most: number): { readonly ok: true; readonly teeth: number } | Refusal {
  requirePositive('most', most);
  for (let teeth = FEWEST_TEETH; teeth <= MOST_TEETH; teeth++) {
    if (polygonEffect(teeth) <= most) return { ok: true, teeth };
  }
  return refuse(
    `No sprocket up to ${MOST_TEETH} teeth runs within a speed swing of ${(most * 100).toPrecision(2)} %; allow more.`,
  );
}
