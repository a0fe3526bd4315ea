/** Layouts that more than one test takes. */
import type { Place } from '../../src/joint/layout.ts';
import { openStream } from '../../src/numbers/random.ts';

export function ring(count: number, radius = 0.05, from = 0.3): Place[] {
  return Array.from({ length: count }, (_, i) => ({
    x: radius * Math.cos(from + (2 * Math.PI * i) / count),
    y: radius * Math.sin(from + (2 * Math.PI * i) / count),
  }));
}

export function places(list: readonly (readonly [number, number])[]): Place[] {
  return list.map(([x, y]) => ({ x, y }));
}

/** Screws thrown at random on a cover, none in the same place as another. */
export function scattered(count: number, seed: number): Place[] {
  const stream = openStream(seed);
  const found: Place[] = [];
  while (found.length < count) {
    const place = { x: 300 * stream(), y: 200 * stream() };
    if (found.every(({ x, y }) => Math.hypot(x - place.x, y - place.y) > 10)) found.push(place);
  }
  return found;
}
