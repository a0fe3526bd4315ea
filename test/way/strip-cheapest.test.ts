/** The cheapest strip-down: what it answers, and that it answers the same for the same. */
import { describe, expect, it } from 'vitest';
import { cheapestWay } from '../../src/way/cheapest-way.ts';
import { replay } from '../../src/way/replay.ts';
import type { StripDown } from '../../src/way/strip-down.ts';
import { FAMILIES, randomStrip } from './random-strip.ts';
import { bruteForce, smallStrip } from './small-strip.ts';
import { unitStrip } from './strip-unit.ts';

const names = (problem: StripDown, moves: readonly number[]) => moves.map((a) => problem.moves[a]!.id);

describe('the cheapest way', () => {
  it('loosens far enough instead of taking off, and takes off where loosening has seized', () => {
    const easy = cheapestWay(unitStrip());
    expect(easy).toMatchObject({ ok: true, cost: 17, bound: 17, proved: true });
    if (easy.ok) expect(names(unitStrip(), easy.moves)).toEqual(['guard', 'adjusters', 'sprocket']);
    const seized = cheapestWay(unitStrip(40));
    expect(seized).toMatchObject({ ok: true, cost: 20, bound: 20, proved: true });
    // The free move is in the plan, where it belongs.
    if (seized.ok)
      expect(names(unitStrip(40), seized.moves)).toEqual(['guard', 'link', 'off is slack', 'sprocket']);
  });

  it('pays for what several goals share once', () => {
    const problem = unitStrip();
    const both = cheapestWay({ ...problem, goals: [problem.facts.indexOf('chain off'), ...problem.goals] });
    expect(both).toMatchObject({ ok: true, cost: 20, proved: true });
  });

  it('has nothing to do where the goals hold, or come for nothing', () => {
    const problem = unitStrip();
    expect(cheapestWay({ ...problem, start: problem.goals })).toMatchObject({ ok: true, moves: [], cost: 0 });
    expect(cheapestWay({ ...problem, goals: [] })).toMatchObject({
      ok: true,
      moves: [],
      cost: 0,
      proved: true,
    });
    const free = {
      facts: ['a', 'b'],
      start: [0],
      goals: [1],
      moves: [{ id: 'm', needs: [0], gives: [1], cost: 0 }],
    };
    expect(cheapestWay(free)).toEqual({ ok: true, moves: [0], cost: 0, bound: 0, proved: true });
  });

  it('does not free two things by each other', () => {
    const problem: StripDown = {
      facts: ['a off', 'b off'],
      start: [],
      goals: [0, 1],
      moves: [
        { id: 'a past b', needs: [1], gives: [0], cost: 1 },
        { id: 'b past a', needs: [0], gives: [1], cost: 1 },
        { id: 'a by force', needs: [], gives: [0], cost: 50 },
        { id: 'b by force', needs: [], gives: [1], cost: 60 },
      ],
    };
    expect(cheapestWay(problem)).toMatchObject({ ok: true, moves: [2, 1], cost: 51, proved: true });
    expect(cheapestWay(problem, { without: [2, 3] })).toEqual({
      ok: false,
      unreachable: [0, 1],
      missing: [],
      cycle: [1, 0],
    });
  });

  it('says which facts nothing gives', () => {
    const problem = unitStrip();
    const way = cheapestWay(problem, { without: [0, 4] });
    expect(way).toMatchObject({ ok: false, unreachable: [6], cycle: [] });
    if (!way.ok) expect(way.missing.map((f) => problem.facts[f])).toEqual(['guard off', 'oil drained']);
  });

  it('refuses what names no fact or move, and costs that are none', () => {
    const problem = unitStrip();
    const [first, ...rest] = problem.moves;
    expect(() => cheapestWay({ ...problem, goals: [7] })).toThrow(RangeError);
    expect(() => cheapestWay({ ...problem, start: [-1] })).toThrow(
      /start must be a whole number from 0 to 6, got -1/,
    );
    for (const cost of [-1, 0.5, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => cheapestWay({ ...problem, moves: [{ ...first!, cost }, ...rest] })).toThrow(RangeError);
    expect(() => cheapestWay({ ...problem, moves: [{ ...first!, needs: [1.5] }, ...rest] })).toThrow(
      RangeError,
    );
    expect(() => cheapestWay(problem, { without: [9] })).toThrow(
      /without must be a whole number from 0 to 8, got 9/,
    );
  });

  it('says so when effort runs out, with a bound that holds', () => {
    let unproved = 0;
    for (let seed = 1; seed <= 12; seed++) {
      const problem = randomStrip('dense', 60, seed);
      const short = cheapestWay(problem, { effort: 0 });
      const long = cheapestWay(problem);
      if (!short.ok || !long.ok) {
        expect(short).toEqual(long);
        continue;
      }
      expect(long.proved).toBe(true);
      expect(short.bound).toBeLessThanOrEqual(long.cost);
      expect(short.cost).toBeGreaterThanOrEqual(long.cost);
      expect(short.proved).toBe(short.bound === short.cost);
      expect(replay(problem, short.moves)).toMatchObject({ ok: true, cost: short.cost });
      if (!short.proved) unproved += 1;
    }
    expect(unproved).toBeGreaterThan(0);
  });

  it('answers 1,500 small problems as the trial of every set of moves does', () => {
    let out = 0;
    for (let seed = 1; seed <= 1500; seed++) {
      const problem = smallStrip(seed);
      const least = bruteForce(problem);
      const way = cheapestWay(problem);
      if (least === null || !way.ok) {
        expect([seed, way.ok, least]).toEqual([seed, false, null]);
        out += 1;
        continue;
      }
      expect([seed, way.cost, way.bound, way.proved]).toEqual([seed, least, least, true]);
      expect(replay(problem, way.moves)).toMatchObject({ ok: true, cost: least });
    }
    expect(out).toBeGreaterThan(100);
    expect(out).toBeLessThan(900);
  });

  for (const family of FAMILIES) {
    it(`proves ${family} of 30 parts, replays, and answers the same again`, () => {
      for (let seed = 101; seed <= 110; seed++) {
        const problem = randomStrip(family, 30, seed);
        const way = cheapestWay(problem);
        expect(cheapestWay(problem)).toEqual(way);
        if (!way.ok) continue;
        expect([seed, way.proved]).toEqual([seed, true]);
        expect(replay(problem, way.moves)).toMatchObject({ ok: true, cost: way.cost });
      }
    });
  }
});
