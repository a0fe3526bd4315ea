/**
 * Tightening order against the world outside: the published stars, and trial of every order. The objective is this
 * project's own; here it is written down a second time, straight from its definition.
 */
import { describe, expect, test } from 'vitest';
import type { Place } from '../../src/joint/layout.ts';
import { type OrderWish, type TighteningOrder, tighteningOrder } from '../../src/joint/tightening-order.ts';
import { places, ring, scattered } from '../joint/layouts.ts';

function ordered(at: readonly Place[], wish?: OrderWish): TighteningOrder {
  const found = tighteningOrder(at, wish);
  if (!found.ok) throw new Error(found.why);
  return found;
}

/** J straight from the definition: p = (position − mean)/rms radius, q = (x² − y², 2xy) − mean. */
function objective(at: readonly Place[], order: readonly number[]): number {
  const n = at.length;
  const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / n;
  const [mx, my] = [mean(at.map(({ x }) => x)), mean(at.map(({ y }) => y))];
  const rms = Math.sqrt(mean(at.map(({ x, y }) => (x - mx) ** 2 + (y - my) ** 2)));
  const p = at.map(({ x, y }) => [(x - mx) / rms, (y - my) / rms] as const);
  const q = p.map(([x, y]) => [x * x - y * y, 2 * x * y] as const);
  const [q0, q1] = [mean(q.map((each) => each[0])), mean(q.map((each) => each[1]))];
  let total = 0;
  for (let k = 1; k <= n; k++) {
    const done = order.slice(0, k).map((screw) => screw - 1);
    const sum = (of: (i: number) => number) => done.reduce((a, i) => a + of(i), 0);
    total += sum((i) => p[i]![0]) ** 2 + sum((i) => p[i]![1]) ** 2;
    total += (sum((i) => q[i]![0] - q0) ** 2 + sum((i) => q[i]![1] - q1) ** 2) / 4;
  }
  return total;
}

/** The least J over all orders, by trial of every one. */
function leastByTrial(at: readonly Place[], start?: number): number {
  const n = at.length;
  let best = Number.POSITIVE_INFINITY;
  const walk = (order: number[]) => {
    if (order.length === n) {
      best = Math.min(best, objective(at, order));
      return;
    }
    for (let screw = 1; screw <= n; screw++) {
      if (order.includes(screw) || (start && order.length === 0 && screw !== start)) continue;
      order.push(screw);
      walk(order);
      order.pop();
    }
  };
  walk([]);
  return best;
}

describe('published stars (ASME PCC-1 legacy pattern, from memory)', () => {
  test.each([
    [4, [1, 3, 2, 4], 3.5, 4.5],
    [8, [1, 5, 3, 7, 2, 6, 4, 8], 7, 29.3],
    [12, [1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12], 10.5, 95.6],
  ] as const)('%d screws on a circle', (count, published, starJ, circularJ) => {
    const found = ordered(ring(count));
    expect(found.order).toEqual(published);
    expect(found).toMatchObject({ how: 'exact', rule: 'pairs', ring: true });
    // J of star and of going round: computed from the formula of the objective.
    expect(found.objective).toBeCloseTo(starJ, 9);
    expect(objective(ring(count), published)).toBeCloseTo(starJ, 9);
    const round = Array.from({ length: count }, (_, i) => i + 1);
    expect(ordered(ring(count), { book: round }).objective).toBeCloseTo(circularJ, 1);
  });

  // Computed: without the rule of pairs another order is more even.
  test.each([
    [8, 6.6],
    [12, 8.16],
  ])('%d screws without the rule of pairs', (count, least) => {
    expect(ordered(ring(count), { rule: 'free' }).objective).toBeCloseTo(least, 2);
  });

  test('under the rule of pairs no order of 8 is more even than the star', () => {
    const at = ring(8);
    const opposite = (screw: number) => ((screw + 3) % 8) + 1;
    let best = Number.POSITIVE_INFINITY;
    const walk = (order: readonly number[]) => {
      if (order.length === 8) best = Math.min(best, objective(at, order));
      for (let screw = 1; screw <= 8; screw++)
        if (!order.includes(screw)) walk([...order, screw, opposite(screw)]);
    };
    walk([]);
    expect(best).toBeCloseTo(7, 9);
  });
});

describe('irregular layouts, free start (computed; trial of every order agrees on the first)', () => {
  const SIX = places([
    [0, 0],
    [100, 0],
    [200, 0],
    [200, 80],
    [100, 80],
    [0, 80],
  ]);
  const TEN = places([
    [0, 40],
    [40, 0],
    [110, 0],
    [180, 10],
    [250, 0],
    [300, 45],
    [300, 90],
    [230, 120],
    [130, 115],
    [40, 100],
  ]);

  test('six on a rectangle: 2-4-6-1-3-5', () => {
    const found = ordered(SIX);
    expect(found.order).toEqual([2, 4, 6, 1, 3, 5]);
    expect(found.objective).toBeCloseTo(3.8747, 4);
    expect(leastByTrial(SIX)).toBeCloseTo(found.objective, 9);
  });

  test('ten on a cover: 3-7-10-5-2-9-6-1-8-4', () => {
    const found = ordered(TEN);
    expect(found.order).toEqual([3, 7, 10, 5, 2, 9, 6, 1, 8, 4]);
    expect(found.objective).toBeCloseTo(5.267, 4);
  });
});

describe('trial of every order on random layouts', () => {
  test.each([2, 3, 4, 5, 6, 7])('%d screws, free and from a given one', (count) => {
    for (let seed = 1; seed <= (count < 7 ? 12 : 3); seed++) {
      const at = scattered(count, 100 * count + seed);
      const free = ordered(at, { rule: 'free' });
      expect(free.objective).toBeCloseTo(objective(at, free.order), 9);
      expect(free.objective).toBeCloseTo(leastByTrial(at), 9);
      const start = 1 + (seed % count);
      const led = ordered(at, { rule: 'free', start });
      expect(led.order[0]).toBe(start);
      expect(led.objective).toBeCloseTo(leastByTrial(at, start), 9);
    }
  });

  test('8 screws', () => {
    const at = scattered(8, 88);
    expect(ordered(at).objective).toBeCloseTo(leastByTrial(at), 9);
  });
});
