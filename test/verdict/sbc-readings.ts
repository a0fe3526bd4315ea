/** The two circuits and the readings of the calibration: one engine state, so that their tables are made once. */
import type { ChargingSpec } from '../../src/circuit/spec.ts';

/** Invented: three phases, shunt regulator with a sense wire. */
const THREE: ChargingSpec = {
  name: 'Three phases',
  alternator: {
    phases: 3,
    poles: 14,
    openVolts: { rpm: 1000, volts: 17.0, tolerance: 0.1 },
    ratedAmps: { rpm: 5000, amps: 32, tolerance: 0.1 },
    pairOhms: [0.2, 0.4],
  },
  regulator: { kind: 'shunt', chargeVolts: [13.9, 14.8], senses: 'wire' },
  battery: { chemistry: 'agm', ampHours: 19, crankAmps: 270 },
  loads: { ignition: 5, low: 4.6, high: 5, tail: 0.7, accessories: 0.5 },
  loadsFedFrom: 'battery',
  fuseAmps: 30,
  restDrainAmps: 0.003,
  tachometer: true,
};

/** Invented: one winding on two wires, series regulator, no tachometer. */
const TWO_WIRES: ChargingSpec = {
  ...THREE,
  name: 'Two wires',
  alternator: { ...THREE.alternator, phases: 1, ratedAmps: { rpm: 5000, amps: 22, tolerance: 0.1 } },
  regulator: { kind: 'series', chargeVolts: [13.9, 14.8], senses: 'output' },
  tachometer: false,
};

export const SBC_SPECS: readonly ChargingSpec[] = [THREE, TWO_WIRES];
const RUN = 'lights=low rpm=3000';
/** Readings taken on every bike. */
export const SBC_KEYS: readonly string[] = [
  ...['rest_volts charged=True', 'rest_volts', 'crank_volts charged=True probe=clamp', 'keyoff_mA'],
  ...['batt_volts', 'alt_amps', 'drop_neg', 'ripple'].map((kind) => `${kind} ${RUN}`),
  ...[
    'stator_ac pair=ab rpm=3000 temp=cold',
    'mv_pair pair=ab through_plug=True',
    'ohms_case pin=a temp=cold',
  ],
  'visual what=plug_burnt',
];
/** Readings kept back and foretold. */
export const SBC_BACKS: readonly string[] = [
  ...['load_test_volts charged=True', 'crank_volts charged=True probe=post', 'keyon_volts lights=low'],
  ...['drop_term_pos state=crank', 'capacity_minutes', 'mv_pair pair=ab through_plug=False'],
  ...[
    'reg_volts',
    'drop_pos',
    'batt_amps',
    'drop_dcplug',
    'drop_breaker',
    'plug_drop_ac pin=a',
    'phase_amps pin=a',
  ].map((kind) =>
    kind.replace(
      /^(\S+)( pin=.)?$/,
      (_, name: string, pin?: string) => `${name} lights=low${pin ?? ''} rpm=3000`,
    ),
  ),
  'stator_ac pair=ab rpm=5000 temp=cold',
];
