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

export class LandmarkRows {
  readonly all: Landmark[] = [];
  /** For each column the landmarks that have it, whether it is one of the moves or the one that asks. */
  readonly of: number[][];

  constructor(columns: number) {
    this.of = Array.from({ length: columns }, () => []);
  }

  /** Adds a landmark: its number. */
  push(landmark: Landmark): number {
    const k = this.all.push(landmark) - 1;
    for (const j of landmark.moves) this.of[j]!.push(k);
    if (landmark.asking !== -1) this.of[landmark.asking]!.push(k);
    return k;
  }
}
