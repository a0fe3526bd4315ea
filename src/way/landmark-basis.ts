/**
 * Where the fractional problem over landmarks stands: which landmarks are taken up and which of them are tight, which moves
 * are in use and which are fixed, with all values and prices, and how these are worked out anew when rounding has drifted.
 * The steps are those of landmark-lp.ts.
 */
import { Inverse, squares } from './landmark-inverse.ts';
import { type Landmark, type LandmarkRows, longer } from './landmark-rows.ts';

/** What a tight row may be off before the inverse is worked out anew. */
const DRIFT = 1e-7;

export class LandmarkBasis {
  protected readonly rows: LandmarkRows;
  protected readonly cost: Float64Array;
  /** 0 free, 1 fixed in, −1 fixed out. */
  protected readonly fixed: Int8Array;
  protected readonly x: Float64Array;
  /** What is left of the cost of each move. */
  protected readonly left: Float64Array;
  /** Place of each move among those in use; −1: it stands at its limit. */
  protected readonly place: Int32Array;
  protected use: Int32Array;
  /** Landmarks here, and for each landmark known where it stands here plus one. */
  protected readonly here: number[];
  protected at: Int32Array;
  /** By where it stands: what a landmark has over; its price; its place among the tight ones, −1 for a loose one. */
  protected over: Float64Array;
  protected price: Float64Array;
  /** Square of the length of a landmark's row, as last worked out. */
  protected length: Float64Array;
  protected tightAt: Int32Array;
  protected tight: Int32Array;
  protected readonly inverse: Inverse;
  protected stale = false;
  protected since = 0;
  protected row = new Float64Array(64);
  protected column = new Float64Array(64);
  protected readonly entry: Float64Array;
  protected readonly change: Float64Array;
  pivots = 0;
  protected done = 0;

  constructor(from: LandmarkRows | LandmarkBasis, cost?: Float64Array) {
    if (from instanceof LandmarkBasis) {
      this.rows = from.rows;
      this.cost = from.cost;
      this.fixed = from.fixed.slice();
      this.x = from.x.slice();
      this.left = from.left.slice();
      this.place = from.place.slice();
      this.use = from.use.slice();
      this.here = [...from.here];
      this.at = from.at.slice();
      this.over = from.over.slice();
      this.price = from.price.slice();
      this.length = from.length.slice();
      this.tightAt = from.tightAt.slice();
      this.tight = from.tight.slice();
      this.inverse = new Inverse(from.inverse);
      this.stale = from.stale;
      this.since = from.since;
      this.entry = from.entry;
      this.change = from.change;
      this.row = new Float64Array(from.row.length);
      this.column = new Float64Array(from.row.length);
    } else {
      const n = cost!.length;
      this.rows = from;
      this.cost = cost!;
      this.fixed = new Int8Array(n);
      this.x = new Float64Array(n);
      this.left = Float64Array.from(cost!);
      this.place = new Int32Array(n).fill(-1);
      this.use = new Int32Array(64);
      this.here = [];
      this.at = new Int32Array(64);
      this.over = new Float64Array(64);
      this.price = new Float64Array(64);
      this.length = new Float64Array(64);
      this.tightAt = new Int32Array(64);
      this.tight = new Int32Array(64);
      this.inverse = new Inverse();
      this.entry = new Float64Array(n);
      this.change = new Float64Array(n);
    }
  }

  /** Entries worked on: effort. */
  get work(): number {
    return this.done + this.inverse.work;
  }

  protected rowOf(slot: number): Landmark {
    return this.rows.all[this.here[slot]!]!;
  }

  /** What a landmark gets of these amounts. */
  protected sum({ moves, asking }: Landmark, x: Float64Array): number {
    let sum = asking === -1 ? 0 : -x[asking]!;
    for (let k = 0; k < moves.length; k++) sum += x[moves[k]!]!;
    return sum;
  }

  /** Takes up a landmark by its number. */
  addLandmark(k: number): void {
    const slot = this.here.push(k) - 1;
    this.at = longer(this.at, k);
    this.at[k] = slot + 1;
    this.over = longer(this.over, slot);
    this.price = longer(this.price, slot);
    this.length = longer(this.length, slot);
    this.length[slot] = 1;
    this.tightAt = longer(this.tightAt, slot);
    const row = this.rowOf(slot);
    this.over[slot] = this.sum(row, this.x) - (row.asking === -1 ? 1 : 0);
    this.price[slot] = 0;
    this.tightAt[slot] = -1;
  }

  /** Takes up the landmarks known that lack more than `short` of a whole move in this choice; how many. */
  takeUp(x: Float64Array, short: number): number {
    const { begins, columns, asking, all } = this.rows;
    let added = 0;
    for (let k = 0; k < all.length; k++) {
      if (this.has(k)) continue;
      let sum = asking[k] === -1 ? -1 : -x[asking[k]!]!;
      for (let at = begins[k]!; at < begins[k + 1]!; at++) sum += x[columns[at]!]!;
      if (sum >= -short) continue;
      this.addLandmark(k);
      added += 1;
    }
    return added;
  }

