/**
 * A lead battery over hours and days: what it takes and gives at a terminal voltage, how full it is, what it loses by
 * itself, and whether it would still turn the engine. Its charge lies in two wells (`two-wells.ts`); its volts are those of
 * `sound.ts` at the level of the available well, so that it recovers when it is left alone.
 */
import { ohmicFromCrankAmps, restVoltsAt } from './sound.ts';
import type { BatterySpec } from './spec.ts';
import { runWells, type WellCharge, type Wells, wellsFrom } from './two-wells.ts';

/** What differs between a fresh battery of a kind and an old one. */
export interface BatteryAge {
  readonly words: string;
  /** Share of the label's capacity that is left, 1. */
  readonly capacity: number;
  /** Ohmic resistance against a new one, 1. */
  readonly ohm: number;
  /** How hard it is to charge against a new one, 1. */
  readonly acceptance: number;
  /** Share of the charging current that is stored, 1. */
  readonly stored: number;
  /** Self-discharge against the table, 1. */
  readonly leak: number;
}

/**
 * The three batteries that every ride is reckoned with. Most car and motorcycle batteries are given up at 70–80 % of their
 * capacity; lead stores 85–98 % of the ampere-hours put in (common practice, no source for either).
 */
export const AGES = {
  fresh: { words: 'a new battery', capacity: 1, ohm: 1, acceptance: 0.8, stored: 0.98, leak: 0.7 },
  likely: {
    words: 'a battery of two or three years',
    capacity: 0.9,
    ohm: 1.15,
    acceptance: 1.1,
    stored: 0.95,
    leak: 1,
  },
  worn: {
    words: 'a battery near its end',
    capacity: 0.7,
    ohm: 1.4,
    acceptance: 2,
    stored: 0.88,
    leak: 1.6,
  },
} as const satisfies Record<string, BatteryAge>;

/** One battery at one temperature: everything a step needs, worked out once. */
export interface RideBattery {
  readonly chemistry: BatterySpec['chemistry'];
  readonly wells: Wells;
  /** Ohmic resistance full, Ω; it rises as the battery empties. */
  readonly fullOhm: number;
  /** Slow resistance while charging times the empty share, Ω. */
  readonly acceptOhm: number;
  readonly gasVolts: number;
  readonly gasOhm: number;
  readonly stored: number;
  /** Self-discharge, share of the charge an hour. */
  readonly leakPerHour: number;
  /** Starter as a resistance at this temperature, Ω, and how long it turns, s. */
  readonly starterOhm: number;
  readonly starterSeconds: number;
  /** Battery volts under which the engine is not expected to start, V. */
  readonly startVolts: number;
}

/** Peukert's exponent: 1.2–1.3 flooded, 1.05–1.15 AGM (industry figures); the middle of each. */
const PEUKERT = { flooded: 1.25, agm: 1.1 } as const;

/** Wells of a battery from its 10-hour capacity and Peukert's law at 1, 5 and 10 h. */
export function wellsOf(chemistry: BatterySpec['chemistry'], ampHours: number): Wells {
  const share = 1 - 1 / PEUKERT[chemistry];
  const rated = (hours: number) => ({ hours, ampHours: ampHours * (hours / 10) ** share });
  const wells = wellsFrom([rated(1), rated(5), rated(10)]);
  if (!wells) throw new RangeError(`ampHours must be above 0, got ${ampHours}`);
  return wells;
}

/**
 * Self-discharge, share of the charge a day, dimensionless. Flooded: 0.0025/0.001/0.0003 SG a day at 38/27/10 °C (US Army
 * TM 9-6140-200-14) over the 0.145 SG between full and empty, straight in the logarithm between and beyond. AGM: 2.5 % a
 * month at 25 °C, twice that for every 10 K (from memory).
 */
export function leakPerDay(chemistry: BatterySpec['chemistry'], celsius: number): number {
  if (chemistry === 'agm') return (0.025 / 30) * 2 ** ((celsius - 25) / 10);
  const [cold, warm, hot] = [0.0003, 0.001, 0.0025].map((sg) => Math.log(sg / 0.145)) as [
    number,
    number,
    number,
  ];
  const log =
    celsius < 27 ? cold + ((warm - cold) * (celsius - 10)) / 17 : warm + ((hot - warm) * (celsius - 27)) / 11;
  return Math.min(0.1, Math.exp(log));
}

