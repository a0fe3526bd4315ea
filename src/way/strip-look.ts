/**
 * Cheap ways under given weights, for the search to have something to beat: several at first glance, of which the best is made
 * better. One made better before is not gone through again.
 */
import { Incumbent } from './strip-incumbent.ts';
import type { Net } from './strip-net.ts';

/** One that is dearer than the best known by more than this is not worth making better. */
const NEAR = 1.02;

export class WayLooks {
  private readonly incumbent: Incumbent;
  private readonly polished = new Set<string>();

  constructor(net: Net) {
    this.incumbent = new Incumbent(net);
  }

  /**
   * A way cheaper than `upper`, by the moves that cost; null where none comes of it. `may`: 1 for the moves it may have;
   * `shares`: how much the lesser needs of a move count, one try for each.
   */
  under(
    weight: Float64Array,
    may: Uint8Array,
    shares: readonly number[],
    upper: number,
  ): { readonly moves: readonly number[]; readonly cost: number } | null {
    const { incumbent } = this;
    let best: readonly number[] | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (const share of shares) {
      const rough = incumbent.rough(weight, may, share);
      if (rough === null) return null;
      const moves = incumbent.prune(rough);
      const cost = incumbent.costOf(moves);
      if (cost >= least) continue;
      least = cost;
      best = moves;
    }
    if (best === null || least >= upper * NEAR) return null;
    // A way polished before comes out the same.
    const name = best.join(' ');
    if (this.polished.has(name)) return null;
    this.polished.add(name);
    const moves = incumbent.polish(best, may);
    const cost = incumbent.costOf(moves);
    return cost < upper ? { moves, cost } : null;
  }
}