  /** Whether a landmark is taken up here. */
  has(k: number): boolean {
    return k < this.at.length && this.at[k]! > 0;
  }

  /** Fixes a move at 0 (out). */
  forbid(a: number): void {
    this.fixed[a] = -1;
  }

  /** Fixes a move at 1 (in). */
  demand(a: number): void {
    this.fixed[a] = 1;
    if (this.place[a] === -1) this.stale = true;
  }

  protected room(size: number): void {
    if (size <= this.row.length) return;
    this.row = longer(this.row, size);
    this.column = longer(this.column, size);
  }

  /** `this.row`: the moves in use of a landmark times the inverse; and the length of that. */
  protected through(slot: number): void {
    const { row, place, inverse } = this;
    row.fill(0, 0, inverse.size);
    const { moves, asking } = this.rowOf(slot);
    for (let k = 0; k < moves.length; k++) {
      const p = place[moves[k]!]!;
      if (p !== -1) inverse.addRow(row, p, 1);
    }
    if (asking !== -1 && place[asking] !== -1) inverse.addRow(row, place[asking]!, -1);
    this.length[slot] = 1 + squares(row, 0, inverse.size);
    this.done += inverse.size;
  }

  /** Works all values and prices out from the inverse, and the inverse where it has drifted; false where that fails. */
  protected refresh(): boolean {
    for (let tries = 0; ; tries++) {
      const off = this.reckon();
      this.stale = false;
      this.since = 0;
      if (off < DRIFT) return true;
      if (tries === 1) return off < 1e-4;
      const { inverse, tight, place } = this;
      const { size } = inverse;
      const square = new Float64Array(size * size);
      for (let r = 0; r < size; r++) {
        const { moves, asking } = this.rowOf(tight[r]!);
        for (const j of moves) if (place[j] !== -1) square[r * size + place[j]!]! += 1;
        if (asking !== -1 && place[asking] !== -1) square[r * size + place[asking]!]! -= 1;
      }
      if (!inverse.remake(square)) return false;
    }
  }

  /** Values and prices from the inverse, and how far the tight rows and the moves in use are off. */
  protected reckon(): number {
    const { inverse, x, left, cost, fixed, place, use, tight, over, price, here } = this;
    const { size } = inverse;
    this.room(size + 1);
    for (let j = 0; j < x.length; j++) x[j] = place[j] === -1 && fixed[j] === 1 ? 1 : 0;
    const values = this.column.fill(0, 0, size);
    for (let r = 0; r < size; r++) {
      const row = this.rowOf(tight[r]!);
      const wanted = (row.asking === -1 ? 1 : 0) - this.sum(row, x);
      if (wanted !== 0) inverse.addColumn(values, r, wanted);
    }
    for (let p = 0; p < size; p++) x[use[p]!] = values[p]!;
    const prices = this.row.fill(0, 0, size);
    for (let p = 0; p < size; p++) inverse.addRow(prices, p, cost[use[p]!]!);
    left.set(cost);
    price.fill(0, 0, here.length);
    for (let r = 0; r < size; r++) {
      const y = prices[r]!;
      price[tight[r]!] = y;
      const { moves, asking } = this.rowOf(tight[r]!);
      for (const j of moves) left[j]! -= y;
      if (asking !== -1) left[asking]! += y;
    }
    let off = 0;
    for (let i = 0; i < here.length; i++) {
      const row = this.rowOf(i);
      over[i] = this.sum(row, x) - (row.asking === -1 ? 1 : 0);
      if (this.tightAt[i] !== -1) off = Math.max(off, Math.abs(over[i]!));
    }
    for (let p = 0; p < size; p++) off = Math.max(off, Math.abs(left[use[p]!]!) * 1e-3);
    this.done += here.length * 10;
    return off;
  }

  /** Drops the landmarks that are met with room to spare. */
  forgetSlack(): void {
    const { here, at, over, price, tightAt, tight } = this;
    let kept = 0;
    for (let i = 0; i < here.length; i++) {
      const k = here[i]!;
      if (tightAt[i] === -1 && over[i]! > 1e-7) {
        at[k] = 0;
        continue;
      }
      here[kept] = k;
      at[k] = kept + 1;
      over[kept] = over[i]!;
      price[kept] = price[i]!;
      this.length[kept] = this.length[i]!;
      tightAt[kept] = tightAt[i]!;
      if (tightAt[kept] !== -1) tight[tightAt[kept]!] = kept;
      kept += 1;
    }
    here.length = kept;
  }

  /** Value of each move. */
  values(x: Float64Array): void {
    for (let j = 0; j < x.length; j++) x[j] = Math.max(0, this.x[j]!);
  }

  /** Landmarks with a price, and the price. */
  prices(each: (landmark: number, price: number) => void): void {
    for (let i = 0; i < this.here.length; i++) if (this.price[i]! > 0) each(this.here[i]!, this.price[i]!);
  }

  /** Landmarks taken up at present. */
  get height(): number {
    return this.here.length;
  }
}
