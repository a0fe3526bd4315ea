/**
 * The cheapest fractional choice of moves that has at least one whole move in every landmark, by the dual simplex
 * method on a dense dictionary: rows come and go, and a choice made fixes a column. Its prices (one a landmark) are
 * the best way to share the moves' costs among the landmarks found so far; landmark-cut shares them greedily.
 *
 * Rejected: columns only for moves that pay, the rest taken in when they do. It wants primal steps as well, and these
 * went round in circles: the rows of what a move asks for stand at nought, and so does every step.
 *
 * The arithmetic is floating point, and nothing is claimed from it: `prices` are only a proposal, from which
 * `provenBound` (strip-bound.ts) works out a bound in whole numbers.
 */

const TINY = 1e-9;

/** Names from here down are pins, `PIN − move`: rows that hold a move at 0 or 1. */
const PIN = -(2 ** 30);

/*
 * Nine tenths of the search is spent in the loop below. Four at a time: 41 to 49 µs a pivot of 180 rows and 260 columns
 * against 54 to 59 one at a time (node 20); an array a row was slower, 64 to 72. The rows are nine tenths full, so a
 * list of the entries that are not nought gains nothing. Lengths of rows four at a time: no gain.
 */

/** to[from …] += times × row, the first `count` entries. */
function addTimes(to: Float64Array, from: number, row: Float64Array, count: number, times: number): void {
  const even = count & ~3;
  let k = 0;
  let at = from;
  for (; k < even; k += 4, at += 4) {
    to[at]! += times * row[k]!;
    to[at + 1]! += times * row[k + 1]!;
    to[at + 2]! += times * row[k + 2]!;
    to[at + 3]! += times * row[k + 3]!;
  }
  for (; k < count; k++, at++) to[at]! += times * row[k]!;
}

export class LandmarkLp {
  /** Columns. */
  private n: number;
  /** Room for a row: columns and the constant. */
  private readonly stride: number;
  /** What stands in each column: a move (≥ 0), as ~k the surplus of landmark k, or a pin. */
  private readonly column: Int32Array;
  /** What is left of the cost of each column; last: minus the objective. */
  private readonly price: Float64Array;
  /** Row i: basic i = constant (at n) + Σ entry × column. */
  private table: Float64Array;
  private readonly basic: number[];
  /** The row that pivots, apart from the table. */
  private readonly line: Float64Array;
  private readonly moves: number;
  /** Entries worked on: effort. */
  work = 0;
  pivots = 0;

  constructor(cost: Float64Array | LandmarkLp) {
    if (cost instanceof LandmarkLp) {
      this.n = cost.n;
      this.moves = cost.moves;
      this.stride = cost.stride;
      this.column = Int32Array.from(cost.column);
      this.price = Float64Array.from(cost.price);
      this.basic = [...cost.basic];
      this.table = cost.table.slice(0, (this.basic.length + 16) * this.stride);
    } else {
      this.n = cost.length;
      this.moves = cost.length;
      this.stride = this.n + 1;
      this.column = Int32Array.from(cost, (_, j) => j);
      this.price = new Float64Array(this.n + 1);
      this.price.set(cost);
      this.basic = [];
      this.table = new Float64Array(64 * this.stride);
    }
    this.line = new Float64Array(this.stride);
  }

  /** Adds the row: name = constant + sign × Σ moves − the move `against` (−1: none). */
  private add(name: number, moves: Iterable<number>, sign: number, constant: number, against = -1): void {
    const { n, stride, basic } = this;
    const rows = basic.length;
    if ((rows + 1) * stride > this.table.length) {
      const table = new Float64Array(2 * (rows + 1) * stride);
      table.set(this.table);
      this.table = table;
    }
    const { table } = this;
    const at = rows * stride;
    table.fill(0, at, at + n);
    table[at + n] = constant;
    const wanted = new Int8Array(this.moves);
    for (const a of moves) wanted[a] = sign;
    if (against !== -1) wanted[against]! -= 1;
    for (let j = 0; j < n; j++) {
      const a = this.column[j]!;
      if (a >= 0) table[at + j] = wanted[a]!;
    }
    for (let i = 0; i < rows; i++) {
      const a = basic[i]!;
      if (a < 0 || wanted[a] === 0) continue;
      const from = i * stride;
      const times = wanted[a]!;
      for (let j = 0; j <= n; j++) table[at + j]! += times * table[from + j]!;
    }
    basic.push(name);
  }

  /** Adds a landmark by its number: one whole of its moves, or as much of them as of the move that asks for them. */
  addLandmark(k: number, moves: Iterable<number>, asking = -1): void {
    this.add(~k, moves, 1, asking === -1 ? -1 : 0, asking);
  }

