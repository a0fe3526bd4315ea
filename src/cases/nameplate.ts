/** The owner's book as the exchange format writes it, checked and turned into the product's own. */
import type { ChargingSpec } from '../circuit/spec.ts';
import { choiceAt, flagAt, numberAt, objectAt, rangeAt, shown } from './field.ts';

const FED_FROM = {
  'battery side of the breaker': 'battery',
  'regulator side of the breaker': 'regulator',
} as const;
const SENSES = { 'at its own output': 'output', 'separate sense wire': 'wire' } as const;

function keyOf<T extends object>(table: T, value: unknown, path: string): T[keyof T] {
  return table[choiceAt(value, path, Object.keys(table)) as keyof T];
}

/** Poles of the rotor: even, 2–36, or null where the book is silent. */
function polesAt(value: unknown): number | null {
  if (value === null || value === undefined) return null;
  if (numberAt(value, 'nameplate.poles', 2, 36, 'poles') % 2 !== 0) {
    throw new RangeError(`nameplate.poles must be an even whole number or null, got ${shown(value)}.`);
  }
  return value as number;
}

/**
 * Charging circuit of a nameplate; amps, volts, ohms and rpm as in ChargingSpec (`keyoff_mA_max` is in mA outside and
 * A inside). `tachometer` replaces the nameplate's own word where it is given.
 * A missing or impossible figure is a RangeError with one sentence.
 */
export function specOfNameplate(value: unknown, tachometer?: boolean): ChargingSpec {
  const plate = objectAt(value, 'nameplate');
  const at = (field: string) => `nameplate.${field}`;
  const number = (field: string, low: number, high: number, unit: string) =>
    numberAt(plate[field], at(field), low, high, unit);
  if (!Array.isArray(plate.ac_volts_at_rpm) || plate.ac_volts_at_rpm.length !== 2) {
    throw new RangeError(
      `nameplate.ac_volts_at_rpm must be [rpm, volts], got ${shown(plate.ac_volts_at_rpm)}.`,
    );
  }
  const [openRpm, openVolts] = plate.ac_volts_at_rpm as [unknown, unknown];
  const loads = objectAt(plate.loads_A, at('loads_A'));
  const load = (field: string) => numberAt(loads[field], at(`loads_A.${field}`), 0, 60, 'A');
  return {
    name: typeof plate.name === 'string' ? plate.name : 'unnamed',
    alternator: {
      phases: choiceAt(plate.phases, at('phases'), [1, 3]),
      poles: polesAt(plate.poles),
      openVolts: {
        rpm: numberAt(openRpm, at('ac_volts_at_rpm[0]'), 200, 15_000, 'rpm'),
        volts: numberAt(openVolts, at('ac_volts_at_rpm[1]'), 1, 400, 'V'),
        tolerance: number('ac_tol', 0, 1, ''),
      },
      ratedAmps: {
        rpm: 5000,
        amps: number('rated_A_5000', 1, 200, 'A'),
        tolerance: number('rated_tol', 0, 1, ''),
      },
      pairOhms: rangeAt(plate.stator_ohm, at('stator_ohm'), 0.01, 50, 'Ω'),
    },
    regulator: {
      kind: choiceAt(plate.regulator, at('regulator'), ['shunt', 'series']),
      chargeVolts: rangeAt(plate.charge_volts_5000, at('charge_volts_5000'), 10, 18, 'V'),
      senses: keyOf(SENSES, plate.voltage_sense, at('voltage_sense')),
    },
    battery: {
      chemistry: choiceAt(plate.battery_type, at('battery_type'), ['flooded', 'agm']),
      ampHours: number('battery_Ah', 1, 200, 'Ah'),
      crankAmps: number('battery_CCA', 10, 2000, 'A'),
    },
    loads: {
      ignition: load('ign'),
      low: load('low'),
      high: load('high'),
      tail: load('tail'),
      accessories: load('acc'),
    },
    loadsFedFrom: keyOf(FED_FROM, plate.loads_fed_from, at('loads_fed_from')),
    fuseAmps: number('fuse_A', 1, 200, 'A'),
    restDrainAmps: number('keyoff_mA_max', 0, 1000, 'mA') / 1000,
    tachometer: tachometer ?? flagAt(plate.tachometer, at('tachometer'), false),
  };
}
