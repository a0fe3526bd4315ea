/**
 * The landmark-cut bound (Helmert and Domshlak 2009): round after round, the dearest need of each move makes a graph,
 * a cut of it between the start and the goal is a landmark (a set of moves of which every way has one), and what the
 * cheapest of its moves costs is taken off all of them and added to the bound. Linear work a round.
 */
import { NearFirst } from './near-first.ts';
import { Holding, type Net } from './strip-net.ts';

/**
 * The landmark of a zone of facts: the moves that enter it, of those that can come before it is entered; none of `out`, which
 * belong to it.
 */
export function entering(
  net: Net,
  zone: Uint8Array,
  holding: Holding,
  out: readonly number[] = [],
): number[] {
  holding.beginOutside(zone, out);
  const { allowed, open } = holding;
  const cut: number[] = [];
  for (let a = 0; a < net.cost.length; a++) if (open[a] === 0 && allowed[a] === 0) cut.push(a);
  if (out.length === 0) return cut;
  const gone = new Set(out);
  return cut.filter((a) => !gone.has(a));
}

/** Dearest-need distance of every fact under these costs, and the need that decides for each move (−1: none). */
export class Dearest {
  readonly net: Net;
  readonly far: Float64Array;
  readonly deciding: Int32Array;
  private readonly open: Int32Array;
  private readonly heap = new NearFirst();
  private readonly settled: Uint8Array;

  constructor(net: Net) {
    this.net = net;
    this.far = new Float64Array(net.facts);
    this.deciding = new Int32Array(net.cost.length);
    this.open = new Int32Array(net.cost.length);
    this.settled = new Uint8Array(net.facts);
  }

  /** Works the distances out anew. */
  measure(cost: Float64Array): void {
    const { net, far, deciding, open, settled, heap } = this;
    far.fill(Number.POSITIVE_INFINITY);
    settled.fill(0);
    open.set(net.asked);
    deciding.fill(-1);
    const reach = (a: number, from: number) => {
      const there = from + cost[a]!;
      const gives = net.gives[a]!;
      for (let k = 0; k < gives.length; k++) {
        const f = gives[k]!;
        if (there >= far[f]!) continue;
        far[f] = there;
        heap.push(there, f);
      }
    };
    for (const a of net.openers) reach(a, 0);
    while (heap.size > 0) {
      const f = heap.pop();
      if (settled[f]) continue;
      settled[f] = 1;
      const takers = net.takers[f]!;
      for (let k = 0; k < takers.length; k++) {
        const a = takers[k]!;
        open[a]! -= 1;
        if (open[a] !== 0) continue;
        // Facts settle from near to far, so the last one is the dearest.
        deciding[a] = f;
        reach(a, far[f]!);
      }
    }
  }
}

export interface Cuts {
  /** Sum of what the landmarks give, in the unit of the costs: no way is cheaper. */
  readonly bound: number;
  readonly landmarks: readonly number[][];
  /** What is left of each move's cost. */
  readonly left: Float64Array;
}

/** Landmark cuts until the goal costs nothing more. The goal must be within reach. */
export function landmarkCuts(net: Net): Cuts {
  const left = Float64Array.from(net.cost);
  const dearest = new Dearest(net);
  const holding = new Holding(net);
  const landmarks: number[][] = [];
  let bound = 0;
  for (;;) {
    dearest.measure(left);
    if (dearest.far[net.goal]! <= 0) return { bound, landmarks, left };
    const zone = new Uint8Array(net.facts);
    zone[net.goal] = 1;
    const queue = [net.goal];
    for (let head = 0; head < queue.length; head++) {
      for (const a of net.givers[queue[head]!]!) {
        const need = dearest.deciding[a]!;
        if (left[a]! > 0 || need === -1 || zone[need]) continue;
        zone[need] = 1;
        queue.push(need);
      }
    }
    const cut = entering(net, zone, holding);
    let least = Number.POSITIVE_INFINITY;
    for (const a of cut) least = Math.min(least, left[a]!);
    for (const a of cut) left[a]! -= least;
    bound += least;
    landmarks.push(cut);
  }
}
