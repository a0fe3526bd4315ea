/**
 * Room `joint`: bolted joints. Threads and their stress areas, preload from torque as an interval, stripping of the
 * tapped part, the setting of a wrench with an adapter, tightening order, locker and sealant clocks, break-loose.
 * Every result that rests on friction is an interval; the bike's own book wins over all of them.
 *
 * This file: a thread of the 60° profile (ISO 68-1, ASME B1.1, which agree) and its geometry. Lengths in metres.
 */
import { printNumber } from '../units/print.ts';
import { requireWithin } from './require.ts';

export type ThreadSystem = 'inch' | 'metric';
/** The series a thread belongs to; 'given' for one made from a diameter and a pitch. */
export type ThreadSeries = 'coarse' | 'fine' | 'UNC' | 'UNF' | 'UNEF' | 'UN' | 'UNS' | 'given';

export interface Thread {
  /** As one writes it: "1/4-20 UNC", "M8 × 1.25". */
  readonly name: string;
  readonly system: ThreadSystem;
  readonly series: ThreadSeries;
  /** Nominal (major) diameter, m. */
  readonly diameter: number;
  /** Pitch, m: from one crest to the next. */
  readonly pitch: number;
}

/** One inch, m. Exact since 1959. */
export const INCH = 0.0254;

/** Smallest and largest diameter for which the formulas of this room are meant, m. */
const DIAMETERS = [0.001, 0.1] as const;

/**
 * A thread from its nominal diameter and its pitch, both in metres; for threads that no table holds. Throws RangeError
 * for a diameter outside 1–100 mm, or a pitch not within 1/60 to 1/3 of the diameter: no screw is made so.
 */
export function makeThread(diameter: number, pitch: number, system: ThreadSystem = 'metric'): Thread {
  requireWithin('diameter', diameter, ...DIAMETERS);
  requireWithin('pitch', pitch, diameter / 60, diameter / 3);
  const name =
    system === 'metric'
      ? `M${printNumber(diameter * 1e3)} × ${printNumber(pitch * 1e3)}`
      : `${printNumber(diameter / INCH)} in × ${printNumber(INCH / pitch)} threads an inch`;
  return { name, system, series: 'given', diameter, pitch };
}

/** Height of the sharp V, m: H = P·√3/2. */
export function sharpHeight(thread: Thread): number {
  return (thread.pitch * Math.sqrt(3)) / 2;
}

/** Basic pitch diameter d2, m: d − ¾H (ISO 724, ASME B1.1). */
export function pitchDiameter(thread: Thread): number {
  return thread.diameter - 0.75 * sharpHeight(thread);
}

/** Basic minor diameter of the internal thread D1, m: d − 1¼H. The tap drill is near it. */
export function minorDiameter(thread: Thread): number {
  return thread.diameter - 1.25 * sharpHeight(thread);
}

/** Root diameter of the external thread d3, m: d − 17/12·H (ISO 898-1, profile with a root rounded to H/6). */
export function rootDiameter(thread: Thread): number {
  return thread.diameter - (17 / 12) * sharpHeight(thread);
}

/**
 * Tensile stress area As, m².
 * Inch: 0.7854(D − 0.9743/n)² (ASME B1.1, appendix B); metric: π/4·((d2 + d3)/2)² = π/4·(d − 0.9382P)² (ISO 898-1).
 */
export function stressArea(thread: Thread): number {
  const share = thread.system === 'inch' ? 0.9743 : 0.9382;
  return (Math.PI / 4) * (thread.diameter - share * thread.pitch) ** 2;
}
