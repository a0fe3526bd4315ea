/**
 * Preload from torque and torque from preload, by the short formula T = K·d·F and by the long one, always as intervals.
 * Drag is the torque that turns the fastener before it clamps anything (a lock nut, locker already curing): it comes
 * off the reading, and on top of a target (FAA AC 43.13-1B §7-40).
 */
import { headRadius, type Seat, torqueArm } from './friction.ts';
import type { Strength } from './grade.ts';
import {
  type Interval,
  requireInterval,
  requirePositive,
  requirePositiveInterval,
  requireWithin,
} from './require.ts';
import { pitchDiameter, rootDiameter, stressArea, type Thread } from './thread.ts';

/** Usual error of a torque wrench, share of the reading, dimensionless: ISO 6789 above 10 N·m (from memory). */
export const WRENCH_ERROR = 0.04;

export interface Tightening {
  /** Torque as read on the wrench, N·m. */
  readonly torque: Interval;
  /** Error of the wrench either way, share of the reading, 0–0.5; 0.04 when not given. */
  readonly wrenchError?: number;
  /** Drag torque, N·m; none when not given. */
  readonly drag?: Interval;
}

const NONE: Interval = { low: 0, high: 0 };

/** Torque that clamps: the reading with the wrench's error, less the drag, N·m; never below 0. */
export function clampingTorque(tightening: Tightening): Interval {
  const { torque, wrenchError = WRENCH_ERROR, drag = NONE } = tightening;
  requireInterval('torque', torque);
  requireWithin('wrenchError', wrenchError, 0, 0.5);
  requireInterval('drag', drag);
  return {
    low: Math.max(0, torque.low * (1 - wrenchError) - drag.high),
    high: Math.max(0, torque.high * (1 + wrenchError) - drag.low),
  };
}

/** Preload from torque by the short formula F = T/(K·d), N. */
export function preloadFromTorque(tightening: Tightening, thread: Thread, k: Interval): Interval {
  requirePositiveInterval('k', k);
  const { low, high } = clampingTorque(tightening);
  return { low: low / (k.high * thread.diameter), high: high / (k.low * thread.diameter) };
}

/** Preload from torque by the long formula, thread and head friction apart, N (VDI 2230 style). */
export function preloadByParts(
  tightening: Tightening,
  thread: Thread,
  seat: Seat,
  friction: { readonly thread: Interval; readonly head: Interval },
): Interval {
  requirePositiveInterval('friction.thread', friction.thread);
  requirePositiveInterval('friction.head', friction.head);
  const { low, high } = clampingTorque(tightening);
  const arm = (end: 'low' | 'high') => {
    const parts = torqueArm(thread, seat, friction.thread[end], friction.head[end]);
    return parts.stretch + parts.thread + parts.head;
  };
  return { low: low / arm('high'), high: high / arm('low') };
}

/**
 * Torque on the wrench for a wanted preload (N), N·m: what it may take over the whole range of K, with the drag on
 * top. The wrench's own error is not in it.
 */
export function torqueForPreload(
  preload: number,
  thread: Thread,
  k: Interval,
  drag: Interval = NONE,
): Interval {
  requirePositive('preload', preload);
  requirePositiveInterval('k', k);
  requireInterval('drag', drag);
  return {
    low: preload * k.low * thread.diameter + drag.low,
    high: preload * k.high * thread.diameter + drag.high,
  };
}

/** Preload at a share (0–1.5) of the proof strength, N. */
export function preloadAtShare(share: number, thread: Thread, strength: Strength): number {
  requireWithin('share', share, 0, 1.5);
  return share * strength.proof * stressArea(thread);
}

/** Torque on the wrench for a share of the proof strength over the whole range of K, N·m; with the drag on top. */
export function torqueForShare(
  share: number,
  thread: Thread,
  strength: Strength,
  k: Interval,
  drag: Interval = NONE,
): Interval {
  return torqueForPreload(preloadAtShare(share, thread, strength), thread, k, drag);
}

