import { describe, expect, it } from 'vitest';
import {
  type Bill,
  costOf,
  MOST_REPAIRS,
  openRepairChoice,
  workCost,
} from '../../src/verdict/repair-choice.ts';
import { stream } from './random-model.ts';

/** Cost of doing `done` where `needed` is needed, straight from its definition in words. */
function plainCost(bill: Bill, done: number, needed: number): number {
  const numbers = bill.work.map((_, r) => r);
  const has = (set: number, r: number) => ((set >>> r) & 1) === 1;
  const job = (repairs: readonly number[]) => {
    const covers = new Set(
      repairs.flatMap((r) => bill.coverMinutes.map((_, a) => a).filter((a) => has(bill.covers[r]!, a))),
    );
    return (
      repairs.reduce((sum, r) => sum + bill.work[r]!, 0) +
      [...covers].reduce((sum, a) => sum + bill.coverMinutes[a]!, 0)
    );
  };
  const missed = numbers.filter((r) => has(needed, r) && !has(done, r));
  const needless = numbers.filter((r) => has(done, r) && !has(needed, r));
  return (
    job(numbers.filter((r) => has(done, r))) +
    needless.length * bill.wronglyAccused +
    (missed.length > 0 ? job(missed) + missed.length * bill.missed + bill.comeback : 0)
  );
}

function plainExpected(bill: Bill, done: number, needs: Uint32Array, weights: Float64Array): number {
  return needs.reduce((sum, need, h) => sum + weights[h]! * plainCost(bill, done, need), 0);
}

function random(seed: number, repairs: number, classes: number) {
  const next = stream(seed);
  const bill: Bill = {
    work: Array.from({ length: repairs }, () => 300 * next() ** 2),
    covers: Array.from({ length: repairs }, () => Math.floor(8 * next())),
    coverMinutes: [10, 15, 120].map((minutes) => minutes * 2 * next()),
    wronglyAccused: 250 * next(),
    missed: 400 * next(),
    comeback: 100 + 300 * next(),
  };
  const needs = Uint32Array.from({ length: classes }, () => {
    let bits = 0;
    for (let n = Math.floor(4 * next()); n > 0; n--) bits |= 1 << Math.floor(repairs * next());
    return bits;
  });
  // Any sum: a branch of a reading carries less than one.
  const weights = Float64Array.from(needs, () => next() ** 4);
  return { bill, needs, weights, next };
}

