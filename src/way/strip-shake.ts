/**
 * A cheaper way by luck, where the search has given up: most of the best way's moves are taken as paid, the costs of all others
 * are shaken, and what looks cheap then is made better (large neighbourhood search, Shaw 1998). Nothing is proved by it; the
 * seed is always the same, and so is the way.
 */
import { openStream } from '../numbers/random.ts';
import { Incumbent } from './strip-incumbent.ts';
import type { Net } from './strip-net.ts';

/** How much the lesser needs of a move count, in turn. */
const SHARES = [1, 0.5, 0.2, 0, 0.7];
/** One that is dearer than the best by more than this is not worth making better. */
const NEAR = 1.03;

/**
 * Paid moves of a way cheaper than `moves`, which costs `cost`; null where so many tries find none. `moves` may lack some that
 * the net has no more.
 */
export function shaken(
  net: Net,
  moves: readonly number[],
  cost: number,
  tries: number,
): { readonly moves: readonly number[]; readonly cost: number } | null {
  const incumbent = new Incumbent(net);
  const random = openStream(1);
  const may = new Uint8Array(net.cost.length).fill(1);
  const weight = new Float64Array(net.cost.length);
  const polished = new Set<string>();
  let best = moves;
  let least = cost;
  for (let n = 0; n < tries; n++) {
    const wide = random() < 0.5 ? 1 : 0.4;
    for (let a = 0; a < weight.length; a++) weight[a] = net.cost[a]! * (1 + wide * (2 * random() - 1)) + 1e-6;
    const kept = 0.2 + 0.75 * random();
    for (const a of best) {
      if (random() < kept) weight[a] = 1e-6 * net.cost[a]!;
      else if (random() < 0.3) weight[a]! *= 3;
    }
    const rough = incumbent.rough(weight, may, SHARES[n % SHARES.length]!);
    if (rough === null) return null;
    const pruned = incumbent.prune(rough);
    const name = pruned.join(' ');
    if (incumbent.costOf(pruned) >= NEAR * least || polished.has(name)) continue;
    polished.add(name);
    const way = incumbent.polish(pruned, may);
    const costs = incumbent.costOf(way);
    if (costs >= least) continue;
    best = way;
    least = costs;
  }
  return least < cost ? { moves: best, cost: least } : null;
}
