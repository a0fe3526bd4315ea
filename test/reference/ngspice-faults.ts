/**
 * Every fault of the ngspice sweep as a change of a sound bike. Severities are invented, middling ones. Not in it: low
 * capacity, which changes nothing at an operating point, and an upper diode shorted, which beside a shunt SCR is a blown fuse.
 */
import type { Bike, PerPhase } from '../../src/circuit/bike.ts';

/** The first of three replaced. */
function first(values: PerPhase, value: number): PerPhase {
  return [value, values[1], values[2]];
}

function scaled(values: PerPhase, factor: number): PerPhase {
  return [values[0] * factor, values[1] * factor, values[2] * factor];
}

/** Phase a with a share of its turns shorted out: EMF, inductance and resistance fall alike (coils on their own teeth). */
function turns(bike: Bike, share: number): Bike {
  const left = 1 - share;
  return {
    ...bike,
    emfPerRpm: first(bike.emfPerRpm, bike.emfPerRpm[0] * left),
    henry: first(bike.henry, bike.henry[0] * left),
    ohm: first(bike.ohm, bike.ohm[0] * left),
  };
}

/** Name of a fault → what it makes of a sound bike. */
export const FAULTS: Readonly<Record<string, (sound: Bike) => Bike>> = {
  sound: (b) => b,
  'lead-open': (b) => ({ ...b, ohm: first(b.ohm, 1e6) }),
  'core-terminal': (b) => ({ ...b, coreShort: { phase: 0, fraction: 1, ohm: 0.02 } }),
  'core-midway': (b) => ({ ...b, coreShort: { phase: 0, fraction: 0.5, ohm: 0.02 } }),
  'turns-coil': (b) => turns(b, 1 / 6),
  'turns-half': (b) => turns(b, 0.5),
  'pin-0.2': (b) => ({ ...b, pinOhm: first(b.pinOhm, 0.2) }),
  'pin-0.5': (b) => ({ ...b, pinOhm: first(b.pinOhm, 0.5) }),
  'pin-through': (b) => ({ ...b, pinOhm: first(b.pinOhm, 1e6) }),
  'pins-all': (b) => ({ ...b, pinOhm: [0.5, 0.3, 0.15] }),
  'magnets-0.8': (b) => ({ ...b, emfPerRpm: scaled(b.emfPerRpm, 0.8) }),
  'magnets-0.6': (b) => ({ ...b, emfPerRpm: scaled(b.emfPerRpm, 0.6) }),
  'diode-open-upper': (b) => ({ ...b, upper: ['open', 'sound', 'sound'] }),
  'diode-open-lower': (b) => ({ ...b, lower: ['open', 'sound', 'sound'] }),
  'diode-shorted-lower': (b) => ({ ...b, lower: ['shorted', 'sound', 'sound'] }),
  'gate-dead': (b) => ({ ...b, gate: 'dead' }),
  'no-regulation': (b) => ({ ...b, setVolts: Number.POSITIVE_INFINITY }),
  'set-low': (b) => ({ ...b, setVolts: 13.4 }),
  'sense-drop': (b) => ({ ...b, senses: 'wire', senseLossVolts: 0.7 }),
  'output-joint-0.1': (b) => ({ ...b, outputJointOhm: 0.1 }),
  'output-joint-0.3': (b) => ({ ...b, outputJointOhm: 0.3 }),
  'ground-0.1': (b) => ({ ...b, groundOhm: 0.1 }),
  'breaker-0.1': (b) => ({ ...b, breakerOhm: 0.1 }),
  'positive-post-0.05': (b) => ({ ...b, positivePostOhm: 0.05 }),
  'negative-post-0.05': (b) => ({ ...b, negativePostOhm: 0.05 }),
  'thin-wire': (b) => ({ ...b, outputWireOhm: 0.05 }),
  sulphated: (b) => ({
    ...b,
    batteryOhm: b.batteryOhm * 6,
    chargeOhm: b.chargeOhm * 5,
    dischargeOhm: b.dischargeOhm * 6,
  }),
  'shorted-cell': (b) => ({ ...b, restVolts: b.restVolts - 2.1 }),
  overload: (b) => ({ ...b, accessorySiemens: 7 / 13.5 }),
};
