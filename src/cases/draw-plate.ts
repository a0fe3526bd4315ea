/** Draws the owner's book of an invented bike. Ranges are common practice, no source; no real bike is meant. */
import { between, openNamed, pick } from './draw-stream.ts';

/** The owner's book in the exchange format. */
export interface Nameplate {
  readonly name: string;
  readonly phases: 1 | 3;
  readonly poles: number | null;
  readonly regulator: 'shunt' | 'series';
  readonly battery_type: 'flooded' | 'agm';
  readonly battery_Ah: number;
  readonly battery_CCA: number;
  readonly rated_A_5000: number;
  readonly rated_tol: number;
  readonly ac_volts_at_rpm: readonly [number, number];
  readonly ac_tol: number;
  readonly stator_ohm: readonly [number, number];
  readonly charge_volts_5000: readonly [number, number];
  readonly keyoff_mA_max: number;
  readonly fuse_A: number;
  readonly loads_A: Readonly<Record<'ign' | 'low' | 'high' | 'tail' | 'acc', number>>;
  readonly loads_fed_from: 'battery side of the breaker' | 'regulator side of the breaker';
  readonly voltage_sense: 'at its own output' | 'separate sense wire';
  readonly tachometer: boolean;
}

const rounded = (value: number, digits: number) => Number(value.toFixed(digits));

/** The book of drawn bike `seed`. */
export function drawPlate(seed: number): Nameplate {
  const stream = openNamed(seed, 'plate');
  const phases = stream() < 0.76 ? 3 : 1;
  const amps = Math.round(phases === 3 ? between(stream, 19, 43) : between(stream, 14, 26));
  // Lamps and ignition together leave the alternator a third of its amps or more: else no sound bike would charge.
  const share = between(stream, 0.3, 0.62) * amps;
  const ignition = Math.min(between(stream, 0.3, 0.5) * share, 6.5);
  const low = Math.max(1.6, Math.min(share - ignition, 9.5) * between(stream, 0.7, 0.95));
  const ampHours = Math.round(between(stream, 9, 26));
  const ohm = between(stream, 8.5, 12) / amps;
  const chargeLow = rounded(between(stream, 13.6, 14.1), 1);
  return {
    name: `Drawn ${seed} (invented)`,
    phases,
    poles: stream() < 0.15 ? null : pick(stream, [12, 14, 16, 18, 20]),
    regulator: stream() < 0.68 ? 'shunt' : 'series',
    battery_type: stream() < 0.55 ? 'agm' : 'flooded',
    battery_Ah: ampHours,
    battery_CCA: 10 * Math.round((ampHours * between(stream, 11.5, 15.5)) / 10),
    rated_A_5000: amps,
    rated_tol: 0.1,
    ac_volts_at_rpm: [3000, Math.round(phases === 3 ? between(stream, 46, 64) : between(stream, 44, 62))],
    ac_tol: 0.12,
    stator_ohm: [rounded(0.67 * ohm, 2), rounded(1.33 * ohm, 2)],
    charge_volts_5000: [chargeLow, rounded(chargeLow + 0.9, 1)],
    keyoff_mA_max: Math.round(between(stream, 2, 11)),
    fuse_A: amps > 37 ? 40 : amps > 24 ? 30 : 25,
    loads_A: {
      ign: rounded(ignition, 2),
      low: rounded(low, 2),
      high: rounded(low * between(stream, 1.05, 1.2), 2),
      tail: rounded(between(stream, 0.35, 0.95), 2),
      acc: stream() < 0.4 ? 0 : rounded(between(stream, 0.1, 1.8), 2),
    },
    loads_fed_from: stream() < 0.6 ? 'battery side of the breaker' : 'regulator side of the breaker',
    voltage_sense: stream() < 0.7 ? 'at its own output' : 'separate sense wire',
    tachometer: stream() < 0.65,
  };
}
