/**
 * The torque it will take to undo a screw or nut. Of a fitted torque a part stretches the screw and helps it off again;
 * friction in thread and under the head remains. A locker adds the shear of its film, age and corrosion add more.
 * Published breakaway figures of lockers (ISO 10964) are for unseated fasteners, so they are not used here. An estimate
 * throughout, and an interval for that reason. Torques in N·m, lengths in m, shear strengths in Pa.
 */
import { plusInterval, type Sourced, timesInterval } from './estimate.ts';
import type { LockerStrength } from './locker.ts';
import { requireMeasure, requireMeasures } from './measure.ts';
import { type Interval, requireWithin } from './require.ts';

/** Undoing torque over fitted torque without locker: 0.7 for M8 at a friction of 0.12 (VDI 2230 style), wider for others. */
export const UNDO_SHARE: Interval = { low: 0.55, high: 0.85 };
/** Planned torque over fitted torque, dimensionless: this project's rule. */
export const PLAN_FACTOR = 1.5;

/** Shear strength of a cured film, Pa: from memory. */
export const LOCKER_SHEAR: Readonly<Record<LockerStrength, Interval>> = {
  low: { low: 2e6, high: 6e6 },
  medium: { low: 5e6, high: 12e6 },
  high: { low: 12e6, high: 25e6 },
};
/** Share of the engaged thread that a film covers: from memory. */
export const LOCKER_COVER: Interval = { low: 0.3, high: 0.8 };
/** What a locker adds where thread and engagement are not known, as a share of the fitted torque: from memory. */
export const LOCKER_SHARE: Readonly<Record<LockerStrength, Interval>> = {
  low: { low: 0, high: 0.2 },
  medium: { low: 0.1, high: 0.5 },
  high: { low: 0.3, high: 1 },
};
/** What is left of a locker at its undoing heat: from memory. */
export const LOCKER_HEATED: Interval = { low: 0.1, high: 0.3 };

export const UNDO_SOURCES = {
  friction: {
    source: 'VDI 2230 style sum: loosening takes about 70 % of tightening at a friction of 0.12, no locker',
    fromMemory: true,
  },
  locker: { source: 'shear of the film over the engaged thread', fromMemory: true },
  age: {
    source: 'a clean joint gains up to 3 % a year to half as much again, a corroded one up to double',
    fromMemory: true,
  },
} as const satisfies Record<string, Sourced>;

export interface UndoCase {
  /** Torque it was fitted with, N·m. */
  readonly fitted: Interval;
  /** null: none. */
  readonly locker: LockerStrength | null;
  /** Nominal diameter, m; with `engagement` the film is worked out, else taken as a share of the fitted torque. */
  readonly diameter?: number;
  /** Engaged length of thread, m. */
  readonly engagement?: number;
  /** Years since it was fitted, from 0 to 100; 0 when not given. */
  readonly age?: number;
  readonly corroded?: boolean;
  /** At the undoing heat of the locker (high strength: about 230–315 °C). */
  readonly heated?: boolean;
}

export interface UndoTorque {
  /** N·m. */
  readonly torque: Interval;
  /** What the locker adds to it, N·m. */
  readonly locker: Interval;
  /** What to be ready for, N·m: 1.5 times the fitted torque. The high end of `torque` may lie above it. */
  readonly plan: number;
  readonly sources: readonly Sourced[];
}

/**
 * What a locker's film adds, N·m: τ·(πd·Le)·(d/2) over the part it covers. Throws RangeError for a diameter or
 * engagement not above 0.
 */
export function lockerHold(strength: LockerStrength, diameter: number, engagement: number): Interval {
  requireMeasure('diameter', diameter);
  requireMeasure('engagement', engagement);
  const lever = (Math.PI * diameter ** 2 * engagement) / 2;
  return timesInterval(timesInterval(LOCKER_SHEAR[strength], LOCKER_COVER), { low: lever, high: lever });
}

function lockerPart({ fitted, locker, diameter, engagement, heated = false }: UndoCase): Interval {
  if (!locker) return { low: 0, high: 0 };
  const cold =
    diameter !== undefined && engagement !== undefined
      ? lockerHold(locker, diameter, engagement)
      : timesInterval(fitted, LOCKER_SHARE[locker]);
  return heated ? timesInterval(cold, LOCKER_HEATED) : cold;
}

/**
 * Torque to undo. Throws RangeError for a fitted torque not above 0, an age outside 0–100, one of diameter and
 * engagement without the other.
 */
export function undoTorque(task: UndoCase): UndoTorque {
  const { fitted, age = 0, corroded = false } = task;
  requireMeasures('fitted', fitted);
  requireWithin('age', age, 0, 100);
  if ((task.diameter === undefined) !== (task.engagement === undefined))
    throw new RangeError(
      `diameter and engagement must be given together, got ${task.diameter} and ${task.engagement}`,
    );
  const aged = { low: 1, high: corroded ? 2 : Math.min(1.5, 1 + 0.03 * age) };
  const locker = lockerPart(task);
  const torque = plusInterval(timesInterval(timesInterval(fitted, UNDO_SHARE), aged), locker);
  return {
    torque,
    locker,
    plan: PLAN_FACTOR * fitted.high,
    sources: [
      UNDO_SOURCES.friction,
      ...(task.locker ? [UNDO_SOURCES.locker] : []),
      ...(age > 0 || corroded ? [UNDO_SOURCES.age] : []),
    ],
  };
}
