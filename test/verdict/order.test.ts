import { describe, expect, it } from 'vitest';
import {
  type Action,
  bestOrder,
  expectedCost,
  ratioOrder,
  type Situation,
} from '../../src/verdict/repair-order.ts';
import { stream } from './random-model.ts';

/** Every order of every choice of actions that covers the faults, tried one by one. */
function bruteForce(actions: readonly Action[], situations: readonly Situation[]): number {
  let best = Infinity;
  const order: number[] = [];
  const visit = (): void => {
    if (order.length === actions.length) best = Math.min(best, expectedCost(actions, situations, order));
    actions.forEach((_, a) => {
      if (order.includes(a)) return;
      order.push(a);
      visit();
      order.pop();
    });
  };
  visit();
  return best;
}

describe('best order of repairs', () => {
  it('equals trying every order, with overlapping actions and several faults at once', () => {
    const random = stream(17);
    for (let trial = 0; trial < 40; trial++) {
      // Every action cures a fault that may be present, and the last ones cover all of them.
      const actions = Array.from({ length: 6 }, (_, a) => ({
        cost: 1 + 9 * random(),
        cures: (1 << a) | (Math.floor(random() * 64) & Math.floor(random() * 64)),
      }));
      const raw = Array.from({ length: 20 }, () => ({
        faults: 1 + Math.floor(random() * 63),
        probability: random(),
      }));
      const sum = raw.reduce((s, x) => s + x.probability, 0);
      const situations = raw.map((x) => ({ ...x, probability: x.probability / sum }));
      const best = bestOrder(actions, situations);
      expect(best.expectedCost).toBeCloseTo(bruteForce(actions, situations), 9);
      expect(expectedCost(actions, situations, best.order)).toBeCloseTo(best.expectedCost, 9);
      expect(ratioOrder(actions, situations).expectedCost).toBeGreaterThanOrEqual(best.expectedCost - 1e-9);
    }
  });

  it('the C/p rule equals the search where one fault is present and no two actions cure it', () => {
    const random = stream(23);
    for (let trial = 0; trial < 40; trial++) {
      const actions = Array.from({ length: 6 }, (_, a) => ({ cost: 1 + 9 * random(), cures: 1 << a }));
      const shares = Array.from({ length: 6 }, () => random());
      const sum = shares.reduce((a, b) => a + b, 0);
      const situations = shares.map((share, f) => ({ faults: 1 << f, probability: share / sum }));
      expect(ratioOrder(actions, situations).expectedCost).toBeCloseTo(bruteForce(actions, situations), 9);
    }
  });

  it('leaves out what can no longer be needed, and does nothing on a sound bike', () => {
    const actions: Action[] = [
      { cost: 5, cures: 1 },
      { cost: 1, cures: 2 },
      { cost: 0, cures: 4 },
    ];
    expect(bestOrder(actions, [{ faults: 0, probability: 1 }])).toEqual({ order: [], expectedCost: 0 });
    expect(bestOrder(actions, [{ faults: 3, probability: 1 }]).order).not.toContain(2);
    expect(
      bestOrder(actions, [
        { faults: 8, probability: 0.4 },
        { faults: 1, probability: 0.6 },
      ]).order,
    ).toEqual([0]);
  });

  it('takes sixteen overlapping actions and refuses seventeen', () => {
    const overlap = (n: number): Action[] =>
      Array.from({ length: n }, (_, a) => ({ cost: 1 + a, cures: 3 << a }));
    const situations = Array.from({ length: 17 }, (_, f) => ({ faults: 1 << f, probability: 1 / 17 }));
    expect(bestOrder(overlap(16), situations).expectedCost).toBeLessThan(
      ratioOrder(overlap(16), situations).expectedCost + 1e-9,
    );
    expect(() => bestOrder(overlap(17), situations)).toThrow(/at most 16/);
    expect(() => bestOrder([{ cost: -1, cures: 1 }], situations)).toThrow(/cost/);
    expect(() => expectedCost([], situations, [0])).toThrow(RangeError);
  });
});
