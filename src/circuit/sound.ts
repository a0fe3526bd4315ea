/**
 * From what the book says to a concrete circuit: EMF from the open-circuit volts, inductance from the rated amps,
 * resistance from the book's range, wiring and battery from typical wear. Figures marked "typical" are common
 * practice without a source; a machine file that knows better overrides them through `Wear`.
 */
import type { Bike } from './bike.ts';
import type { ChargingSpec, WiringSpec } from './spec.ts';

/**
 * What differs between two sound bikes of one kind. Factors multiply the book's or the typical figure; 1 is the
 * middle. States of charge are shares from 0 to 1.
 */
export interface Wear {
  readonly openVolts: number;
  readonly ratedAmps: number;
  readonly pairOhm: number;
  /** Added to the middle of the set point, V. */
  readonly setVolts: number;
  readonly load: number;
  readonly batteryOhm: number;
  readonly acceptance: number;
  readonly charge: number;
  readonly pinOhm: number;
  readonly outputJointOhm: number;
  readonly outputWireOhm: number;
  readonly breakerOhm: number;
  readonly positivePostOhm: number;
  readonly negativePostOhm: number;
  readonly groundOhm: number;
  readonly senseLossVolts: number;
}

/** A bike in the middle of everything, battery three quarters charged. */
export const MIDDLING: Wear = {
  openVolts: 1,
  ratedAmps: 1,
  pairOhm: 1,
  setVolts: 0,
  load: 1,
  batteryOhm: 1,
  acceptance: 1,
  charge: 0.75,
  pinOhm: 1,
  outputJointOhm: 1,
  outputWireOhm: 1,
  breakerOhm: 1,
  positivePostOhm: 1,
  negativePostOhm: 1,
  groundOhm: 1,
  senseLossVolts: 1,
};

/** Typical resistances of sound wiring, Ω (common practice, no source). */
export const TYPICAL = {
  pin: 0.0035,
  outputJoint: 0.0038,
  outputWire: 0.009,
  breaker: 0.0045,
  positivePost: 0.0011,
  negativePost: 0.0011,
  ground: 0.007,
} as const;

const DIODE_VOLTS = 0.84;
const DIODE_OHM = 0.007;
/** Where loads are rated, V. */
const LOAD_VOLTS = 13.5;
/** Typical poles where the book does not say. */
const POLES = 14;

/**
 * Battery volts at rest at 25 °C for a state of charge 0–1, V. Flooded: 12.65/12.45/12.24/12.06/11.89 at
 * 100/75/50/25/0 % (industry table); AGM: 12.9 full (US Army TM 9-6115-730-24), lower points 12.5/12.2/12.0 (from
 * memory).
 */
export function restVoltsAt(chemistry: 'flooded' | 'agm', charge: number): number {
  const table =
    chemistry === 'flooded' ? [11.89, 12.06, 12.24, 12.45, 12.65] : [11.8, 12.02, 12.25, 12.53, 12.9];
  const at = Math.min(Math.max(charge, 0), 1) * 4;
  const n = Math.min(3, Math.floor(at));
  return table[n]! + (table[n + 1]! - table[n]!) * (at - n);
}

/**
 * Ohmic resistance of a sound, charged battery from its cold-cranking amps, Ω. From SAE J537's 7.2 V at the rated
 * amps, (12.65 − 7.2)/CCA would be at −18 °C; at room temperature about 3.3/CCA (common practice, no source).
 */
export function ohmicFromCrankAmps(crankAmps: number): number {
  return 3.3 / crankAmps;
}

/**
 * Inductance of a winding, H, that lets the alternator give `amps` DC into 14 V at `rpm`: from the exact
 * continuous-current form at no resistance, (3/πX)√(Vs² − (2πV/9)²) or (2/πX)√(Vs² − (πV/2)²), with V = 14 V plus two
 * diode drops, corrected for resistance by quadrature.
 */
export function henryFromRated(
  phases: 1 | 3,
  peakVolts: number,
  ohm: number,
  amps: number,
  omega: number,
): number {
  const v = 14 + 2 * DIODE_VOLTS + 2 * DIODE_OHM * amps;
  const wave = phases === 3 ? (2 * Math.PI * v) / 9 : (Math.PI * v) / 2;
  const share = phases === 3 ? 3 / Math.PI : 2 / Math.PI;
  const room = Math.max(peakVolts * peakVolts - wave * wave, (0.2 * peakVolts) ** 2);
  // Resistance adds about its own drop in phase with the back volts: V1 = 2V/π (or 4V/π) plus R·I1.
  const back = (phases === 3 ? 2 / Math.PI : 4 / Math.PI) * v;
  const peak = amps / share;
  const lossless = (share * Math.sqrt(room)) / amps;
  const withOhm =
    Math.sqrt(Math.max(peakVolts ** 2 - (back + ohm * peak) ** 2, (0.1 * peakVolts) ** 2)) / peak;
  const without = Math.sqrt(Math.max(peakVolts ** 2 - back ** 2, (0.1 * peakVolts) ** 2)) / peak;
  return (lossless * withOhm) / without / omega;
}

