/** Figures that are estimates: where they come from, and sums of intervals. */
import type { Interval } from './require.ts';

/** Where a figure comes from, shown beside it. */
export interface Sourced {
  readonly source: string;
  /** Written down from memory: an estimate, and no test leans on it alone. */
  readonly fromMemory: boolean;
}

/** Product of two intervals whose ends are all from 0. */
export function timesInterval(a: Interval, b: Interval): Interval {
  return { low: a.low * b.low, high: a.high * b.high };
}

export function plusInterval(a: Interval, b: Interval): Interval {
  return { low: a.low + b.low, high: a.high + b.high };
}
