/**
 * Good ways quickly: the additive heuristic's plan (Bonet and Geffner 2001), pruned of what is not needed, then made
 * better by doing without one of its moves at a time. Never claimed to be cheapest.
 */
import { Holding, type Net } from './strip-net.ts';

export class Incumbent {
  private readonly net: Net;
  private readonly holding: Holding;
  private readonly far: Float64Array;
  private readonly by: Int32Array;
  private readonly sum: Float64Array;
  private readonly open: Int32Array;

  constructor(net: Net) {
    this.net = net;
    this.holding = new Holding(net);
    this.far = new Float64Array(net.facts);
    this.by = new Int32Array(net.facts);
    this.sum = new Float64Array(net.cost.length);
    this.open = new Int32Array(net.cost.length);
  }

  /**
   * Paid moves of a way that looks cheap under these weights; null when the allowed moves do not reach the goal. Of the
   * needs of a move the dearest counts in full and the others by `share`, 0–1: low where needs have much in common.
   */
  rough(weight: (move: number) => number, may: (move: number) => boolean, share: number): number[] | null {
    const { net, far, by, sum, open } = this;
    far.fill(Number.POSITIVE_INFINITY);
    by.fill(-1);
    const settled = new Uint8Array(net.facts);
    for (let a = 0; a < open.length; a++) {
      open[a] = net.needs[a]!.length;
      sum[a] = weight(a);
    }
    // Facts few and costs uneven: buckets do not fit, a sorted list by binary heap of pairs does.
    const heap: [number, number][] = [];
    const push = (key: number, fact: number) => {
      let at = heap.length;
      heap.push([key, fact]);
      while (at > 0) {
        const up = (at - 1) >> 1;
        if (heap[up]![0] <= key) break;
        heap[at] = heap[up]!;
        at = up;
      }
      heap[at] = [key, fact];
    };
    const pop = (): number => {
      const top = heap[0]![1];
      const last = heap.pop()!;
      if (heap.length > 0) {
        let at = 0;
        for (;;) {
          let down = 2 * at + 1;
          if (down >= heap.length) break;
          if (down + 1 < heap.length && heap[down + 1]![0] < heap[down]![0]) down += 1;
          if (heap[down]![0] >= last[0]) break;
          heap[at] = heap[down]!;
          at = down;
        }
        heap[at] = last;
      }
      return top;
    };
    const reach = (a: number) => {
      if (!may(a)) return;
      for (const f of net.gives[a]!) {
        if (sum[a]! >= far[f]!) continue;
        far[f] = sum[a]!;
        by[f] = a;
        push(sum[a]!, f);
      }
    };
    for (const a of net.openers) reach(a);
    while (heap.length > 0) {
      const f = pop();
      if (settled[f]) continue;
      settled[f] = 1;
      for (const a of net.takers[f]!) {
        open[a]! -= 1;
        // Facts settle from near to far: the last is the dearest.
        sum[a]! += open[a] === 0 ? far[f]! : share * far[f]!;
        if (open[a] === 0) reach(a);
      }
    }
    if (by[net.goal] === -1) return null;
    const chosen = new Set<number>();
    const queue = [net.goal];
    const seen = new Uint8Array(net.facts);
    seen[net.goal] = 1;
    for (let head = 0; head < queue.length; head++) {
      const a = by[queue[head]!]!;
      if (net.cost[a]! > 0) chosen.add(a);
      for (const f of net.needs[a]!) {
        if (seen[f]) continue;
        seen[f] = 1;
        queue.push(f);
      }
    }
    return [...chosen];
  }

  /** Leaves out, dearest first, every move without which the goal is still reached. */
  prune(moves: readonly number[]): number[] {
    const { net, holding } = this;
    const kept = new Set(moves);
    for (const a of [...kept].sort((p, q) => net.cost[q]! - net.cost[p]! || q - p)) {
      kept.delete(a);
      holding.begin((b) => net.cost[b] === 0 || kept.has(b));
      if (!holding.done()) kept.add(a);
    }
    return [...kept].sort((p, q) => p - q);
  }

  /** Cost of moves together, in the unit of the costs. */
  costOf(moves: readonly number[]): number {
    return moves.reduce((sum, a) => sum + this.net.cost[a]!, 0);
  }

  /** Tries to do without each move in turn, the others being paid for, until that helps no more. */
  polish(moves: readonly number[], may: (move: number) => boolean): number[] {
    const { net } = this;
    let best = this.prune(moves);
    let cost = this.costOf(best);
    for (let better = true; better; ) {
      better = false;
      for (const out of best) {
        const have = new Set(best);
        for (const share of [1, 0.3]) {
          const other = this.rough(
            (a) => (have.has(a) ? 0 : net.cost[a]!),
            (a) => a !== out && may(a),
            share,
          );
          if (other === null) break;
          const pruned = this.prune([...new Set([...other, ...best.filter((a) => a !== out)])]);
          const costs = this.costOf(pruned);
          if (costs >= cost) continue;
          best = pruned;
          cost = costs;
          better = true;
          break;
        }
        if (better) break;
      }
    }
    return best;
  }
}
