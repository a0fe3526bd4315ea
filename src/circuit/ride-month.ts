/**
 * A month of such days, step by step: legs one after the other, then the rest of the day parked. Steps are a minute while a
 * leg lasts and an hour while the bike stands; within a step the current is that of the step's middle (midpoint rule) and
 * the two wells are exact. Fifteen-second steps moved the lowest charge by less than 0.0002 and took four times as long.
 */
import { type Alternator, STANDING } from './alternator-output.ts';
import {
  type BatteryLine,
  chargedTo,
  crankAmps,
  crankVolts,
  fullness,
  lineOf,
  type Moved,
  type RideBattery,
  runBattery,
  wouldStart,
} from './charge-state.ts';
import { type Leg, type Load, RATED_VOLTS, type RideLife } from './ride-legs.ts';
import { type RidePoint, ridePoint } from './ride-point.ts';
import type { ChargingSpec } from './spec.ts';
import type { WellCharge } from './two-wells.ts';

/** Where charge came from and went, Ah; energy, Wh. What is put in less what is taken out is what the battery has gained. */
export interface Books {
  first: number;
  last: number;
  /** Into the plates and stored, on the road and by a charger from the mains. */
  stored: number;
  mains: number;
  /** Into the plates and lost there, and into gas. */
  lost: number;
  gassed: number;
  /** Out of it in legs, by starting, and by what is on while it stands. */
  drawn: number;
  started: number;
  drained: number;
  /** Self-discharge. */
  leaked: number;
  /** Given by the alternator, used by loads, and what the battery took at its terminals (negative: gave), Wh. */
  alternatorWh: number;
  loadWh: number;
  batteryWh: number;
}

/** One day. Shares of a full battery, 0–1. */
export interface RideDay {
  readonly first: number;
  readonly lowest: number;
  readonly last: number;
  readonly ridden: boolean;
}

/** How a leg went on the last day it was ridden. */
export interface LegEnd {
  /** Mean current into the battery over the leg, A, and its volts at the end, V. */
  readonly amps: number;
  readonly volts: number;
  /** How full the battery was at the leg's end, 0–1. */
  readonly full: number;
}

export interface RideMonth {
  readonly days: readonly RideDay[];
  /** Hours and how full, over the first day and over the last day with a ride. */
  readonly firstDay: readonly (readonly [number, number])[];
  readonly lastDay: readonly (readonly [number, number])[];
  readonly legs: readonly LegEnd[];
  readonly lowest: number;
  /** First start that would not have gone, and the lowest volts while starting, V; null volts without a start. */
  readonly noStart: { readonly day: number; readonly leg: number } | null;
  readonly crankVolts: number | null;
  /** Where the available charge ran out: the bike stands there, and the month ends. */
  readonly flat: { readonly day: number; readonly leg: number | null; readonly minute: number } | null;
  readonly books: Readonly<Books>;
}

/** Steps, h: in a leg, and parked. */
const STEPS = { leg: 1 / 60, parked: 1 } as const;

/** Whether a load runs in a leg. */
export function runsIn(load: Load, leg: Leg): boolean {
  if (load.when === 'always') return true;
  return load.when === 'riding' ? leg.rpm > 0 : load.when.includes(leg.name);
}

/** What is on in a leg as a conductance, S: ignition while the engine runs, the lamps, the owner's loads. */
export function legSiemens(spec: ChargingSpec, life: RideLife, leg: Leg): number {
  const { ignition, low, high, tail } = spec.loads;
  const lamps = { off: 0, park: tail, low: low + tail, high: high + tail }[leg.lights];
  const loads = life.loads.reduce((sum, load) => sum + (runsIn(load, leg) ? load.watts : 0), 0);
  return ((leg.rpm > 0 ? ignition : 0) + lamps + loads / RATED_VOLTS) / RATED_VOLTS;
}

/** What is on while the bike stands between rides as a conductance, S; the drain of the bike itself comes on top. */
function parkedSiemens(life: RideLife): number {
  const watts = life.loads.reduce((sum, load) => sum + (load.when === 'always' ? load.watts : 0), 0);
  return watts / RATED_VOLTS ** 2;
}

export interface MonthOptions {
  /** Steps, h: in a leg, and parked; for tests that ask how much they matter. */
  readonly steps?: { readonly leg: number; readonly parked: number };
  /** A charger from the mains fills the battery in every so many nights; left out: never. */
  readonly mainsEvery?: number;
}

/** How full a charger leaves a battery overnight, 0–1 (common practice, no source). */
const MAINS_CHARGE = 0.98;

