/** Whether something may be done yet, when its hour is only known as an interval. */
import type { Interval } from './require.ts';

export type May = 'yes' | 'perhaps' | 'no';

/** 'no' before the interval, 'perhaps' in it, 'yes' from its end on. */
export function mayFrom(interval: Interval, elapsed: number): May {
  if (elapsed < interval.low) return 'no';
  return elapsed < interval.high ? 'perhaps' : 'yes';
}
