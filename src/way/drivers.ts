/** What drives the finish: how much of its spread each step adds by its own time. */
import { BLOCK, type Drawing } from './draw-times.ts';

/** What holds up the end. */
export interface Driver {
  /** Index of the task. */
  readonly task: number;
  /** Share of the end's variance that goes with what this task itself adds, 0–1. The pace of the day is nobody's. */
  readonly share: number;
}

/** A variance below this is none, min². */
const NOTHING = 1e-9;
/**
 * Sums kept of a task: of its times, of their squares, of their products with the ends. Of the ends and of two tasks one cause
 * can seize the same are kept, though some are not asked for: a loop of their own costs a first clock more to compile.
 */
const SUMS = 3;

/**
 * Sums over runs, a block at a time while its times are at hand, from which the drivers are told at the last. Everything is
 * counted from the first run's times and end: sums of what is far from nought lose their last digits.
 */
export class DriverSums {
  private readonly drawing: Drawing;
  /** Time of each task in the first run, and the end, min. */
  private readonly middle: Float64Array;
  private readonly sums: Float64Array;
  /** The same sums of the ends. */
  private readonly endSums = new Float64Array(SUMS);
  /** Of each group of tasks one cause can seize: the sums of each two, the products at their third place. */
  private readonly products: readonly Float64Array[];
  private runs = 0;

  constructor(drawing: Drawing) {
    this.drawing = drawing;
    this.middle = new Float64Array(drawing.tasks + 1);
    this.sums = new Float64Array(SUMS * drawing.tasks);
    this.products = drawing.together.map(
      ({ length }) => new Float64Array((SUMS * length * (length - 1)) / 2),
    );
  }

  /** Adds a block: its times as drawn, from 0 on, and its ends from `endAt` on. */
  add(own: Float64Array, ends: Float64Array, endAt: number, many: number): void {
    const { middle, sums } = this;
    const { vague, together, tasks } = this.drawing;
    if (this.runs === 0) {
      for (const task of vague) middle[task] = own[task * BLOCK]!;
      middle[tasks] = ends[endAt]!;
    }
    this.runs += many;
    const end = middle[tasks]!;
    addTimes(this.endSums, 0, ends, endAt, end, ends, endAt, end, many);
    for (let v = 0; v < vague.length; v++) {
      const task = vague[v]!;
      addTimes(sums, SUMS * task, own, task * BLOCK, middle[task]!, ends, endAt, end, many);
    }
    for (let g = 0; g < together.length; g++) this.addProducts(together[g]!, this.products[g]!, own, many);
  }

  private addProducts(group: readonly number[], into: Float64Array, own: Float64Array, many: number): void {
    const { middle } = this;
    let pair = 0;
    for (let i = 1; i < group.length; i++) {
      const [a, aMiddle] = [group[i]! * BLOCK, middle[group[i]!]!];
      for (let j = 0; j < i; j++)
        addTimes(into, SUMS * pair++, own, a, aMiddle, own, group[j]! * BLOCK, middle[group[j]!]!, many);
    }
  }

  /**
   * The drivers, the weightiest first. Steps are drawn apart from each other, so a squared correlation of a step's own
   * time with the end is its share; only steps that one cause seizes go together, and there a regression tells them
   * apart: a screw off the path to the end is no driver because its neighbour is one.
   */
  drivers(): Driver[] {
    const { sums, endSums, runs } = this;
    const { vague, together } = this.drawing;
    const covariance = (product: number, a: number, b: number) => (product - (a * b) / runs) / runs;
    const sumOf = (i: number) => sums[SUMS * i]!;
    const varies = (i: number) => covariance(sums[SUMS * i + 1]!, sumOf(i), sumOf(i));
    const endVariance = covariance(endSums[1]!, endSums[0]!, endSums[0]!);
    if (endVariance <= NOTHING) return [];
    const grouped = new Set(together.flat());
    const groups = [...together, ...vague.flatMap((i) => (grouped.has(i) ? [] : [[i]]))];
    const drivers = groups.flatMap((all, g) => {
      const group = all.flatMap((i, place) => (varies(i) > NOTHING ? [place] : []));
      const rows: number[][] = [];
      group.forEach((place, row) => {
        const i = all[place]!;
        const before = group
          .slice(0, row)
          .map((other) =>
            covariance(
              this.products[g]![SUMS * ((place * (place - 1)) / 2 + other) + 2]!,
              sumOf(i),
              sumOf(all[other]!),
            ),
          );
        before.forEach((value, column) => {
          rows[column]![row] = value;
        });
        rows.push([...before, varies(i)]);
      });
      group.forEach((place, row) => {
        const i = all[place]!;
        rows[row]!.push(covariance(sums[SUMS * i + 2]!, sumOf(i), endSums[0]!));
      });
      return solved(rows).map((weight, k) => {
        const task = all[group[k]!]!;
        return { task, share: Math.min(1, (weight ** 2 * varies(task)) / endVariance) };
      });
    });
    return drivers.sort((a, b) => b.share - a.share || a.task - b.task);
  }
}

function addTimes(
  sums: Float64Array,
  of: number,
  own: Float64Array,
  at: number,
  middle: number,
  ends: Float64Array,
  endAt: number,
  endMiddle: number,
  many: number,
): void {
  let [sum, squares, products] = [0, 0, 0];
  for (let n = 0; n < many; n++) {
    const by = own[at + n]! - middle;
    sum += by;
    squares += by * by;
    products += by * (ends[endAt + n]! - endMiddle);
  }
  sums[of]! += sum;
  sums[of + 1]! += squares;
  sums[of + 2]! += products;
}

/** Solves a positive definite system, the right side as the last column, by elimination; what is not determined is 0. */
function solved(rows: number[][]): number[] {
  const n = rows.length;
  const scale = rows.map((row, i) => row[i]!);
  for (let i = 0; i < n; i++) {
    for (let k = i + 1; k < n; k++) {
      if (rows[i]![i]! <= 1e-9 * scale[i]!) continue;
      const by = rows[k]![i]! / rows[i]![i]!;
      for (let j = i; j <= n; j++) rows[k]![j]! -= by * rows[i]![j]!;
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    if (rows[i]![i]! <= 1e-9 * scale[i]!) continue;
    let sum = rows[i]![n]!;
    for (let j = i + 1; j < n; j++) sum -= rows[i]![j]! * x[j]!;
    x[i] = sum / rows[i]![i]!;
  }
  return x;
}
