/**
 * The loops in which a course is run: each over one row, the runs of one block. Rows of starts, ends and units of
 * resources are in one list of cells, each told by where it begins.
 */

/** Shut hours in flat lists that a night which never comes ends. */
export interface Nights {
  readonly from: Float64Array;
  readonly to: Float64Array;
}

/** No start before what it waits for, with the gap, min. */
export function waitFor(cells: Float64Array, at: number, from: number, gap: number, many: number): void {
  for (let n = 0; n < many; n++) {
    const ready = cells[from + n]! + gap;
    if (ready > cells[at + n]!) cells[at + n] = ready;
  }
}

/** Moves starts to where what must fit does so before the next shut hours; what lasts into them is finished after them. */
export function finishInHours(
  cells: Float64Array,
  at: number,
  done: number,
  own: Float64Array,
  row: number,
  slowness: Float64Array,
  slowAt: number,
  fit: number,
  { from, to }: Nights,
  many: number,
): void {
  // Starts go up and down by a little only: most fall between the same two nights.
  let night = 0;
  let [dawn, dusk] = [Number.NEGATIVE_INFINITY, fit < 0 ? Number.POSITIVE_INFINITY : from[0]!];
  for (let n = 0; n < many; n++) {
    let begun = cells[at + n]!;
    if (begun < dawn || begun + fit > dusk) {
      while (night > 0 && to[night - 1]! > begun) night--;
      while (to[night]! <= begun) night++;
      while (from[night]! < begun + fit) begun = to[night++]!;
      cells[at + n] = begun;
      dawn = night > 0 ? to[night - 1]! : Number.NEGATIVE_INFINITY;
      dusk = from[night]!;
    }
    let over = begun + own[row + n]! * slowness[slowAt + n]!;
    if (over > dusk) for (let late = night; from[late]! < over; late++) over += to[late]! - from[late]!;
    cells[done + n] = over;
  }
}

/** Holds all units of a resource until the ends. */
export function holdAll(
  cells: Float64Array,
  units: number,
  many: number,
  takes: number,
  done: number,
  row: number,
): void {
  for (let u = 0; u < takes; u++) cells.copyWithin(units + u * row, done, done + many);
}

/** Takes one unit of two until the ends, as in most steps: the loops of `hold` in short. */
export function holdOneOfTwo(
  cells: Float64Array,
  one: number,
  other: number,
  done: number,
  many: number,
): void {
  for (let n = 0; n < many; n++) {
    const over = cells[done + n]!;
    const next = cells[other + n]!;
    cells[one + n] = Math.min(next, over);
    cells[other + n] = Math.max(next, over);
  }
}

/** Takes units of one resource until the ends: the earliest free, of the others alone where one of them goes. */
export function hold(
  cells: Float64Array,
  units: number,
  there: number,
  takes: number,
  alone: Uint8Array | null,
  done: number,
  many: number,
  row: number,
): void {
  for (let n = 0; n < many; n++) {
    const over = cells[done + n]!;
    const end = units + there * row + n;
    const first = units + (alone === null ? 0 : alone[n]!) * row + n;
    // Those held are the earliest; they go behind all that are free before this is done.
    let place = first;
    for (let rest = first + takes * row; rest < end && cells[rest]! < over; rest += row) {
      cells[place] = cells[rest]!;
      place += row;
    }
    for (const until = place + takes * row; place < until; place += row) cells[place] = over;
  }
}

/** Runs in which a start comes after the window that another step opens, count. */
export function late(cells: Float64Array, at: number, from: number, room: number, many: number): number {
  let count = 0;
  for (let n = 0; n < many; n++) if (cells[at + n]! > cells[from + n]! + room) count++;
  return count;
}
