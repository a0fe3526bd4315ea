/**
 * The two alternators of the ngspice sweep, and the faults it steps through. Invented figures.
 *
 * Machine A: three-phase star, 12 poles, 17.0 V line-line rms per 1000 rpm, 0.60 mH, 0.10 Ω a phase.
 * Machine B: single phase, 18 poles, 20.0 V rms per 1000 rpm, 0.80 mH, 0.25 Ω.
 * Both: diode 0.84 V + 7 mΩ; battery 12.65 V at rest, 12 mΩ ohmic and 0.20 Ω (charging) or 18 mΩ (discharging) of slow
 * resistance with 0.1 F over it; wiring 8 mΩ on the positive and 4 mΩ on the negative side; 11 A of load at 13.5 V; trip 14.6 V.
 */
import type { Bike, RunState } from '../../src/circuit/bike.ts';

const SIEMENS = 11 / 13.5;

export const MACHINE_A: Bike = {
  phases: 3,
  polePairs: 6,
  emfPerRpm: [fromLine(17), fromLine(17), fromLine(17)],
  henry: [0.6e-3, 0.6e-3, 0.6e-3],
  ohm: [0.1, 0.1, 0.1],
  pinOhm: [0, 0, 0],
  coreShort: null,
  diodeVolts: 0.84,
  diodeOhm: 0.007,
  upper: ['sound', 'sound', 'sound'],
  lower: ['sound', 'sound', 'sound'],
  regulator: 'shunt',
  setVolts: 14.6,
  gate: 'works',
  senses: 'output',
  senseSeconds: 0.0012,
  senseHysteresis: 0.1,
  senseLossVolts: 0,
  outputJointOhm: 0,
  outputWireOhm: 0.008,
  breakerOhm: 0,
  positivePostOhm: 0,
  negativePostOhm: 0,
  groundOhm: 0.004,
  restVolts: 12.65,
  batteryOhm: 0.012,
  chargeOhm: 0.2,
  dischargeOhm: 0.018,
  slowFarad: 0.1,
  gasVolts: Number.POSITIVE_INFINITY,
  gasOhm: 0,
  loadsFedFrom: 'battery',
  ignitionSiemens: SIEMENS,
  lowSiemens: 0,
  highSiemens: 0,
  tailSiemens: 0,
  accessorySiemens: 0,
};

export const MACHINE_B: Bike = {
  ...MACHINE_A,
  phases: 1,
  polePairs: 9,
  emfPerRpm: [(20 * Math.SQRT2) / 1000, 0, 0],
  henry: [0.8e-3, 0, 0],
  ohm: [0.25, 0, 0],
};

/** The same copper as machine A's 8 mΩ and 4 mΩ, but with every joint in its place. */
const WIRED = {
  pinOhm: [0.003, 0.003, 0.003],
  outputJointOhm: 0.002,
  outputWireOhm: 0.0035,
  breakerOhm: 0.0015,
  positivePostOhm: 0.001,
  negativePostOhm: 0.001,
  groundOhm: 0.003,
} as const;

/** Machines of the sweep: A with a shunt regulator, B with a shunt and with a series regulator. */
export const SWEPT: Readonly<Record<string, Bike>> = {
  'a-shunt': { ...MACHINE_A, ...WIRED },
  'b-shunt': { ...MACHINE_B, ...WIRED },
  'b-series': { ...MACHINE_B, ...WIRED, regulator: 'series', loadsFedFrom: 'regulator' },
};

/** Engine cold, every load of the table on. */
export function running(rpm: number): RunState {
  return { rpm, lights: 'low', windingCelsius: 25, magnet: 1, accessories: true };
}

/** V peak of one phase per rpm from V rms line to line per 1000 rpm. */
function fromLine(volts: number): number {
  return (volts * Math.SQRT2) / Math.sqrt(3) / 1000;
}
