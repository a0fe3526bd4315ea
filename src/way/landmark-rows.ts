/**
 * Landmarks found so far, shared by the fractional problems of all nodes: of the moves of each every way has one, or,
 * where a move asks for it, as much as of that move. By row and by column.
 */

/** A landmark in columns (moves that cost). */
export interface Landmark {
  readonly moves: Int32Array;
  /** The column that asks for it; −1 for one that every way has. */
  readonly asking: number;
}

/** The list with room at this place. */
export function longer<T extends Float64Array | Int32Array>(list: T, at: number): T {
  if (at < list.length) return list;
  const more = new (list.constructor as new (size: number) => T)(2 * at + 16);
  more.set(list as never);
  return more;
}

export class LandmarkRows {
  readonly all: Landmark[] = [];
  /** All their columns one after the other, for the loops that go through many: those of the k-th begin at `begins[k]`. */
  columns = new Int32Array(1024);
  begins = new Int32Array(128);
  asking = new Int32Array(128);
  /** For each column the landmarks that have it, whether it is one of the moves or the one that asks. */
  readonly of: number[][];

  constructor(columns: number) {
    this.of = Array.from({ length: columns }, () => []);
  }

  /** Adds a landmark: its number. */
  push(landmark: Landmark): number {
    const k = this.all.push(landmark) - 1;
    const from = this.begins[k]!;
    const to = from + landmark.moves.length;
    this.columns = longer(this.columns, to);
    this.columns.set(landmark.moves, from);
    this.begins = longer(this.begins, k + 1);
    this.begins[k + 1] = to;
    this.asking = longer(this.asking, k);
    this.asking[k] = landmark.asking;
    for (const j of landmark.moves) this.of[j]!.push(k);
    if (landmark.asking !== -1) this.of[landmark.asking]!.push(k);
    return k;
  }
}
