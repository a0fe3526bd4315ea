/**
 * What is taken where nobody has said. Ranges are written so wide that most bikes of the kind lie inside; they hang on one
 * another where physics or common sense ties them: the winding and the loads on the rated amps, the fuse on both. All from
 * memory, no source.
 */
import type { TemplateId } from './template.ts';
import { TEMPLATES } from './template.ts';

const round = (value: number, digits = 2) => Number(value.toPrecision(digits));

/**
 * Resistance between two pins at 25 °C, as a range of Ω. Windings are wound so that at rated amps some quarter to the
 * whole of the 14 V they feed is lost in copper: rated amps times ohms is 3 to 12 V (the shipped, invented bikes: 6 to 8).
 */
export function pairOhmsFor(ratedAmps: number): string {
  if (!(ratedAmps > 0)) throw new RangeError(`ratedAmps must be above 0 A, got ${ratedAmps}`);
  return `${round(3 / ratedAmps)}–${round(12 / ratedAmps)} Ω`;
}

/** Below this the bike is a small one: a smaller lamp, less ignition, A. */
const SMALL_RATED = 18;

export interface LoadGuesses {
  readonly ignition: string;
  readonly lamp: string;
  readonly tail: string;
  readonly accessories: string;
}

export function loadsFor(ratedAmps: number): LoadGuesses {
  return ratedAmps < SMALL_RATED
    ? { ignition: '1–3 A', lamp: '25–45 W', tail: '4–10 W', accessories: '0–1 A' }
    : { ignition: '2–5 A', lamp: '40–65 W', tail: '5–15 W', accessories: '0–4 A' };
}

const FUSES = [10, 15, 20, 25, 30, 40, 50, 60, 80, 100] as const;

/** Main fuse, A: the next size above three quarters of the rated amps and above all that is switched on. */
export function fuseFor(ratedAmps: number, drawnAmps: number): number {
  const least = Math.max(0.75 * ratedAmps, 1.15 * drawnAmps);
  return FUSES.find((one) => one >= least) ?? 100;
}

/** Cold-cranking amps of a battery of this capacity, A: some 14 A an Ah (8 to 25 are met with). */
export function crankAmpsFor(ampHours: number): number {
  return Math.min(900, Math.max(20, Math.round((14 * ampHours) / 5) * 5));
}

/** Capacity where only the amps behind it are known, Ah: the template's, or more where the alternator is large for it. */
export function ampHoursFor(template: TemplateId, ratedAmps: number): number {
  return Math.max(TEMPLATES[template].ampHours, Math.ceil(ratedAmps / 3));
}
