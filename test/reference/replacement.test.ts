/**
 * What else to replace while it is open, against the rule for one part: replace when c < (K + c + f)·ΔP with Weibull lives.
 * Figures worked out with that formula: β = 3, η = 60,000 km, H = 20,000 km, K = 240, c = 35, f = 150.
 */
import { describe, expect, it } from 'vitest';
import { failsWithin, type WearPart, whileOpen } from '../../src/way/while-open.ts';

const part = (age: number, more: Partial<WearPart> = {}): WearPart => ({
  id: 'seal',
  name: 'seal',
  shape: 3,
  life: 60_000,
  age,
  cost: 35,
  failure: 150,
  ...more,
});
const [ACCESS, HORIZON] = [240, 20_000];

describe('one part', () => {
  it.each([
    [10_000, 0.113, -2, false],
    [20_000, 0.228, 47, true],
    [40_000, 0.505, 164, true],
  ])('at %d km', (age, chance, saves, replace) => {
    const [line] = whileOpen([part(age)], ACCESS, HORIZON).lines;
    expect(line!.left).toBeCloseTo(chance, 3);
    expect(line!.fresh).toBeCloseTo(0.036, 3);
    expect(Math.round(line!.saves)).toBe(saves);
    expect(line!.replace).toBe(replace);
  });

  it('at 40,000 km, with the way in gone for it alone, it does not pay: 76 the other way', () => {
    const [line] = whileOpen([part(40_000)], ACCESS, HORIZON).lines;
    expect(Math.round(line!.saves - ACCESS)).toBe(-76);
  });

  it('that does not wear is never replaced', () => {
    for (const age of [0, 20_000, 200_000]) {
      const [line] = whileOpen([part(age, { shape: 1 })], ACCESS, HORIZON).lines;
      expect(line!.replace).toBe(false);
      expect(line!.saves).toBeCloseTo(-35, 9);
      expect(line!.turnsAt).toBe('never');
    }
  });

  it('saves more with age and with the cost of the way in, and turns where it says', () => {
    const saves = (age: number, access: number) => whileOpen([part(age)], access, HORIZON).lines[0]!.saves;
    expect(saves(30_000, ACCESS)).toBeGreaterThan(saves(25_000, ACCESS));
    expect(saves(25_000, 400)).toBeGreaterThan(saves(25_000, 300));
    const { turnsAt } = whileOpen([part(10_000)], ACCESS, HORIZON).lines[0]!;
    expect(saves((turnsAt as number) * 1.001, ACCESS)).toBeGreaterThan(0);
    expect(saves((turnsAt as number) * 0.999, ACCESS)).toBeLessThan(0);
  });
});

describe('several parts', () => {
  const parts = [
    part(15_000, { id: 'a' }),
    part(15_000, { id: 'b', cost: 60 }),
    part(30_000, { id: 'c', cost: 200, failure: 50 }),
    part(5_000, { id: 'd' }),
  ];

  it('are chosen as a set: the least of all sixteen, counted by hand', () => {
    const expected = (chosen: number): number => {
      let cost = 0;
      let none = 1;
      parts.forEach((p, n) => {
        const isNew = (chosen >> n) & 1;
        const chance = failsWithin(p, isNew ? 0 : p.age, HORIZON);
        cost += (isNew ? p.cost : 0) + chance * (p.cost + p.failure);
        none *= 1 - chance;
      });
      return cost + ACCESS * (1 - none);
    };
    const least = Math.min(...Array.from({ length: 16 }, (_, chosen) => expected(chosen)));
    const found = whileOpen(parts, ACCESS, HORIZON);
    expect(found.cost).toBeCloseTo(least, 9);
    expect(found.nothing).toBeCloseTo(expected(0), 9);
  });

  it('savings do not add up: the way in is shared', () => {
    const [a, b] = [part(20_000, { id: 'a' }), part(20_000, { id: 'b' })];
    const alone = whileOpen([a], ACCESS, HORIZON);
    const both = whileOpen([a, b], ACCESS, HORIZON);
    expect(both.nothing - both.cost).toBeLessThan(2 * (alone.nothing - alone.cost));
  });
});

it('refuses figures that are none, by name', () => {
  expect(() => whileOpen([part(-1)], ACCESS, HORIZON)).toThrow(/age of part 0 must be 0 or more/);
  expect(() => whileOpen([part(1, { life: 0 })], ACCESS, HORIZON)).toThrow(/life of part 0 must be above 0/);
  expect(() => whileOpen([part(1)], Number.NaN, HORIZON)).toThrow(/access must be 0 or more/);
});
