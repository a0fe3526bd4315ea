/**
 * The unknowns of one bike and one pair of hands as independent standard normal numbers: wear, tools, speed and up to
 * three severities. Spreads are common practice or guesses; what the machine file itself gives as a wide range is spread
 * as wide.
 */
import type { Wear } from '../circuit/sound.ts';
import type { ChargingSpec } from '../circuit/spec.ts';
import { normalBelow } from '../numbers/normal.ts';
import { DIODE_RANGE, type Hands } from '../reading/show.ts';

/** Number of unknowns, dimensionless: one less than the runs of the design. */
export const UNKNOWNS = 31;

/** Places of the unknowns in the vector. */
export const AT = {
  openVolts: 0,
  ratedAmps: 1,
  pairOhm: 2,
  setVolts: 3,
  load: 4,
  batteryOhm: 5,
  acceptance: 6,
  charge: 7,
  chargeTop: 8,
  pinOhm: 9,
  outputJoint: 10,
  outputWire: 11,
  breaker: 12,
  positivePost: 13,
  negativePost: 14,
  ground: 15,
  senseLoss: 16,
  idleRpm: 17,
  rpmShift: 18,
  leadOhm: 19,
  capacity: 20,
  starter: 21,
  restDrain: 22,
  severity: 23,
  ghost: 29,
  diodeVolts: 30,
} as const;

/** Spreads of what is worn in ratios, natural log of the ratio at one deviation, 1. */
export const WEAR_SPREADS = {
  pinOhm: 0.4,
  outputJoint: 0.5,
  outputWire: 0.5,
  breaker: 0.4,
  positivePost: 0.6,
  negativePost: 0.6,
  ground: 0.45,
  restDrain: 0.45,
} as const;

/** Least that a figure is taken to be against its middle, 1. */
const LEAST = 0.2;

/** Deviations of what the book or a label gives, of one bike against it: ratios, volts for the set point. */
export interface Spreads {
  readonly openVolts: number;
  readonly ratedAmps: number;
  readonly pairOhm: number;
  readonly setVolts: number;
  readonly load: number;
  /** Natural log of the ratio. */
  readonly batteryOhm: number;
  readonly acceptance: number;
}

/**
 * Deviation of a figure that is given as a range of this half width, in the same unit. Up to the half width that books
 * commonly print, the range is what a maker allows and bikes lie well inside it: the usual deviation. A wider one says that nobody knows, and every
 * place in it is as likely: half width over √3, reached gradually.
 */
function widened(usual: number, commonHalf: number, half: number): number {
  if (half <= commonHalf) return usual;
  return Math.max(usual, Math.min(half / Math.sqrt(3), usual + half - commonHalf));
}

/** Spreads of bikes of this kind, from how wide their figures are. */
export function spreadsOf(spec: ChargingSpec): Spreads {
  const { openVolts, ratedAmps, pairOhms } = spec.alternator;
  const [lowOhms, highOhms] = pairOhms;
  const [lowVolts, highVolts] = spec.regulator.chargeVolts;
  const { loads, ampHours, crankAmps } = spec.unsure ?? { loads: 0, ampHours: 0, crankAmps: 0 };
  return {
    openVolts: widened(0.03, 0.12, openVolts.tolerance),
    ratedAmps: widened(0.06, 0.12, ratedAmps.tolerance),
    pairOhm: widened(0.05, 0.42, (highOhms - lowOhms) / (highOhms + lowOhms)),
    setVolts: widened(0.22, 0.51, (highVolts - lowVolts) / 2),
    load: widened(0.05, 0.09, loads),
    batteryOhm: Math.hypot(0.12, crankAmps / Math.sqrt(3)),
    acceptance: Math.hypot(0.35, ampHours / Math.sqrt(3)),
  };
}

export function wearOf(z: Float64Array, spreads: Spreads): Wear {
  const log = (at: number, spread: number) => Math.exp(spread * z[at]!);
  const worn = (name: keyof typeof WEAR_SPREADS) => log(AT[name], WEAR_SPREADS[name]);
  // A figure that nobody knows may be far off, but not nought and not negative.
  const factor = (at: number, middle: number, spread: number) => Math.max(LEAST, middle + spread * z[at]!);
  return {
    openVolts: factor(AT.openVolts, 1.03, spreads.openVolts),
    ratedAmps: factor(AT.ratedAmps, 1, spreads.ratedAmps),
    pairOhm: factor(AT.pairOhm, 1, spreads.pairOhm),
    setVolts: spreads.setVolts * z[AT.setVolts]!,
    load: factor(AT.load, 1, spreads.load),
    batteryOhm: log(AT.batteryOhm, spreads.batteryOhm),
    acceptance: log(AT.acceptance, spreads.acceptance),
    charge: 0.15 + 0.75 * normalBelow(z[AT.charge]!),
    pinOhm: worn('pinOhm'),
    outputJointOhm: worn('outputJoint'),
    outputWireOhm: worn('outputWire'),
    breakerOhm: worn('breaker'),
    positivePostOhm: worn('positivePost'),
    negativePostOhm: worn('negativePost'),
    groundOhm: worn('ground'),
    senseLossVolts: log(AT.senseLoss, 0.15),
  };
}

/** The charge unknown below which a battery is called flat (30 % charged), dimensionless. */
export const FLAT_BELOW = -0.84;

/** State of charge after the bench charger, 0–1. */
export function chargeTopOf(z: Float64Array): number {
  return Math.min(0.985, 0.95 + 0.025 * z[AT.chargeTop]!);
}

/** Where a cheap meter's AC range has lost 3 dB, Hz: they are specified to 400 Hz only (meter manuals; the corner is a guess from how readings bend with speed). */
const CHEAP_AC = 1750;

export function handsOf(spec: ChargingSpec, z: Float64Array): Hands {
  return {
    leadOhm: Math.max(0.05, 0.34 + 0.12 * z[AT.leadOhm]!),
    idleRpm: 1030 + 65 * z[AT.idleRpm]!,
    rpmShift: (spec.tachometer ? 12 : 58) * z[AT.rpmShift]!,
    starter: Math.exp(0.1 * z[AT.starter]!),
    capacity: 1 + 0.15 * z[AT.capacity]!,
    restDrain: Math.exp(WEAR_SPREADS.restDrain * z[AT.restDrain]!),
    ghost: Math.max(0.2, 0.57 + 0.05 * z[AT.ghost]!),
    diodeVolts: DIODE_RANGE + 0.04 * z[AT.diodeVolts]!,
    acHertz: CHEAP_AC,
  };
}
