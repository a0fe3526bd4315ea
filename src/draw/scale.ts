import { num } from './svg.ts';

/** Round figures for an axis. */
export interface Ticks {
  readonly at: readonly number[];
  readonly step: number;
}

/** About `count` ticks at 1, 2 or 5 times a power of ten from `low` to `high`; all lie inside. */
export function ticks(low: number, high: number, count: number): Ticks {
  if (!(Number.isFinite(low) && Number.isFinite(high) && high > low)) {
    throw new RangeError(`axis: low must be below high and both finite, got ${low} and ${high}`);
  }
  const raw = (high - low) / Math.max(1, count);
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].map((k) => k * power).find((s) => s >= raw * 0.999) ?? 10 * power;
  const at: number[] = [];
  // Adding 0 turns −0 into 0.
  for (let i = Math.ceil(low / step - 1e-9); i * step <= high + step * 1e-9; i++) at.push(i * step + 0);
  return { at, step };
}

/** A tick's figure with the decimals its step needs; minus is a true minus sign. */
export function tickWords(value: number, step: number): string {
  const decimals = Math.max(0, Math.min(6, -Math.floor(Math.log10(step) + 1e-9)));
  const words = Math.abs(value).toFixed(decimals);
  return (value < -step * 1e-6 ? '−' : '') + words;
}

/** Maps `[low, high]` to `[from, to]` px. */
export function scale(low: number, high: number, from: number, to: number): (value: number) => number {
  const k = (to - from) / (high - low);
  return (value) => from + (value - low) * k;
}

/** One series thinned to at most four points per pixel column: first, least, greatest, last, in their order. */
export function thin(
  points: readonly (readonly [number, number])[],
  columnOf: (x: number) => number,
): (readonly [number, number])[] {
  const kept: (readonly [number, number])[] = [];
  let i = 0;
  while (i < points.length) {
    const column = Math.floor(columnOf(points[i]![0]));
    let end = i;
    let least = i;
    let most = i;
    while (end < points.length && Math.floor(columnOf(points[end]![0])) === column) {
      if (points[end]![1] < points[least]![1]) least = end;
      if (points[end]![1] > points[most]![1]) most = end;
      end++;
    }
    for (const k of [...new Set([i, least, most, end - 1])].sort((a, b) => a - b)) kept.push(points[k]!);
    i = end;
  }
  return kept;
}

export function polyline(points: readonly (readonly [number, number])[]): string {
  return points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${num(x)} ${num(y)}`).join('');
}
