/**
 * Good ways quickly: the additive heuristic's plan (Bonet and Geffner 2001), pruned of what is not needed, then made
 * better by doing without one of its moves at a time. Never claimed to be cheapest.
 */
import { NearFirst } from './near-first.ts';
import type { Net } from './strip-net.ts';

export class Incumbent {
  private readonly net: Net;
  private readonly free: readonly number[];
  private readonly holds: Int32Array;
  private stamp = 0;
  private readonly settled: Uint8Array;
  private readonly heap: NearFirst;
  private readonly far: Float64Array;
  private readonly by: Int32Array;
  private readonly sum: Float64Array;
  private readonly open: Int32Array;

  constructor(net: Net) {
    this.net = net;
    this.free = [...net.cost.keys()].filter((a) => net.cost[a] === 0);
    this.holds = new Int32Array(net.facts);
    this.settled = new Uint8Array(net.facts);
    this.heap = new NearFirst();
    this.far = new Float64Array(net.facts);
    this.by = new Int32Array(net.facts);
    this.sum = new Float64Array(net.cost.length);
    this.open = new Int32Array(net.cost.length);
  }

  /**
   * Paid moves of a way that looks cheap under these weights; null when the allowed moves do not reach the goal. Of the
   * needs of a move the dearest counts in full and the others by `share`, 0–1: low where needs have much in common.
   */
  rough(weight: Float64Array, may: Uint8Array, share: number): number[] | null {
    const { net, far, by, sum, open } = this;
    far.fill(Number.POSITIVE_INFINITY);
    by.fill(-1);
    const { settled, heap } = this;
    settled.fill(0);
    open.set(net.asked);
    sum.set(weight);
    const reach = (a: number) => {
      if (may[a] === 0) return;
      const gives = net.gives[a]!;
      for (let k = 0; k < gives.length; k++) {
        const f = gives[k]!;
        if (sum[a]! >= far[f]!) continue;
        far[f] = sum[a]!;
        by[f] = a;
        heap.push(sum[a]!, f);
      }
    };
    for (const a of net.openers) reach(a);
    while (heap.size > 0) {
      const f = heap.pop();
      if (settled[f]) continue;
      settled[f] = 1;
      const takers = net.takers[f]!;
      for (let k = 0; k < takers.length; k++) {
        const a = takers[k]!;
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

  /** Whether the first `many` of a list reach the goal in some order; they are put in such an order as far as it goes. */
  private reaches(order: Int32Array, many: number): boolean {
    const { net, holds } = this;
    const stamp = ++this.stamp;
    let done = 0;
    for (let before = -1; before !== done; ) {
      before = done;
      for (let i = done; i < many; i++) {
        const a = order[i]!;
        const needs = net.needs[a]!;
        let k = 0;
        while (k < needs.length && holds[needs[k]!] === stamp) k++;
        if (k < needs.length) continue;
        for (const f of net.gives[a]!) holds[f] = stamp;
        // Swapped forward, so that the next trial goes through in one pass.
        order[i] = order[done]!;
        order[done++] = a;
      }
      if (holds[net.goal] === stamp) return true;
    }
    return false;
  }

  /** Leaves out, dearest first, every move without which the goal is still reached. */
  prune(moves: readonly number[]): number[] {
    const { net, free } = this;
    const kept = new Set(moves);
    let order = Int32Array.of(...free, ...kept);
    let trial = order.slice();
    let many = order.length;
    this.reaches(order, many);
    for (const a of [...kept].sort((p, q) => net.cost[q]! - net.cost[p]! || q - p)) {
      let to = 0;
      for (let i = 0; i < many; i++) if (order[i] !== a) trial[to++] = order[i]!;
      if (!this.reaches(trial, to)) continue;
      kept.delete(a);
      [order, trial] = [trial, order];
      many = to;
    }
    return [...kept].sort((p, q) => p - q);
  }

  /** Cost of moves together, in the unit of the costs. */
  costOf(moves: readonly number[]): number {
    return moves.reduce((sum, a) => sum + this.net.cost[a]!, 0);
  }

  /** Tries to do without each move in turn, the others being paid for, until that helps no more. */
  polish(moves: readonly number[], may: Uint8Array): number[] {
    const { net } = this;
    const weight = new Float64Array(net.cost.length);
    const allowed = may.slice();
    let best = this.prune(moves);
    let cost = this.costOf(best);
    for (let better = true; better; ) {
      better = false;
      for (const out of best) {
        weight.set(net.cost);
        for (const a of best) weight[a] = 0;
        allowed.set(may);
        allowed[out] = 0;
        for (const share of [1, 0.3]) {
          const other = this.rough(weight, allowed, share);
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
