/**
 * The inverse of the square part of a fractional problem: its tight rows by its moves between their limits. Every step of
 * the dual simplex changes it by a product of a column and a row, and by one row or column more, less or changed. Nine tenths
 * of row and column are not nought, so lists of what is not would gain nothing; eight entries at a time, or two or four rows at
 * once, take a tenth off the product at most, which is a fiftieth of the whole.
 */

/** Less than this is rounding. */
const NOUGHT = 1e-13;

/** to[from …] += times × row[first …], `count` entries. Four at a time: a fifth less time than one (node 20). */
function addTimes(
  to: Float64Array,
  from: number,
  row: Float64Array,
  first: number,
  count: number,
  times: number,
): void {
  const end = first + count;
  const even = first + (count & ~3);
  let k = first;
  let at = from;
  for (; k < even; k += 4, at += 4) {
    to[at]! += times * row[k]!;
    to[at + 1]! += times * row[k + 1]!;
    to[at + 2]! += times * row[k + 2]!;
    to[at + 3]! += times * row[k + 3]!;
  }
  for (; k < end; k++, at++) to[at]! += times * row[k]!;
}

/** Sum of the squares of `count` entries from `first` on, dimensionless, in four sums that do not wait for each other. */
export function squares(row: Float64Array, first: number, count: number): number {
  const end = first + count;
  const even = first + (count & ~3);
  let a = 0;
  let b = 0;
  let c = 0;
  let d = 0;
  let k = first;
  for (; k < even; k += 4) {
    a += row[k]! * row[k]!;
    b += row[k + 1]! * row[k + 1]!;
    c += row[k + 2]! * row[k + 2]!;
    d += row[k + 3]! * row[k + 3]!;
  }
  for (; k < end; k++) a += row[k]! * row[k]!;
  return a + b + (c + d);
}

export class Inverse {
  /** Rows and columns. */
  size = 0;
  private stride: number;
  private entries: Float64Array;
  /** Entries worked on: effort. */
  work = 0;

  constructor(other?: Inverse) {
    this.stride = other ? other.size + 16 : 64;
    this.entries = new Float64Array(this.stride * this.stride);
    if (other) {
      this.size = other.size;
      for (let i = 0; i < this.size; i++)
        this.entries.set(
          other.entries.subarray(i * other.stride, i * other.stride + this.size),
          i * this.stride,
        );
    }
  }

  private room(): void {
    if (this.size < this.stride) return;
    const stride = 2 * this.stride;
    const entries = new Float64Array(stride * stride);
    for (let i = 0; i < this.size; i++)
      entries.set(this.entries.subarray(i * this.stride, i * this.stride + this.size), i * stride);
    this.entries = entries;
    this.stride = stride;
  }

  /** to += times × row i. */
  addRow(to: Float64Array, i: number, times: number): void {
    addTimes(to, 0, this.entries, i * this.stride, this.size, times);
    this.work += this.size;
  }

  /** to += times × column c. */
  addColumn(to: Float64Array, c: number, times: number): void {
    const { entries, size, stride } = this;
    for (let i = 0, at = c; i < size; i++, at += stride) to[i]! += times * entries[at]!;
    this.work += size;
  }

  /** Sum of the squares of row i. */
  lengthOf(i: number): number {
    this.work += this.size;
    return squares(this.entries, i * this.stride, this.size);
  }

  /** Each entry less column × row ÷ by. */
  private lessProduct(column: Float64Array, row: Float64Array, by: number): void {
    const { entries, size, stride } = this;
    for (let c = 0; c < size; c++) if (row[c]! < NOUGHT && row[c]! > -NOUGHT) row[c] = 0;
    for (let i = 0; i < size; i++) {
      const times = column[i]!;
      if (times < NOUGHT && times > -NOUGHT) continue;
      addTimes(entries, i * stride, row, 0, size, -times / by);
      this.work += size;
    }
  }

  /** One row and column more. `column`: what one more of the new move changes the others by; `row`: of the new row. */
  grow(column: Float64Array, row: Float64Array, by: number): void {
    this.room();
    this.lessProduct(column, row, by);
    const { entries, stride, size } = this;
    for (let i = 0; i < size; i++) entries[i * stride + size] = column[i]! / by;
    for (let c = 0; c < size; c++) entries[size * stride + c] = -row[c]! / by;
    entries[size * stride + size] = 1 / by;
    this.size += 1;
  }

  /** Another row of the problem in the place of row c. */
  changeRow(c: number, column: Float64Array, row: Float64Array, by: number): void {
    this.lessProduct(column, row, by);
    const { entries, stride, size } = this;
    for (let i = 0; i < size; i++) entries[i * stride + c] = column[i]! / by;
  }

  /** Another move in the place of move i. */
  changeMove(i: number, column: Float64Array, row: Float64Array, by: number): void {
    this.lessProduct(column, row, by);
    const { entries, stride, size } = this;
    for (let c = 0; c < size; c++) entries[i * stride + c] = -row[c]! / by;
  }

  /** Move i and row c less; the last of each takes its place. */
  shrink(i: number, c: number, column: Float64Array, row: Float64Array, by: number): void {
    this.lessProduct(column, row, by);
    const { entries, stride } = this;
    const last = this.size - 1;
    if (i !== last) entries.copyWithin(i * stride, last * stride, last * stride + last + 1);
    for (let k = 0, at = c; k < last; k++, at += stride) entries[at] = entries[k * stride + last]!;
    this.size = last;
  }

  /** Works the inverse out anew from the square part, `square` row by row; false where it has none. */
  remake(square: Float64Array): boolean {
    const { size, stride, entries } = this;
    for (let i = 0; i < size; i++) {
      entries.fill(0, i * stride, i * stride + size);
      entries[i * stride + i] = 1;
    }
    const line = new Float64Array(size);
    const own = new Float64Array(size);
    const swap = (list: Float64Array, width: number, p: number, q: number) => {
      const kept = list.slice(p * width, p * width + size);
      list.copyWithin(p * width, q * width, q * width + size);
      list.set(kept, q * width);
    };
    for (let c = 0; c < size; c++) {
      let p = c;
      for (let i = c + 1; i < size; i++)
        if (Math.abs(square[i * size + c]!) > Math.abs(square[p * size + c]!)) p = i;
      if (Math.abs(square[p * size + c]!) < 1e-9) return false;
      if (p !== c) {
        swap(square, size, p, c);
        swap(entries, stride, p, c);
      }
      const by = square[c * size + c]!;
      for (let k = 0; k < size; k++) {
        square[c * size + k]! /= by;
        entries[c * stride + k]! /= by;
      }
      line.set(square.subarray(c * size, c * size + size));
      own.set(entries.subarray(c * stride, c * stride + size));
      for (let i = 0; i < size; i++) {
        const times = square[i * size + c]!;
        if (i === c || times === 0) continue;
        addTimes(square, i * size, line, 0, size, -times);
        addTimes(entries, i * stride, own, 0, size, -times);
        this.work += 2 * size;
      }
    }
    return true;
  }
}
