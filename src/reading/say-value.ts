/** A reading's value in writing, as on a meter. */
import type { Value } from './key.ts';
import type { Kind } from './kinds.ts';

type Unit = Kind['unit'];

/** A figure with no more digits than a cheap meter has, in that unit. */
export function roundFigure(value: number): number {
  const size = Math.abs(value);
  return Number(value.toFixed(size >= 1000 ? 0 : size >= 100 ? 1 : size >= 10 ? 2 : 3));
}

/** The same in writing, with a true minus sign. */
export function showFigure(value: number): string {
  return roundFigure(value).toString().replace('-', '−');
}

/** A reading's value with its unit: `12.61 V`, `OL`, `no reading`, `seen`. */
export function showValue(value: Value, unit: Unit): string {
  if (value === null) return unit === 'Ω' || unit === 'mV' ? 'OL' : 'OL, no reading';
  if (typeof value === 'boolean') return value ? 'yes, seen' : 'no, not seen';
  return unit === 'SG' ? value.toFixed(3) : `${showFigure(value)} ${unit}`;
}
