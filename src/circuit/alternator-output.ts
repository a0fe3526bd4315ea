/**
 * What the alternator gives into a battery held at some volts, over engine speed: the exact closed form of a balanced
 * bridge (`closed-form.ts`) with the wiring in front of it, kept as rows of a table, one a speed, so that a month of riding
 * costs no more than looking up. The regulator is a ceiling on the battery's volts, taken from one regulated point of the
 * full circuit (`point.ts`).
 */
import type { RunState } from './bike.ts';
import { balancedPoint } from './closed-form.ts';
import { hotState, solvePoint } from './point.ts';
import { bikeOf, type Wear } from './sound.ts';
import type { ChargingSpec } from './spec.ts';

/** Volts of the table: from a dead battery to a regulator that has failed. */
export const TABLE = { from: 8, to: 16.4, step: 0.1 } as const;
const NODES = Math.round((TABLE.to - TABLE.from) / TABLE.step) + 1;

export interface Alternator {
  /** Amps over the volts of `TABLE` at a speed, A; the row is worked out once. */
  readonly row: (rpm: number) => Float64Array;
  /** The regulator holds the battery at `tripVolts − tripOhm·amps` at most, V and Ω. */
  readonly tripVolts: number;
  readonly tripOhm: number;
}

/** Amps of a row at battery volts, A; straight between the table's volts. */
export function rowAmps(row: Float64Array, volts: number): number {
  const at = Math.min(Math.max((volts - TABLE.from) / TABLE.step, 0), NODES - 1);
  const n = Math.min(NODES - 2, Math.floor(at));
  return row[n]! + (row[n + 1]! - row[n]!) * (at - n);
}

/** A row for an engine that stands: no amps. */
export const STANDING = new Float64Array(NODES);

/** Volts the battery would have at the table's place, V. */
export function tableVolts(place: number): number {
  return TABLE.from + place * TABLE.step;
}

const NOTHING_ON: Omit<RunState, 'rpm'> = {
  ...hotState(0, 'off'),
  accessories: false,
};

/** The alternator and regulator of a bike of this kind with this wear, windings hot. */
export function alternatorOf(spec: ChargingSpec, wear: Wear): Alternator {
  const bike = bikeOf(spec, wear);
  const stiff = {
    ...bike,
    setVolts: Number.POSITIVE_INFINITY,
    batteryOhm: 1e-9,
    chargeOhm: 1e-9,
    dischargeOhm: 1e-9,
    gasVolts: 100,
    ignitionSiemens: 0,
  };
  const rows = new Map<number, Float64Array>([[0, STANDING]]);
  const row = (rpm: number): Float64Array => {
    const known = rows.get(rpm);
    if (known) return known;
    if (!(rpm > 0 && rpm <= 20_000))
      throw new RangeError(`rpm must be 0 or lie between 0 and 20000, got ${rpm}`);
    const amps = new Float64Array(NODES);
    for (let n = 0; n < NODES; n++) {
      const point = balancedPoint({ ...stiff, restVolts: tableVolts(n) }, { ...NOTHING_ON, rpm });
      if (!point.ok) throw new RangeError(`spec must be a balanced alternator, got ${point.why}`);
      // More volts never draw more amps; the last digits of a search may say otherwise.
      amps[n] = Math.max(0, Math.min(point.alternatorAmps, n > 0 ? amps[n - 1]! : Number.POSITIVE_INFINITY));
    }
    rows.set(rpm, amps);
    return amps;
  };
  return { row, ...ceilingOf(spec, wear) };
}

/**
 * Where the regulator holds the battery: from the regulated point at 4000 rpm on a battery three quarters full, the middle
 * of what is ridden. Chopping moves it with speed and charge: by 0.15 V (shunt) to 0.25 V (series) either way.
 */
function ceilingOf(spec: ChargingSpec, wear: Wear): { tripVolts: number; tripOhm: number } {
  const bike = bikeOf(spec, { ...wear, charge: 0.75 });
  const state = hotState(4000, 'low');
  const regulates = balancedPoint(bike, state);
  if (regulates.ok) return { tripVolts: bike.setVolts, tripOhm: 0 };
  const point = solvePoint(bike, state);
  // A regulator that senses its own output lets the battery fall by the drop of the wires; with a wire to the battery, not.
  const ohm =
    spec.regulator.senses === 'output'
      ? Math.max(0, (point.regulatorVolts - point.batteryVolts) / point.alternatorAmps)
      : 0;
  return { tripVolts: point.batteryVolts + ohm * point.alternatorAmps, tripOhm: ohm };
}