  /** Takes a column out: what stands in it is 0 for good. */
  private strike(j: number): void {
    const { stride, table, price, column } = this;
    const last = this.n - 1;
    for (let i = 0; i < this.basic.length; i++) {
      const at = i * stride;
      table[at + j] = table[at + last]!;
      table[at + last] = table[at + last + 1]!;
    }
    column[j] = column[last]!;
    price[j] = price[last]!;
    price[last] = price[last + 1]!;
    this.n = last;
  }

  private placeOf(name: number): number {
    for (let j = 0; j < this.n; j++) if (this.column[j] === name) return j;
    return -1;
  }

  /** Fixes a move at 0 (out). */
  forbid(a: number): void {
    const j = this.placeOf(a);
    if (j !== -1) this.strike(j);
    else this.pinned(a, -1, 0);
  }

  /** Fixes a move at 1 (in). */
  demand(a: number): void {
    this.pinned(a, 1, -1);
  }

  private pinned(a: number, sign: number, constant: number): void {
    // A move already out stands nowhere.
    if (this.placeOf(a) === -1 && !this.basic.includes(a)) return;
    const name = PIN - a;
    this.add(name, [a], sign, constant);
    if (!this.solve()) return;
    // The pin stands in a column now, which is fixed at 0, or stays a row that other moves keep.
    const j = this.placeOf(name);
    if (j !== -1) this.strike(j);
  }

  /** Dual simplex to the end; false when the landmarks cannot all be met, or rounding has got the better of it. */
  solve(): boolean {
    const { stride, basic, price } = this;
    for (let pivots = 0; ; pivots++) {
      const { n, table } = this;
      // The row whose constant is farthest below nought for the length of its entries leaves (steepest edge).
      let leaves = -1;
      let worst = 0;
      for (let i = 0; i < basic.length; i++) {
        const at = i * stride;
        const value = table[at + n]!;
        if (value >= -TINY) continue;
        let norm = 1;
        for (let j = at; j < at + n; j++) norm += table[j]! * table[j]!;
        this.work += n;
        const gain = (value * value) / norm;
        if (gain <= worst) continue;
        worst = gain;
        leaves = i;
      }
      if (leaves === -1) return true;
      if (pivots > 20 * (n + basic.length)) return false;
      const at = leaves * stride;
      let enters = -1;
      let ratio = Number.POSITIVE_INFINITY;
      for (let j = 0; j < n; j++) {
        const entry = table[at + j]!;
        if (entry <= TINY) continue;
        const r = price[j]! / entry;
        if (r < ratio - TINY || (r <= ratio + TINY && entry > table[at + enters]!)) {
          ratio = r;
          enters = j;
        }
      }
      if (enters === -1) return false;
      this.pivots += 1;
      this.pivot(leaves, enters);
    }
  }

  private pivot(i: number, j: number): void {
    const { n, table, stride, basic, price } = this;
    const at = i * stride;
    const by = table[at + j]!;
    for (let k = at; k <= at + n; k++) {
      const value = -table[k]! / by;
      table[k] = value < 1e-12 && value > -1e-12 ? 0 : value;
    }
    table[at + j] = 1 / by;
    const { line } = this;
    line.set(table.subarray(at, at + n + 1));
    for (let r = 0; r < basic.length; r++) {
      if (r === i) continue;
      const from = r * stride;
      const times = table[from + j]!;
      if (times === 0) continue;
      table[from + j] = 0;
      addTimes(table, from, line, n + 1, times);
      this.work += n;
    }
    const times = price[j]!;
    price[j] = 0;
    addTimes(price, 0, line, n + 1, times);
    this.work += n + basic.length;
    const name = basic[i]!;
    basic[i] = this.column[j]!;
    this.column[j] = name;
  }

  /** Drops the rows of landmarks that are met with room to spare. */
  forgetSlack(): void {
    const { n, stride, table, basic } = this;
    let kept = 0;
    for (let i = 0; i < basic.length; i++) {
      const name = basic[i]!;
      if (name < 0 && name > PIN && table[i * stride + n]! > 1e-7) continue;
      if (kept !== i) table.copyWithin(kept * stride, i * stride, i * stride + n + 1);
      basic[kept++] = name;
    }
    basic.length = kept;
  }

  /** Value of each move, 0 where it stands in a column. */
  values(x: Float64Array): void {
    x.fill(0);
    this.basic.forEach((name, i) => {
      if (name >= 0) x[name] = Math.max(0, this.table[i * this.stride + this.n]!);
    });
  }

  /** Landmarks with a price, and the price. */
  prices(each: (landmark: number, price: number) => void): void {
    for (let j = 0; j < this.n; j++) {
      const name = this.column[j]!;
      if (name < 0 && name > PIN && this.price[j]! > 0) each(~name, this.price[j]!);
    }
  }

  /** Whether a landmark has a row or column here. */
  has(k: number): boolean {
    return this.placeOf(~k) !== -1 || this.basic.includes(~k);
  }

  /** Rows at present. */
  get height(): number {
    return this.basic.length;
  }
}