/** Least battery volts of the half-CCA test over temperature, °C and V (common practice). */
const LEAST_VOLTS = [
  [-18, 8.5],
  [-12, 8.7],
  [-7, 8.9],
  [-1, 9.1],
  [4, 9.3],
  [10, 9.4],
  [16, 9.5],
  [21, 9.6],
] as const;

/** A battery that fails the load test may still turn the engine slowly: so many volts less, V (common practice, no source). */
const SLOWLY = 0.6;

/** Battery volts under which an engine is not expected to start at a temperature, V: somewhat under the load test's limit. */
export function startVoltsAt(celsius: number): number {
  return leastVoltsAt(celsius) - SLOWLY;
}

function leastVoltsAt(celsius: number): number {
  const [first, last] = [LEAST_VOLTS[0], LEAST_VOLTS.at(-1)!];
  if (celsius <= first[0]) return first[1];
  if (celsius >= last[0]) return last[1];
  const n = LEAST_VOLTS.findIndex(([at]) => at > celsius);
  const [low, high] = [LEAST_VOLTS[n - 1]!, LEAST_VOLTS[n]!];
  return low[1] + ((high[1] - low[1]) * (celsius - low[0])) / (high[0] - low[0]);
}

/** Under half a minute of heavy load a battery shows about half again its ohmic resistance (typical). */
const HEAVY = 1.48;
/** A starter as a resistance, in ohmic resistances of the sound battery it was chosen for (typical). */
const STARTER = 8;

/** A battery of this label and age at a temperature. */
export function rideBattery(spec: BatterySpec, age: BatteryAge, celsius: number): RideBattery {
  const cold = Math.max(0, 25 - celsius);
  const full = wellsOf(spec.chemistry, spec.ampHours * age.capacity);
  const sound = ohmicFromCrankAmps(spec.crankAmps);
  return {
    chemistry: spec.chemistry,
    // Acid diffuses some 2 % a kelvin more slowly in the cold (from memory).
    wells: { ...full, perHour: full.perHour * Math.exp(-0.02 * cold) },
    // 3.3/CCA at 25 °C against (12.65 − 7.2)/CCA at −18 °C, straight between (see `ohmicFromCrankAmps`).
    fullOhm: sound * age.ohm * (1 + (0.65 * cold) / 43),
    // Acceptance: 0.8 Ω·Ah over the empty share as in `sound.ts`; it halves for every 15 K of cold (common practice).
    acceptOhm: ((0.8 * age.acceptance) / (spec.ampHours * age.capacity)) * 2 ** (cold / 15),
    // 2.40 V a cell at 25 °C, −4 mV a cell and kelvin (common practice; from memory).
    gasVolts: 14.4 - 0.024 * (celsius - 25),
    gasOhm: 1.35 / spec.ampHours,
    stored: age.stored,
    leakPerHour: (leakPerDay(spec.chemistry, celsius) * age.leak) / 24,
    // Cold oil takes more torque and more time: a quarter more current and twice the time at 0 °C (common practice).
    starterOhm: (STARTER * sound) / (1 + 0.01 * cold),
    starterSeconds: 3 * (1 + cold / 25),
    startVolts: startVoltsAt(celsius),
  };
}

/** How full a battery is, 0–1. */
export function fullness(battery: RideBattery, charge: WellCharge): number {
  return (charge.available + charge.bound) / battery.wells.ampHours;
}

/** Both wells at one level. */
export function chargedTo(battery: RideBattery, share: number): WellCharge {
  const { ampHours, share: c } = battery.wells;
  return { available: share * ampHours * c, bound: share * ampHours * (1 - c) };
}

/** Level of the available well, 0–1. */
export function levelOf(battery: RideBattery, charge: WellCharge): number {
  return charge.available / (battery.wells.ampHours * battery.wells.share);
}

