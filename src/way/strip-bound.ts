/**
 * From proposed prices of landmarks to a bound that is proved, in whole numbers: any prices ≥ 0 give one. Every way has a
 * move in every landmark, and as much of what a move asks for as of that move, so that
 * cost ≥ Σ price × (1 or 0) + Σ over the moves of the way of (cost − prices of its landmarks + prices of what it asks for),
 * and each move counts in that sum only where it is in, or where it makes the sum less (the safe bound of Neumaier and
 * Shcherbina 2004, with integers for directed rounding).
 */

import type { Landmark } from './landmark-rows.ts';

/** 0 undecided, 1 in, −1 out. */
export type Decided = Int8Array;

/** Prices are kept below 2 to this, so that sums of a few hundred stay whole numbers below 2^53. */
const BITS = 44;

export class ProvenBound {
  private readonly scale: number;
  private readonly most: number;
  private readonly cost: Float64Array;
  /** Scaled cost of each move less the prices of its landmarks, with those of what it asks for. */
  private readonly rest: Float64Array;
  private scaled = 0;

  constructor(cost: Float64Array) {
    let total = 1;
    for (const c of cost) total += c;
    this.scale = 2 ** Math.max(0, Math.min(20, Math.floor(BITS - Math.log2(total))));
    this.most = 2 ** BITS;
    this.cost = cost;
    this.rest = new Float64Array(cost.length);
  }

  /** Works out the bound from prices; `prices` calls back with each landmark and its price. */
  reckon(decided: Decided, prices: (each: (landmark: Landmark, price: number) => void) => void): number {
    const { scale, rest, cost, most } = this;
    for (let j = 0; j < rest.length; j++) rest[j] = cost[j]! * scale;
    let sum = 0;
    prices(({ moves, asking }, price) => {
      const whole = Math.round(price * scale);
      if (!(whole > 0) || whole > most) return;
      for (const j of moves) rest[j]! -= whole;
      if (asking === -1) sum += whole;
      else rest[asking]! += whole;
    });
    for (let j = 0; j < rest.length; j++)
      if (decided[j] === 1 || (decided[j] === 0 && rest[j]! < 0)) sum += rest[j]!;
    this.scaled = sum;
    return Math.ceil(sum / scale);
  }

  /** Undecided moves that no way cheaper than `cost` has; the bound must have been reckoned. */
  *outAt(decided: Decided, cost: number): Generator<number> {
    const { rest, scaled, scale } = this;
    for (let j = 0; j < rest.length; j++)
      if (decided[j] === 0 && rest[j]! > 0 && Math.ceil((scaled + rest[j]!) / scale) >= cost) yield j;
  }
}
