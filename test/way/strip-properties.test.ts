/** What must be true of the cheapest way whatever the problem. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cheapestWay } from '../../src/way/cheapest-way.ts';
import type { StripDown } from '../../src/way/strip-down.ts';
import { FAMILIES, randomStrip } from './random-strip.ts';

const problems = fc
  .tuple(fc.constantFrom(...FAMILIES), fc.integer({ min: 4, max: 20 }), fc.integer({ min: 1, max: 1e6 }))
  .map(([family, parts, seed]) => randomStrip(family, parts, seed));

/** Proved cost, infinite where there is no way. */
function costOf(problem: StripDown): number {
  const way = cheapestWay(problem);
  if (!way.ok) return Number.POSITIVE_INFINITY;
  expect(way.proved).toBe(true);
  return way.cost;
}

const RUNS = { numRuns: 60, seed: 20_261_127 };

describe('of every strip-down', () => {
  it('a cheaper move never makes the way dearer, and by no more than it is cheaper', () => {
    fc.assert(
      fc.property(problems, fc.nat(), fc.double({ min: 0, max: 1, noNaN: true }), (problem, n, part) => {
        const a = n % problem.moves.length;
        const cost = Math.floor(problem.moves[a]!.cost * part);
        const moves = problem.moves.map((move, b) => (b === a ? { ...move, cost } : move));
        const [before, after] = [costOf(problem), costOf({ ...problem, moves })];
        expect(after).toBeLessThanOrEqual(before);
        if (before < Number.POSITIVE_INFINITY)
          expect(after).toBeGreaterThanOrEqual(before - (problem.moves[a]!.cost - cost));
      }),
      RUNS,
    );
  });

  it('more that holds at the start never makes it dearer', () => {
    fc.assert(
      fc.property(problems, fc.nat(), (problem, n) => {
        const start = [...problem.start, n % problem.facts.length];
        expect(costOf({ ...problem, start })).toBeLessThanOrEqual(costOf(problem));
      }),
      RUNS,
    );
  });

  it('one more alternative never makes it dearer, and one goal more never cheaper', () => {
    fc.assert(
      fc.property(problems, fc.nat(), fc.nat(), fc.nat(200), (problem, p, q, cost) => {
        const [f, g] = [p % problem.facts.length, q % problem.facts.length];
        const moves = [...problem.moves, { id: 'other', needs: [f], gives: [g], cost }];
        const before = costOf(problem);
        expect(costOf({ ...problem, moves })).toBeLessThanOrEqual(before);
        expect(costOf({ ...problem, goals: [...problem.goals, g] })).toBeGreaterThanOrEqual(before);
      }),
      RUNS,
    );
  });

  it('the order of the moves does not matter to the cost', () => {
    fc.assert(
      fc.property(problems, fc.nat(), (problem, n) => {
        const by = n % problem.moves.length;
        const moves = [...problem.moves.slice(by), ...problem.moves.slice(0, by)].toReversed();
        expect(costOf({ ...problem, moves })).toBe(costOf(problem));
      }),
      RUNS,
    );
  });

  it('a way without one of its own moves is never cheaper', () => {
    fc.assert(
      fc.property(problems, fc.nat(), (problem, n) => {
        const way = cheapestWay(problem);
        if (!way.ok || way.moves.length === 0) return;
        const other = cheapestWay(problem, { without: [way.moves[n % way.moves.length]!] });
        if (other.ok) expect(other.cost).toBeGreaterThanOrEqual(way.cost);
      }),
      RUNS,
    );
  });
});
