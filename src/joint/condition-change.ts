/**
 * What becomes of a book's torque when the threads are not in the condition the book means: oil on threads that were to
 * be dry stretches the screw further at the same reading.
 */
import type { Friction } from './friction.ts';
import type { Interval } from './require.ts';

export interface ConditionChange {
  /** Preload over the preload the book meant, at the middle of both nut factors, dimensionless. */
  readonly usual: number;
  /** The same over the whole of both intervals, dimensionless. */
  readonly range: Interval;
}

/** Middle of a nut factor's interval, dimensionless: the geometric one, as K multiplies. */
export function middleNutFactor(friction: Friction): number {
  return Math.sqrt(friction.k.low * friction.k.high);
}

/** Preload at the book's torque in the real condition, over what the book meant: F ∝ 1/K. */
export function conditionChange(book: Friction, real: Friction): ConditionChange {
  return {
    usual: middleNutFactor(book) / middleNutFactor(real),
    range: { low: book.k.low / real.k.high, high: book.k.high / real.k.low },
  };
}
