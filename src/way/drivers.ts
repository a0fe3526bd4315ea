/** What drives the finish: how much of its spread each step adds by its own time. */
import type { DrawnTimes } from './draw-times.ts';

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
 * The drivers, the weightiest first. Steps are drawn apart from each other, so a squared correlation of a step's own
 * time with the end is its share; only steps that one cause seizes go together, and there a regression tells them apart:
 * a screw off the path to the end is no driver because its neighbour is one.
 */
export function driversOf({ own, together }: DrawnTimes, ends: Float64Array): Driver[] {
  const mean = own.map(meanOf);
  const varies = own.map((times, i) => covariance(times, mean[i]!, times, mean[i]!));
  const endMean = meanOf(ends);
  const endVariance = covariance(ends, endMean, ends, endMean);
  if (endVariance <= NOTHING) return [];
  const grouped = new Set(together.flat());
  const groups = [...own.flatMap((_, i) => (grouped.has(i) ? [] : [[i]])), ...together];
  const drivers = groups.flatMap((all) => {
    const group = all.filter((i) => varies[i]! > NOTHING);
    const rows: number[][] = [];
    group.forEach((i, row) => {
      const before = group.slice(0, row).map((j) => covariance(own[i]!, mean[i]!, own[j]!, mean[j]!));
      before.forEach((value, column) => {
        rows[column]![row] = value;
      });
      rows.push([...before, varies[i]!]);
    });
    group.forEach((i, row) => {
      rows[row]!.push(covariance(own[i]!, mean[i]!, ends, endMean));
    });
    return solved(rows).map((weight, k) => {
      const task = group[k]!;
      return { task, share: Math.min(1, (weight ** 2 * varies[task]!) / endVariance) };
    });
  });
  return drivers.sort((a, b) => b.share - a.share || a.task - b.task);
}

/** Mean of a list, in its unit. */
function meanOf(values: Float64Array): number {
  let [one, other] = [0, 0];
  // Two sums side by side: one addition need not wait for the one before.
  for (let i = 1; i < values.length; i += 2) {
    one += values[i - 1]!;
    other += values[i]!;
  }
  return (one + other + (values.length % 2 ? values.at(-1)! : 0)) / values.length;
}

/** Covariance of two lists whose means are known, in the product of their units. */
function covariance(a: Float64Array, aMean: number, b: Float64Array, bMean: number): number {
  let [one, other] = [0, 0];
  for (let i = 1; i < a.length; i += 2) {
    one += (a[i - 1]! - aMean) * (b[i - 1]! - bMean);
    other += (a[i]! - aMean) * (b[i]! - bMean);
  }
  if (a.length % 2) one += (a.at(-1)! - aMean) * (b.at(-1)! - bMean);
  return (one + other) / a.length;
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
