/** The glance at all readings passes most of them over, and finds what going through every one of them finds. */
import { describe, expect, it } from 'vitest';
import { drawBike } from '../../src/cases/drawn-bike.ts';
import { drawNormal, openStream } from '../../src/numbers/random.ts';
import { offeredKeys } from '../../src/reading/offers.ts';
import { prepare } from '../../src/verdict/evidence.ts';
import { catalogueWeights, openField } from '../../src/verdict/field.ts';
import { mostBits, openGlance } from '../../src/verdict/glance.ts';
import { bitsOf, givenOf, lookOut, offersOf } from '../../src/verdict/outlook.ts';
import { openProjector } from '../../src/verdict/projection.ts';
import { openRanker } from '../../src/verdict/rank.ts';
import { firstsOf, represent } from '../../src/verdict/represent.ts';

describe('the most that a reading can tell', () => {
  it('is never less than what it tells (maximum entropy of the normal: Cover & Thomas, theorem 8.6.5)', () => {
    const stream = openStream(5);
    let close = 0;
    for (let n = 0; n < 400; n++) {
      const size = 2 + Math.floor(20 * stream());
      const apart = 10 ** (2 * stream() - 1);
      const draw = (of: () => number) => Float64Array.from({ length: size }, of);
      const weights = draw(() => stream() ** 3);
      const outlook = {
        means: draw(() => apart * drawNormal(stream)),
        sds: draw(() => 0.1 + stream()),
        other: draw(() => (stream() < 0.8 ? 0.005 : stream())),
        seen: false,
      };
      const classes = Int32Array.from({ length: size }, (_, h) => h);
      const told = bitsOf(outlook, weights, classes, size, 512);
      const most = mostBits(outlook, weights);
      expect(most).toBeGreaterThan(told - 1e-6);
      if (most - told < 0.1) close++;
    }
    // A bound that always says "everything" would hold too, and spare nothing.
    expect(close).toBeGreaterThan(40);
  });
});

describe('a glance at all readings', () => {
  it('finds the best reading of the best ideas as going through all of them does, after any readings', () => {
    for (const seed of [3, 8]) {
      const bike = drawBike(seed);
      const { phases } = bike.spec.alternator;
      const offers = offersOf(bike.spec);
      const { rank } = openRanker(openField(bike.spec, catalogueWeights(), 1));
      const glance = openGlance(offers);
      const projector = openProjector();
      const stream = openStream(seed);
      const keys = offeredKeys({ phases, senses: bike.spec.regulator.senses, flooded: true }).filter(
        (key) => bike.read(key) !== undefined && stream() < 0.08,
      );
      for (let count = 2; count <= Math.min(12, keys.length); count += 5) {
        const readings = Object.fromEntries(keys.slice(0, count).map((key) => [key, bike.read(key)]));
        const taken = prepare({ symptoms: bike.symptoms, readings, again: [], tools: ALL }, phases);
        const represented = represent(rank(taken, bike.symptoms).best);
        const firsts = firstsOf(represented);
        const states = new Set(taken.filter(({ asked }) => asked.running).map(({ asked }) => asked.words));
        // Two engine states that nobody has read in are judged at a glance.
        const unread = new Set(['idle|low|cold|False|True', '3000|low|cold|False|True']);
        const which = offers.flatMap(({ asked }, n) =>
          !asked.running || states.has(asked.words) || unread.has(asked.words) ? [n] : [],
        );
        const familiar = Uint8Array.from(offers, ({ asked }) =>
          !asked.running || states.has(asked.words) ? 1 : 0,
        );
        const minutes = Float64Array.from(offers, (_, n) => 1 + (n % 5));
        projector.over(givenOf(represented.look));
        // Written ahead or not, twice over: the sheets say the same.
        glance.best(firsts, projector, which.slice(0, 9), familiar, minutes, 4);
        for (const speaker of represented.look) glance.ready(speaker);
        const found = glance.best(firsts, projector, which, familiar, minutes, 12);

        projector.over(givenOf(firsts.look));
        const best = new Map<string, { n: number; rate: number }>();
        for (const n of which) {
          const outlook = lookOut(firsts.look, offers[n]!, states, projector);
          const bits = bitsOf(outlook, firsts.weights, firsts.classes, firsts.names.length, 16);
          const rate = bits / minutes[n]!;
          const { idea } = offers[n]!;
          if (!best.has(idea) || rate > best.get(idea)!.rate) best.set(idea, { n, rate });
        }
        const all = [...best.values()].sort((a, b) => b.rate - a.rate || a.n - b.n).slice(0, 12);
        expect(found.map(({ n }) => n)).toEqual(all.map(({ n }) => n));
        found.forEach(({ rate }, n) => {
          expect(rate).toBeCloseTo(all[n]!.rate, 9);
        });
      }
    }
  });
});

const ALL = { clamp: true, loadTester: true, hydrometer: true, supply: true };
