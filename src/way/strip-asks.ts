/**
 * What a move that is in asks of the others. Landmarks say what every way to the goal has; a way that has a certain move
 * has as much of each of that move's needs: for a need and the moves that can bring it about first,
 * Σ moves ≥ the move. The fractional choice over landmarks alone may take a third of a move whose needs it has no share
 * of; on shared and dense strip-downs of 60 parts its bound lies up to a fifth under the least cost for that reason.
 * (First achievers of Imai and Fukunaga 2015, seen as cuts on the choice of moves.)
 *
 * Rejected: that a move be used, with one of the moves that need what it gives (every cheapest way has one; the flow balance of
 * Koch and Martin 1998 for Steiner trees): 4 % less time on twenty of the longest ways in, 1.0 times on 200 drawn anew, nodes 174 to
 * 222. The same for all moves that give the same together, or by flow from the move to the goal: hardly ever violated then. A
 * share of less than 0.02 to 0.1 too much counted as met: 1.04 to 1.25 times the time.
 */
import { entering } from './landmark-cut.ts';
import { Holding, type Net } from './strip-net.ts';

/** A share of less than this is not worth asking for. */
const SMALL = 1e-3;
const SHORT = 1e-4;

export class Asks {
  private readonly net: Net;
  private readonly far: Float64Array;
  private readonly holding: Holding;
  /** For each fact the moves of which one brings it about; null where nothing that costs must. Worked out when asked for. */
  private readonly known: (readonly number[] | null | undefined)[];
  /** Moves gone through: effort. */
  work = 0;

  constructor(net: Net, far: Float64Array) {
    this.net = net;
    this.far = far;
    this.holding = new Holding(net);
    this.known = new Array(net.facts).fill(undefined);
  }

  /** The moves that cost of which every way to a fact has one. */
  private bringing(fact: number): readonly number[] | null {
    const known = this.known[fact];
    if (known !== undefined) return known;
    const { net, far } = this;
    const zone = new Uint8Array(net.facts);
    zone[fact] = 1;
    const queue = [fact];
    let found: readonly number[] | null = null;
    let free = false;
    for (let head = 0; head < queue.length && !free; head++)
      for (const b of net.givers[queue[head]!]!) {
        if (net.cost[b]! > 0) continue;
        // A free move brings nothing about by itself: one of its needs, the dearest, is asked for instead.
        const needs = net.needs[b]!;
        if (needs.some((f) => zone[f] === 1)) continue;
        let dearest = -1;
        for (const f of needs) if (dearest === -1 || far[f]! > far[dearest]!) dearest = f;
        if (dearest === -1) {
          free = true;
          break;
        }
        zone[dearest] = 1;
        queue.push(dearest);
      }
    if (!free) {
      const cut = entering(net, zone, this.holding);
      this.work += net.cost.length;
      if (cut.length > 0) found = cut;
    }
    this.known[fact] = found;
    return found;
  }

  /** Calls back with each move that has more than its need is brought about, and the moves that bring it about. */
  find(x: Float64Array, each: (move: number, bringing: readonly number[]) => void): void {
    const { net } = this;
    for (let a = 0; a < x.length; a++) {
      if (x[a]! < SMALL || net.cost[a] === 0) continue;
      const needs = net.needs[a]!;
      for (let n = 0; n < needs.length; n++) {
        const bringing = this.bringing(needs[n]!);
        if (bringing === null) continue;
        let sum = 0;
        for (let k = 0; k < bringing.length; k++) sum += x[bringing[k]!]!;
        this.work += bringing.length;
        if (sum < x[a]! - SHORT) each(a, bringing);
      }
    }
  }
}
