/**
 * From proposed prices of landmarks to a bound that is proved, in whole numbers: any prices ≥ 0 give one, because every
 * way has a move in every landmark (the safe bound of Neumaier and Shcherbina 2004, with integers for directed rounding).
 */

/** 0 undecided, 1 in, −1 out. */
export type Decided = Int8Array;

export class ProvenBound {
  private readonly scale: number;
  private readonly cost: Float64Array;
  /** Scaled cost of each move less the prices of its landmarks. */
  private readonly rest: Float64Array;
  private scaled = 0;

  constructor(cost: Float64Array) {
    let total = 1;
    for (const c of cost) total += c;
    // Every sum below stays under 2^53, so that it is exact.
    this.scale = 2 ** Math.max(0, Math.min(20, Math.floor(50 - Math.log2(total))));
    this.cost = cost;
    this.rest = new Float64Array(cost.length);
  }

  /** Works out the bound from prices; `prices` calls back with each landmark's moves and price. */
  reckon(decided: Decided, prices: (each: (landmark: Int32Array, price: number) => void) => void): number {
    const { scale, rest, cost } = this;
    for (let j = 0; j < rest.length; j++) rest[j] = cost[j]! * scale;
    let sum = 0;
    prices((landmark, price) => {
      let whole = Math.round(price * scale);
      for (const j of landmark) if (decided[j] === 0) whole = Math.min(whole, Math.max(0, rest[j]!));
      if (!(whole > 0)) return;
      sum += whole;
      for (const j of landmark) rest[j]! -= whole;
    });
    for (let j = 0; j < rest.length; j++) if (decided[j] === 1) sum += rest[j]!;
    this.scaled = sum;
    return Math.ceil(sum / scale);
  }

  /** Undecided moves that no way cheaper than `cost` has; the bound must have been reckoned. */
  *outAt(decided: Decided, cost: number): Generator<number> {
    const { rest, scaled, scale } = this;
    for (let j = 0; j < rest.length; j++)
      if (decided[j] === 0 && Math.ceil((scaled + rest[j]!) / scale) >= cost) yield j;
  }
}