/** Rides the days. */
export function rideMonth(
  spec: ChargingSpec,
  life: RideLife,
  alternator: Alternator,
  battery: RideBattery,
  options: MonthOptions = {},
): RideMonth {
  const steps = options.steps ?? STEPS;
  const charge: WellCharge = chargedTo(battery, life.startCharge);
  const half: WellCharge = { available: 0, bound: 0 };
  const line: BatteryLine = { restVolts: 0, ohm: 0, chargeOhm: 0, dischargeOhm: 0 };
  const point: RidePoint = { volts: 0, alternatorAmps: 0, plates: 0, gas: 0, regulating: false };
  const moved: Moved = { stored: 0, leaked: 0 };
  const books: Books = {
    first: charge.available + charge.bound,
    last: 0,
    stored: 0,
    mains: 0,
    lost: 0,
    gassed: 0,
    drawn: 0,
    started: 0,
    drained: 0,
    leaked: 0,
    alternatorWh: 0,
    loadWh: 0,
    batteryWh: 0,
  };
  const plan = life.legs.map((leg) => ({
    leg,
    row: leg.rpm > 0 ? alternator.row(leg.rpm) : STANDING,
    siemens: legSiemens(spec, life, leg),
    hours: leg.minutes / 60,
    // A key-off drain is drawn while the key is off; with lamps on it is lost among them.
    drain: leg.rpm === 0 ? spec.restDrainAmps : 0,
  }));
  const ridden = plan.reduce((sum, { hours }) => sum + hours, 0);
  const still = parkedSiemens(life);

  /** One step; false when the available charge ran out in it. `hoursGone` then says when. */
  let ran = 0;
  const step = (
    row: Float64Array,
    siemens: number,
    drain: number,
    hours: number,
    parked: boolean,
  ): boolean => {
    lineOf(battery, charge, line);
    ridePoint(alternator, row, battery, line, siemens, point);
    half.available = charge.available;
    half.bound = charge.bound;
    runBattery(battery, half, point.plates - drain, hours / 2, moved);
    lineOf(battery, half, line);
    ridePoint(alternator, row, battery, line, siemens, point);
    const plates = point.plates - drain;
    half.available = charge.available;
    half.bound = charge.bound;
    runBattery(battery, half, plates, hours, moved);
    ran = hours;
    let whole = true;
    if (half.available < 0) {
      whole = false;
      ran = (hours * charge.available) / (charge.available - half.available);
      half.available = charge.available;
      half.bound = charge.bound;
      runBattery(battery, half, plates, ran, moved);
    }
    charge.available = half.available;
    charge.bound = half.bound;
    if (plates > 0) {
      books.stored += moved.stored;
      books.lost += plates * ran - moved.stored;
    } else if (parked) books.drained -= plates * ran;
    else books.drawn -= plates * ran;
    books.leaked += moved.leaked;
    books.gassed += point.gas * ran;
    books.alternatorWh += point.volts * point.alternatorAmps * ran;
    books.loadWh += point.volts * (siemens * point.volts + drain) * ran;
    books.batteryWh += point.volts * (plates + point.gas) * ran;
    return whole;
  };

  const days: RideDay[] = [];
  const ends: LegEnd[] = [];
  let curve: (readonly [number, number])[] = [];
  let firstDay: readonly (readonly [number, number])[] = [];
  let lastDay: readonly (readonly [number, number])[] = [];
  let lowest = fullness(battery, charge);
  let noStart: RideMonth['noStart'] = null;
  let leastCrank: number | null = null;
  let flat: RideMonth['flat'] = null;

  for (let day = 0; day < life.days && !flat; day++) {
    const first = fullness(battery, charge);
    let dayLowest = first;
    const rides = day % life.everyDays === 0;
    curve = [[0, first]];
    let hour = 0;
    const look = (): void => {
      const now = fullness(battery, charge);
      if (now < dayLowest) dayLowest = now;
      curve.push([hour, now]);
    };
    /** Runs for some hours; false when flat. */
    const run = (
      leg: number | null,
      row: Float64Array,
      siemens: number,
      drain: number,
      hours: number,
      most: number,
    ): boolean => {
      const count = Math.max(1, Math.ceil(hours / most - 1e-9));
      for (let n = 0; n < count; n++) {
        const whole = step(row, siemens, drain, hours / count, leg === null);
        hour += ran;
        look();
        if (whole) continue;
        flat = { day, leg, minute: Math.round(hour * 60) };
        return false;
      }
      return true;
    };
    let running = false;
    if (rides) {
      ends.length = 0;
      for (const [n, { leg, row, siemens, hours, drain }] of plan.entries()) {
        if (leg.rpm > 0 && !running) {
          const volts = crankVolts(battery, charge);
          leastCrank = Math.min(leastCrank ?? volts, volts);
          if (noStart === null && !wouldStart(battery, charge)) noStart = { day, leg: n };
          const amps = crankAmps(battery, charge);
          const long = battery.starterSeconds / 3600;
          // The starter's current lies far above what the wells are made for: it is taken from both alike.
          const share = 1 - (amps * long) / (charge.available + charge.bound);
          if (share <= 0) {
            flat = { day, leg: n, minute: Math.round(hour * 60) };
            break;
          }
          charge.available *= share;
          charge.bound *= share;
          books.started += amps * long;
          books.loadWh += volts * amps * long;
          books.batteryWh -= volts * amps * long;
          look();
        }
        running = leg.rpm > 0;
        const before = books.stored + books.lost + books.gassed - books.drawn;
        if (!run(n, row, siemens, drain, hours, steps.leg)) break;
        const gained = books.stored + books.lost + books.gassed - books.drawn - before;
        ends.push({ amps: gained / hours, volts: point.volts, full: fullness(battery, charge) });
      }
    }
    if (!flat) run(null, STANDING, still, spec.restDrainAmps, 24 - (rides ? ridden : 0) || 0, steps.parked);
    const lacks = MAINS_CHARGE * battery.wells.ampHours - charge.available - charge.bound;
    if (options.mainsEvery && (day + 1) % options.mainsEvery === 0 && lacks > 0 && !flat) {
      books.mains += lacks;
      Object.assign(charge, chargedTo(battery, MAINS_CHARGE));
      look();
    }
    days.push({ first, lowest: dayLowest, last: fullness(battery, charge), ridden: rides });
    lowest = Math.min(lowest, dayLowest);
    if (day === 0) firstDay = curve;
    if (rides) lastDay = curve;
  }
  books.last = charge.available + charge.bound;
  return {
    days,
    firstDay,
    lastDay,
    legs: [...ends],
    lowest: flat ? 0 : lowest,
    noStart,
    crankVolts: leastCrank,
    flat,
    books,
  };
}
