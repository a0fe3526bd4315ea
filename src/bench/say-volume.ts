import { shown } from '../sum/line.ts';

/** A volume in both systems, from m³. */
export function sayVolume(cubicMetres: number): string {
  return shown('volume', { low: cubicMetres, high: cubicMetres });
}
