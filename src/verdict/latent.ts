/**
 * The unknowns of one bike and one pair of hands as independent standard normal numbers: wear, tools, speed and up to
 * three severities. Spreads are common practice or guesses.
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

export function wearOf(z: Float64Array): Wear {
  const log = (at: number, spread: number) => Math.exp(spread * z[at]!);
  const worn = (name: keyof typeof WEAR_SPREADS) => log(AT[name], WEAR_SPREADS[name]);
  return {
    openVolts: 1.03 + 0.03 * z[AT.openVolts]!,
    ratedAmps: 1 + 0.06 * z[AT.ratedAmps]!,
    pairOhm: 1 + 0.05 * z[AT.pairOhm]!,
    setVolts: 0.22 * z[AT.setVolts]!,
    load: 1 + 0.05 * z[AT.load]!,
    batteryOhm: log(AT.batteryOhm, 0.12),
    acceptance: log(AT.acceptance, 0.35),
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
