/**
 * A least cut between what holds and the goal when each move asks for one of its needs only: then the moves are a
 * plain graph with capacities, and a maximum flow (Dinic 1970) finds the cut that weighs least. Asking for another
 * need that lies behind the cut makes it lighter; that is repeated until it helps no more.
 */
import type { Holding, Net } from './strip-net.ts';

const SMALL = 1e-9;

export class LeastCut {
  private readonly net: Net;
  /** The need each move asks for; −1: it has all it needs. */
  private readonly asks: Int32Array;
  /** How much of a whole reaches each fact, as an estimate. */
  private readonly reaches: Float64Array;
  private readonly level: Int32Array;
  private readonly at: Int32Array;
  private readonly head: Int32Array;
  /** Edges, each beside its way back, so many of them: the next of the same node, where it leads, what room it has. */
  private readonly next: Int32Array;
  private readonly to: Int32Array;
  private readonly room: Float64Array;
  private edges = 0;
  private readonly sum: Float64Array;
  private readonly queue: Int32Array;
  work = 0;

  constructor(net: Net) {
    this.net = net;
    const nodes = net.facts + 2 * net.cost.length + 1;
    this.asks = new Int32Array(net.cost.length);
    this.reaches = new Float64Array(net.facts);
    this.level = new Int32Array(nodes);
    this.at = new Int32Array(nodes);
    this.head = new Int32Array(nodes);
    this.queue = new Int32Array(nodes);
    let edges = 0;
    for (const gives of net.gives) edges += 2 + 2 * gives.length;
    this.next = new Int32Array(edges);
    this.to = new Int32Array(edges);
    this.room = new Float64Array(edges);
    this.sum = new Float64Array(net.facts);
  }

  /** Chooses what each move asks for: the need that least reaches, then the farthest. */
  choose(
    x: Float64Array,
    holding: Holding,
    used: readonly number[],
    far: Float64Array,
    byFar: boolean,
  ): void {
    const { net, asks, reaches, sum } = this;
    const { holds } = holding;
    reaches.fill(0);
    // Rounds of at most what the move has and what its least need has; a few settle nearly all.
    for (let round = 0; round < 8; round++) {
      let changed = false;
      sum.fill(0);
      for (const a of used) {
        let least = Math.min(1, x[a]!);
        const needs = net.needs[a]!;
        for (let k = 0; k < needs.length; k++)
          if (holds[needs[k]!] === 0) least = Math.min(least, reaches[needs[k]!]!);
        const gives = net.gives[a]!;
        for (let k = 0; k < gives.length; k++) sum[gives[k]!]! += least;
      }
      for (let f = 0; f < sum.length; f++) {
        const now = Math.min(1, sum[f]!);
        if (now > reaches[f]! + SMALL) changed = true;
        reaches[f] = now;
      }
      if (!changed) break;
    }
    for (const a of used) {
      let choice = -1;
      let best = Number.POSITIVE_INFINITY;
      for (const f of net.needs[a]!) {
        if (holding.holds[f]) continue;
        const value = byFar ? -far[f]! : reaches[f]! - 1e-7 * far[f]!;
        if (value < best) {
          best = value;
          choice = f;
        }
      }
      asks[a] = choice;
    }
  }

  private edge(from: number, to: number, room: number): void {
    const e = this.edges;
    this.edges = e + 2;
    this.to[e] = to;
    this.to[e + 1] = from;
    this.room[e] = room;
    this.room[e + 1] = 0;
    this.next[e] = this.head[from]!;
    this.next[e + 1] = this.head[to]!;
    this.head[from] = e;
    this.head[to] = e + 1;
  }

  private push(node: number, goal: number, most: number): number {
    if (node === goal) return most;
    for (let e = this.at[node]!; e !== -1; e = this.next[e]!) {
      this.at[node] = e;
      const to = this.to[e]!;
      if (this.room[e]! <= SMALL || this.level[to] !== this.level[node]! + 1) continue;
      const sent = this.push(to, goal, Math.min(most, this.room[e]!));
      if (sent <= 0) continue;
      this.room[e]! -= sent;
      this.room[e ^ 1]! += sent;
      return sent;
    }
    this.at[node] = -1;
    return 0;
  }

  /** Marks levels from a node; backwards: nodes from which it can be reached. */
  private spread(from: number, back: boolean): void {
    const { level, queue } = this;
    level.fill(-1);
    level[from] = 0;
    queue[0] = from;
    for (let head = 0, tail = 1; head < tail; head++) {
      const node = queue[head]!;
      for (let e = this.head[node]!; e !== -1; e = this.next[e]!) {
        const to = this.to[e]!;
        if (level[to] !== -1 || this.room[back ? e ^ 1 : e]! <= SMALL) continue;
        level[to] = level[node]! + 1;
        queue[tail++] = to;
      }
    }
  }

  /**
   * Facts on the goal's side of a least cut, 1 each, and what it weighs, or null when it weighs `limit` or more.
   * Of several least cuts the one nearest the goal, or nearest the start.
   */
  zone(
    x: Float64Array,
    holding: Holding,
    used: readonly number[],
    limit: number,
    nearGoal: boolean,
  ): { readonly zone: Uint8Array; readonly weight: number } | null {
    const { net, asks } = this;
    let best: { zone: Uint8Array; weight: number } | null = null;
    for (let round = 0; round < 10; round++) {
      const found = this.flow(x, holding, used, nearGoal);
      const { zone } = found;
      let weight = 0;
      let switched = false;
      for (const a of used) {
        if (!net.gives[a]!.some((f) => zone[f] === 1)) continue;
        const inside = net.needs[a]!.find((f) => zone[f] === 1);
        if (inside === undefined) weight += x[a]!;
        else if (asks[a] === -1 || !zone[asks[a]!]) {
          asks[a] = inside;
          switched = true;
        }
      }
      if (best === null || weight < best.weight - SMALL) best = { zone, weight };
      if (!switched) break;
    }
    return best !== null && best.weight < limit ? best : null;
  }

  private flow(
    x: Float64Array,
    holding: Holding,
    used: readonly number[],
    nearGoal: boolean,
  ): { zone: Uint8Array } {
    const { net, asks, level, at } = this;
    const source = net.facts + 2 * net.cost.length;
    this.head.fill(-1);
    this.edges = 0;
    for (const a of used) {
      const from = asks[a] === -1 ? source : asks[a]!;
      const inside = net.facts + 2 * a;
      this.edge(from, inside, x[a]!);
      for (const f of net.gives[a]!) if (!holding.holds[f]) this.edge(inside, f, 4);
    }
    this.work += 4 * this.edges + this.head.length;
    for (;;) {
      this.spread(source, false);
      this.work += this.edges;
      if (level[net.goal] === -1) break;
      at.set(this.head);
      while (this.push(source, net.goal, 4) > 0) this.work += 20;
    }
    const zone = new Uint8Array(net.facts);
    if (nearGoal) this.spread(net.goal, true);
    for (let f = 0; f < net.facts; f++)
      if (nearGoal ? level[f]! >= 0 : level[f]! < 0 && !holding.holds[f]) zone[f] = 1;
    return { zone };
  }
}
