import { describe, expect, it } from 'vitest';
import { drawBike } from '../../src/cases/drawn-bike.ts';
import { openStream } from '../../src/numbers/random.ts';
import type { Value } from '../../src/reading/key.ts';
import { offeredKeys } from '../../src/reading/offers.ts';
import { openAssessor } from '../../src/verdict/assess.ts';
import { prepare, type Taken } from '../../src/verdict/evidence.ts';
import { catalogueWeights, type Member, openField } from '../../src/verdict/field.ts';
import { openRaters } from '../../src/verdict/rating.ts';

const TOOLS = { clamp: true, loadTester: true, hydrometer: true, supply: true };

/** Readings of a drawn bike, in an order that has nothing to do with their worth. */
function readingsOf(seed: number, count: number) {
  const bike = drawBike(seed);
  const { phases } = bike.spec.alternator;
  const flooded = bike.spec.battery.chemistry === 'flooded';
  const stream = openStream(seed);
  const keys = offeredKeys({ phases, senses: bike.spec.regulator.senses, flooded })
    .map((key) => ({ key, at: stream() }))
    .sort((a, b) => a.at - b.at)
    .slice(0, count)
    .map(({ key }) => key);
  return { bike, phases, keys, readings: keys.map((key) => [key, bike.read(key)] as const) };
}

describe('what a hypothesis can at most weigh', () => {
  it('is no less than what it weighs, whichever readings come (chain rule of densities: no outside figure)', () => {
    let looked = 0;
    let passed = 0;
    let tight = 0;
    for (const seed of [3, 8, 21]) {
      const { bike, phases, readings } = readingsOf(seed, 14);
      const field = openField(bike.spec, catalogueWeights(), 1);
      const raters = openRaters();
      const known = new Map<string, Taken>();
      const chosen = new Set<Member>();
      const prior = ({ base }: Member) => base.logPrior;
      const members = field.members.filter((_, n) => n % 9 === 0);
      const begin = (count: number) => {
        const evidence = {
          symptoms: [],
          readings: Object.fromEntries(readings.slice(0, count)),
          again: [],
          tools: TOOLS,
        };
        return raters.begin(prepare(evidence, phases, known), chosen, prior);
      };
      let rating = begin(8);
      for (const member of members) for (const h of raters.turnsOf(member)) rating.rate(h);
      for (const count of [9, 11, 14]) {
        rating = begin(count);
        const rated: { log: number; ceiling: number }[] = [];
        for (const h of members.flatMap(raters.turnsOf)) {
          // Whoever is infinitely far ahead leaves nobody near, by what any set may gain; one far behind by the set's own.
          expect(rating.isBehind(h, Number.MAX_VALUE, 0)).toBe(true);
          const loose = h.log;
          expect(rating.isBehind(h, -Number.MAX_VALUE, 0)).toBe(false);
          expect(rating.isBehind(h, Number.MAX_VALUE, 0)).toBe(true);
          const ceiling = h.log;
          expect(ceiling).toBeLessThanOrEqual(loose + 1e-9);
          rating.rate(h);
          rated.push({ log: h.log, ceiling });
        }
        const top = Math.max(...rated.map(({ log }) => log));
        for (const { log, ceiling } of rated) {
          looked++;
          if (log > ceiling + 1e-9) passed++;
          if (ceiling - log < 12) tight++;
          // Those that count are never passed over.
          if (log > top - 20) expect(log).toBeLessThanOrEqual(ceiling + 1e-9);
        }
      }
    }
    expect(looked).toBeGreaterThan(3000);
    expect(passed / looked).toBeLessThan(0.01);
    // A ceiling that lies far above what it holds down would be of no use.
    expect(tight / looked).toBeGreaterThan(0.8);
  }, 120_000);
});

describe('sets of no chance at all', () => {
  it('are worked out to the end, or sorting a list of them until it is exact would never end', () => {
    const { bike, phases, readings } = readingsOf(3, 17);
    const field = openField(bike.spec, catalogueWeights(), 1);
    const raters = openRaters();
    const evidence = { symptoms: [], readings: Object.fromEntries(readings), again: [], tools: TOOLS };
    const rating = raters.begin(prepare(evidence, phases), new Set(), () => Number.NEGATIVE_INFINITY);
    const list = field.members.slice(0, 5).flatMap(raters.turnsOf);
    for (const h of list) {
      rating.rate(h, Number.NEGATIVE_INFINITY);
      expect(h.exact).toBe(true);
      expect(h.log).toBe(Number.NEGATIVE_INFINITY);
    }
    rating.settle(list, 3, 1);
    expect(list.slice(0, 3).every(({ exact }) => exact)).toBe(true);
  });
});

describe('what is worked out between the readings', () => {
  it('changes no answer', () => {
    const { bike, readings } = readingsOf(11, 12);
    const eager = openAssessor(bike.spec);
    const given: Record<string, Value> = {};
    for (const [n, [key, value]] of readings.entries()) {
      given[key] = value;
      const evidence = { symptoms: bike.symptoms, readings: { ...given }, again: [], tools: TOOLS };
      const answer = eager.assess(evidence);
      for (let step = 0; step < 400 && eager.warm(); step++);
      if (n % 4 !== 3) continue;
      expect(answer).toEqual(openAssessor(bike.spec).assess(evidence));
    }
  }, 120_000);
});
