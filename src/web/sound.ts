/** Where the band of a sound bike is drawn. */
import type { Band } from '../verdict/answer.ts';

/** The scale on which a band is drawn: the band in the middle, room on both sides, no minus where none can be. */
export function bandScale(band: Band): { readonly min: number; readonly max: number } {
  const span = Math.max(band.high - band.low, Math.abs(band.high) * 0.04, 1e-3);
  const min = band.low - 1.6 * span;
  return { min: band.low >= 0 ? Math.max(0, min) : min, max: band.high + 1.6 * span };
}