/** Ohmic resistance as it is now, Ω: it rises as the battery empties, as in `sound.ts`. */
export function ohmNow(battery: RideBattery, charge: WellCharge): number {
  const empty = Math.min(1, Math.max(0.015, 1 - fullness(battery, charge)));
  return battery.fullOhm * (1 + 0.8 * empty ** 1.7);
}

/** Battery volts while the starter turns, V: an estimate. */
export function crankVolts(battery: RideBattery, charge: WellCharge): number {
  const rest = restVoltsAt(battery.chemistry, levelOf(battery, charge));
  return (rest * battery.starterOhm) / (battery.starterOhm + HEAVY * ohmNow(battery, charge));
}

/** Amps the starter draws, A: an estimate. */
export function crankAmps(battery: RideBattery, charge: WellCharge): number {
  return crankVolts(battery, charge) / battery.starterOhm;
}

/** Whether the engine would start: an estimate from the limits of the load test. */
export function wouldStart(battery: RideBattery, charge: WellCharge): boolean {
  return crankVolts(battery, charge) >= battery.startVolts;
}

/** How full the battery must be for the engine to start, 0–1; null where even a full one would not do. An estimate. */
export function startCharge(battery: RideBattery): number | null {
  if (!wouldStart(battery, chargedTo(battery, 1))) return null;
  let [low, high] = [0, 1];
  while (high - low > 1e-4) {
    const middle = (low + high) / 2;
    if (wouldStart(battery, chargedTo(battery, middle))) high = middle;
    else low = middle;
  }
  return high;
}

/** The battery's line between volts and amps as it stands at one moment. */
export interface BatteryLine {
  restVolts: number;
  ohm: number;
  chargeOhm: number;
  dischargeOhm: number;
}

/** Reads the line of a battery off its charge into `line`. */
export function lineOf(battery: RideBattery, charge: WellCharge, line: BatteryLine): void {
  const level = levelOf(battery, charge);
  line.restVolts = restVoltsAt(battery.chemistry, level);
  line.ohm = ohmNow(battery, charge);
  line.dischargeOhm = 1.2 * line.ohm;
  // A full available well takes nothing: the rest of the current only gasses.
  line.chargeOhm = battery.acceptOhm / Math.max(1e-9, 1 - level);
}

/** What goes into a battery at its terminals, A, of it into the plates, and into gas. Negative into the plates: out of it. */
export interface BatteryAmps {
  plates: number;
  gas: number;
}

/** Current at terminal volts. */
export function ampsAt(battery: RideBattery, line: BatteryLine, volts: number, into: BatteryAmps): void {
  const over = volts - line.restVolts;
  into.gas = 0;
  if (over <= 0) {
    into.plates = over / (line.ohm + line.dischargeOhm);
    return;
  }
  into.plates = over / (line.ohm + line.chargeOhm);
  const inner = volts - into.plates * line.ohm;
  const threshold = Math.max(battery.gasVolts, line.restVolts);
  if (inner <= threshold) return;
  // Inner volts where the current through the ohmic part is what plates and gas take together.
  const [g, gc, gg] = [1 / line.ohm, 1 / line.chargeOhm, 1 / battery.gasOhm];
  const settled = (volts * g + line.restVolts * gc + threshold * gg) / (g + gc + gg);
  into.plates = (settled - line.restVolts) * gc;
  into.gas = (settled - threshold) * gg;
}

/** Charge that moved in a step, Ah. */
export interface Moved {
  stored: number;
  leaked: number;
}

/**
 * Lets a battery run for a time with a constant current into its plates, A (negative: out of them). Charging stores only
 * its share; self-discharge takes the same share of both wells.
 */
export function runBattery(
  battery: RideBattery,
  charge: WellCharge,
  plates: number,
  hours: number,
  moved: Moved,
): void {
  const into = plates > 0 ? plates * battery.stored : plates;
  runWells(battery.wells, charge, -into, hours);
  const kept = Math.exp(-battery.leakPerHour * hours);
  moved.stored = into * hours;
  moved.leaked = (charge.available + charge.bound) * (1 - kept);
  charge.available *= kept;
  charge.bound *= kept;
}