/** The wiring figures that are known. */
function known(wiring: WiringSpec | undefined): Partial<Record<keyof WiringSpec, number>> {
  return Object.fromEntries(Object.entries(wiring ?? {}).filter(([, ohm]) => ohm !== null)) as Partial<
    Record<keyof WiringSpec, number>
  >;
}

/**
 * Set point that gives the book's battery volts, V: a regulator that senses its own output sits some 0.45 V above
 * the battery (the drop of sound wiring under charge), one with a sense wire at the battery itself (typical).
 */
function setVoltsOf(spec: ChargingSpec): number {
  const [low, high] = spec.regulator.chargeVolts;
  return spec.regulator.senses === 'output' ? high - 0.05 : (low + high) / 2 + 0.15;
}

/** The circuit of a sound bike of this kind with this wear. */
export function bikeOf(spec: ChargingSpec, wear: Wear): Bike {
  const a = spec.alternator;
  const polePairs = (a.poles ?? POLES) / 2;
  const perPair = (a.openVolts.volts * Math.SQRT2 * wear.openVolts) / a.openVolts.rpm;
  const emf = a.phases === 3 ? perPair / Math.sqrt(3) : perPair;
  const pair = 0.885 * ((a.pairOhms[0] + a.pairOhms[1]) / 2) * wear.pairOhm;
  const ohm = a.phases === 3 ? pair / 2 : pair;
  const omega = (2 * Math.PI * polePairs * a.ratedAmps.rpm) / 60;
  const henry = henryFromRated(
    a.phases,
    emf * a.ratedAmps.rpm,
    ohm,
    a.ratedAmps.amps * wear.ratedAmps,
    omega,
  );
  const empty = 1 - Math.min(wear.charge, 0.985);
  const ohmic = ohmicFromCrankAmps(spec.battery.crankAmps) * wear.batteryOhm * (1 + 0.8 * empty ** 1.7);
  const wiring = { ...TYPICAL, ...known(spec.wiring) };
  const siemens = (amps: number) => (amps * wear.load) / LOAD_VOLTS;
  return {
    phases: a.phases,
    polePairs,
    emfPerRpm: a.phases === 3 ? [emf, emf, emf] : [emf, 0, 0],
    henry: a.phases === 3 ? [henry, henry, henry] : [henry, 0, 0],
    ohm: a.phases === 3 ? [ohm, ohm, ohm] : [ohm, 0, 0],
    pinOhm: [wiring.pin * wear.pinOhm, wiring.pin * wear.pinOhm, wiring.pin * wear.pinOhm],
    coreShort: null,
    diodeVolts: DIODE_VOLTS,
    diodeOhm: DIODE_OHM,
    upper: ['sound', 'sound', 'sound'],
    lower: ['sound', 'sound', 'sound'],
    regulator: spec.regulator.kind,
    setVolts: setVoltsOf(spec) + wear.setVolts,
    gate: 'works',
    senses: spec.regulator.senses,
    senseSeconds: 0.0012,
    senseHysteresis: 0.1,
    senseLossVolts: spec.regulator.senses === 'wire' ? 0.03 * wear.senseLossVolts : 0,
    outputJointOhm: wiring.outputJoint * wear.outputJointOhm,
    outputWireOhm: wiring.outputWire * wear.outputWireOhm,
    breakerOhm: wiring.breaker * wear.breakerOhm,
    positivePostOhm: wiring.positivePost * wear.positivePostOhm,
    negativePostOhm: wiring.negativePost * wear.negativePostOhm,
    groundOhm: wiring.ground * wear.groundOhm,
    restVolts: restVoltsAt(spec.battery.chemistry, wear.charge),
    batteryOhm: ohmic,
    // Acceptance falls as the battery fills: about 0.8 Ω·Ah over the empty share (common practice, no source).
    chargeOhm: (0.8 * wear.acceptance) / (spec.battery.ampHours * empty),
    dischargeOhm: 1.2 * ohmic,
    // Gassing from 2.40 V a cell (common practice); its slope about 1.4 Ω·Ah.
    slowFarad: 0.1,
    gasVolts: 14.4,
    gasOhm: 1.35 / spec.battery.ampHours,
    loadsFedFrom: spec.loadsFedFrom,
    ignitionSiemens: siemens(spec.loads.ignition),
    lowSiemens: siemens(spec.loads.low),
    highSiemens: siemens(spec.loads.high),
    tailSiemens: siemens(spec.loads.tail),
    accessorySiemens: siemens(spec.loads.accessories),
  };
}

/** The circuit of a middling sound bike of this kind. */
export function soundBike(spec: ChargingSpec): Bike {
  return bikeOf(spec, MIDDLING);
}