describe('choice of repairs', () => {
  it('equals trying every set against every bike', () => {
    let done = 0;
    let several = 0;
    for (let seed = 1; seed <= 80; seed++) {
      const repairs = 1 + (seed % 7);
      const { bill, needs, weights } = random(seed, repairs, 1 + (seed % 30));
      let best = Infinity;
      for (let set = 0; set < 1 << repairs; set++)
        best = Math.min(best, plainExpected(bill, set, needs, weights));
      const choice = openRepairChoice(bill, needs);
      const chosen = choice.choose(weights);
      expect(chosen.cost).toBeCloseTo(best, 6);
      expect(plainExpected(bill, chosen.set, needs, weights)).toBeCloseTo(best, 6);
      expect(choice.least(weights)).toBe(chosen.cost);
      const informed = needs.reduce((sum, need, h) => sum + weights[h]! * plainCost(bill, need, need), 0);
      expect(choice.informed(weights)).toBeCloseTo(informed, 6);
      expect(choice.loss(weights)).toBeCloseTo(Math.max(0, best - informed), 6);
      if (chosen.set !== 0) done++;
      if (chosen.set & (chosen.set - 1)) several++;
    }
    expect(done).toBeGreaterThan(30);
    expect(several).toBeGreaterThan(10);
  });

  it('equals trying every set among what may be added to a base, whatever else is needed', () => {
    for (let seed = 200; seed < 240; seed++) {
      const { bill, needs, weights, next } = random(seed, 8, 20);
      const base = Math.floor(256 * next()) & Math.floor(256 * next());
      const candidates = Math.floor(256 * next());
      let best = Infinity;
      for (let set = 0; set < 256; set++)
        if ((set & ~candidates & ~base) === 0 && (set & base) === base)
          best = Math.min(best, plainExpected(bill, set, needs, weights));
      const chosen = openRepairChoice(bill, needs).extend(weights, base, candidates);
      expect(chosen.cost).toBeCloseTo(best, 6);
      expect(plainExpected(bill, chosen.set, needs, weights)).toBeCloseTo(best, 6);
    }
  });

  it('stays exact with thirty repairs, of which few can pay', () => {
    const { bill, needs } = random(5, 30, 300);
    const weights = new Float64Array(300).fill(0.001);
    weights[0] = 0.4;
    weights[1] = 0.3;
    const chosen = openRepairChoice(bill, needs).choose(weights);
    const cost = plainExpected(bill, chosen.set, needs, weights);
    expect(chosen.cost).toBeCloseTo(cost, 6);
    for (let r = 0; r < 30; r++)
      expect(plainExpected(bill, chosen.set ^ (1 << r), needs, weights)).toBeGreaterThanOrEqual(cost - 1e-6);
  });

  it('with a free comeback does nothing, with a ruinous one everything that may be needed', () => {
    for (let seed = 300; seed < 320; seed++) {
      const { bill, needs, weights } = random(seed, 6, 12);
      const never = openRepairChoice({ ...bill, coverMinutes: [0, 0, 0], missed: 0, comeback: 0 }, needs);
      expect(never.choose(weights).set).toBe(0);
      const always = openRepairChoice({ ...bill, comeback: 1e12 }, needs);
      const needed = needs.reduce((bits, need) => bits | need, 0);
      expect(always.choose(weights).set).toBe(needed);
    }
  });

  it('worked by hand: one repair behind a cover, and a second one behind the same', () => {
    const bill: Bill = {
      work: [30, 20],
      covers: [1, 1],
      coverMinutes: [10],
      wronglyAccused: 20,
      missed: 30,
      comeback: 70,
    };
    expect(workCost(bill, 0b11)).toBe(60);
    expect(costOf(bill, 0b01, 0b10)).toBe(40 + 20 + 30 + 100);
    expect(costOf(bill, 0b11, 0b11)).toBe(60);
    expect(costOf(bill, 0, 0b11)).toBe(60 + 2 * 30 + 70);
    const { choose } = openRepairChoice(bill, Uint32Array.of(0b01, 0b00));
    // Doing: 40 + 20·(1 − p); leaving: p·(40 + 100). They meet at p = 60/160 = 0.375.
    expect(choose(Float64Array.of(0.37, 0.63))).toEqual({ set: 0, cost: expect.closeTo(0.37 * 140, 9) });
    expect(choose(Float64Array.of(0.38, 0.62))).toEqual({ set: 1, cost: expect.closeTo(40 + 12.4, 9) });
    // The second alone at 0.3: 30 + 14 against 0.3·130 = 39, left. With the first certain: 20 + 14 against
    // 0.3·(30 + 100) = 39, done.
    const two = openRepairChoice(bill, Uint32Array.of(0b00, 0b10, 0b01, 0b11));
    expect(two.choose(Float64Array.of(0.7, 0.3, 0, 0)).set).toBe(0);
    expect(two.choose(Float64Array.of(0, 0, 0.7, 0.3)).set).toBe(0b11);
  });

  it('takes the likeliest where more could pay than one search tells apart', () => {
    const repairs = MOST_REPAIRS + 3;
    const bill: Bill = {
      work: Array.from({ length: repairs }, () => 1),
      covers: Array.from({ length: repairs }, () => 0),
      coverMinutes: [],
      wronglyAccused: 0,
      missed: 0,
      comeback: 1e6,
    };
    const needs = Uint32Array.from({ length: repairs }, (_, r) => 1 << r);
    const { set } = openRepairChoice(bill, needs).choose(Float64Array.from(needs, (_, r) => 1 + r));
    expect(set).toBe((2 ** MOST_REPAIRS - 1) << 3);
  });

  it('refuses a bill that is none', () => {
    const bill: Bill = {
      work: [1],
      covers: [0],
      coverMinutes: [],
      wronglyAccused: 1,
      missed: 1,
      comeback: 1,
    };
    expect(() => openRepairChoice(bill, Uint32Array.of(2))).toThrow(/needs/);
    expect(() => openRepairChoice({ ...bill, comeback: -1 }, Uint32Array.of(1))).toThrow(/comeback.*-1/);
    expect(() => openRepairChoice({ ...bill, work: [Number.NaN] }, Uint32Array.of(1))).toThrow(/work/);
    expect(() => openRepairChoice({ ...bill, covers: [] }, Uint32Array.of(1))).toThrow(/equally long/);
  });
});