/** Share of the proof strength that a preload (N) takes up, dimensionless: 1 is all of it. */
export function shareOfProof(preload: Interval, thread: Thread, strength: Strength): Interval {
  requireInterval('preload', preload);
  const proof = strength.proof * stressArea(thread);
  return { low: preload.low / proof, high: preload.high / proof };
}

/** Where the torque goes: shares of the whole that stretch the bolt, rub in the thread and rub under the head, 1 in all. */
export function torqueSplit(
  thread: Thread,
  seat: Seat,
  muThread: number,
  muHead: number,
): { readonly stretch: number; readonly thread: number; readonly head: number } {
  const { stretch, thread: threads, head } = torqueArm(thread, seat, muThread, muHead);
  const whole = stretch + threads + head;
  return { stretch: stretch / whole, thread: threads / whole, head: head / whole };
}

/**
 * Torque to undo over torque to do up at the same preload and friction, dimensionless: the stretch now helps.
 * Without locker and before rust; below 0 the screw would undo itself. VDI 2230 style.
 */
export function looseningShare(thread: Thread, seat: Seat, muThread: number, muHead: number): number {
  const { stretch, thread: threads, head } = torqueArm(thread, seat, muThread, muHead);
  return (threads + head - stretch) / (stretch + threads + head);
}

/** Torque to undo a screw that holds a preload (N), N·m, over the friction intervals; no locker, no rust. Never below 0. */
export function looseningTorque(
  preload: Interval,
  thread: Thread,
  seat: Seat,
  friction: { readonly thread: Interval; readonly head: Interval },
): Interval {
  requireInterval('preload', preload);
  const arm = (end: 'low' | 'high') => {
    const parts = torqueArm(thread, seat, friction.thread[end], friction.head[end]);
    return Math.max(0, parts.thread + parts.head - parts.stretch);
  };
  return { low: preload.low * arm('low'), high: preload.high * arm('high') };
}

/** Section that carries tension and torsion together: d0 = (d2 + d3)/2. */
function section(thread: Thread): { readonly diameter: number; readonly area: number } {
  const diameter = (pitchDiameter(thread) + rootDiameter(thread)) / 2;
  return { diameter, area: (Math.PI / 4) * diameter ** 2 };
}

/** Equivalent (von Mises) stress over tensile stress while the wrench turns, dimensionless, 1 or more. VDI 2230 style. */
export function twistFactor(thread: Thread, muThread: number): number {
  requirePositive('muThread', muThread);
  const d2 = pitchDiameter(thread);
  const twist =
    1.5 * (d2 / section(thread).diameter) * (thread.pitch / (Math.PI * d2) + (2 / Math.sqrt(3)) * muThread);
  return Math.sqrt(1 + 3 * twist ** 2);
}

/** Share of the yield point that tension and torsion take up together while tightening, dimensionless; preload in N. */
export function combinedShare(preload: number, thread: Thread, strength: Strength, muThread: number): number {
  requirePositive('preload', preload);
  return (preload * twistFactor(thread, muThread)) / (section(thread).area * strength.yield);
}

/**
 * Preload and torque at which tension and torsion take up a share of the yield point (VDI 2230 uses 0.9):
 * preload, N; torque, N·m. Throws RangeError for a share not in 0.01–1.
 */
export function tightenToYieldShare(
  thread: Thread,
  strength: Strength,
  seat: Seat,
  muThread: number,
  muHead: number,
  share = 0.9,
): { readonly preload: number; readonly torque: number } {
  requireWithin('share', share, 0.01, 1);
  requirePositive('head radius', headRadius(seat));
  const preload = (share * strength.yield * section(thread).area) / twistFactor(thread, muThread);
  const { stretch, thread: threads, head } = torqueArm(thread, seat, muThread, muHead);
  return { preload, torque: preload * (stretch + threads + head) };
}
