import { describe, expect, it } from 'vitest';
import { cheapestWay } from '../../src/way/cheapest-way.ts';
import { Incumbent } from '../../src/way/strip-incumbent.ts';
import { Holding } from '../../src/way/strip-net.ts';
import { reduceStrip } from '../../src/way/strip-reduce.ts';
import { shaken } from '../../src/way/strip-shake.ts';
import { FAMILIES, randomStrip } from './random-strip.ts';

describe('a way looked for by shaking', () => {
  it.each(FAMILIES)(
    'is cheaper than the one begun with, reaches the goal, and is no cheaper than the cheapest: %s',
    (family) => {
      let better = 0;
      for (let seed = 1; seed <= 12; seed++) {
        const problem = randomStrip(family, 30, seed);
        const cheapest = cheapestWay(problem);
        if (!cheapest.ok) continue;
        const { net, forced } = reduceStrip(problem, () => true);
        if (net === null) continue;
        const least = cheapest.cost - forced;
        const incumbent = new Incumbent(net);
        // Fewer needs counted than there are: a dear way to begin with.
        const begun = incumbent.rough(net.cost, new Uint8Array(net.cost.length).fill(1), 0)!;
        const cost = incumbent.costOf(begun);
        const found = shaken(net, begun, cost, 60);
        if (found === null) continue;
        better += 1;
        expect(found.cost).toBeLessThan(cost);
        expect(found.cost).toBeGreaterThanOrEqual(least);
        expect(found.cost).toBe(found.moves.reduce((sum, a) => sum + net.cost[a]!, 0));
        const chosen = new Set(found.moves);
        const holding = new Holding(net);
        holding.begin((a) => net.cost[a] === 0 || chosen.has(a));
        expect(holding.done()).toBe(true);
        // From a cheapest one there is nowhere to go, and the same is found each time.
        expect(shaken(net, found.moves, least, 30)).toBeNull();
        expect(shaken(net, begun, cost, 60)).toEqual(found);
      }
      expect(better).toBeGreaterThan(0);
    },
  );
});
