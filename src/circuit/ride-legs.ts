/**
 * How an owner rides, as plain data: a day of legs, the loads that run in them, how often such a day comes and how cold it
 * is. Whatever comes from outside (a file, a browser, a log) passes `checkRideLife`.
 */
import type { ChargingSpec } from './spec.ts';

export const LIGHTS = ['off', 'park', 'low', 'high'] as const;
export type Lights = (typeof LIGHTS)[number];

/** A stretch of the day. */
export interface Leg {
  /** "town": loads may name the legs they run in. */
  readonly name: string;
  /** Engine speed, rpm; 0 for an engine that stands. */
  readonly rpm: number;
  readonly minutes: number;
  readonly lights: Lights;
}

/** Something that draws current besides ignition and lamps. It behaves as a resistance. */
export interface Load {
  readonly name: string;
  /** At 13.5 V, W. */
  readonly watts: number;
  /** With the engine running, day and night, or in the legs of these names, running or not. */
  readonly when: 'riding' | 'always' | readonly string[];
}

export interface RideLife {
  readonly legs: readonly Leg[];
  readonly loads: readonly Load[];
  /** Ambient temperature, °C. */
  readonly celsius: number;
  /** Days that are looked at, and every how many of them the legs are ridden (1: every day). */
  readonly days: number;
  readonly everyDays: number;
  /** How full the battery is at first, 0–1. */
  readonly startCharge: number;
}

/** Volts at which loads are rated, V. */
export const RATED_VOLTS = 13.5;

export const RIDE_LIMITS = {
  legs: [1, 24],
  loads: [0, 20],
  name: 40,
  rpm: [300, 15_000],
  minutes: [1, 1440],
  watts: [0, 1000],
  celsius: [-30, 50],
  days: [1, 366],
  everyDays: [1, 60],
  startCharge: [0.1, 1],
} as const;

/** "20 min", "1 h 30 min". */
export function minutesWords(minutes: number): string {
  const [h, m] = [Math.floor(minutes / 60), Number((minutes % 60).toFixed(1))];
  if (h === 0) return `${m} min`;
  return m === 0 ? `${h} h` : `${h} h ${m} min`;
}

/** A life to start from: the way to work and back by night, the owner's own additions on. */
export function usualLife(spec: ChargingSpec): RideLife {
  const { accessories } = spec.loads;
  return {
    legs: [
      { name: 'town', rpm: 1800, minutes: 20, lights: 'low' },
      { name: 'parked', rpm: 0, minutes: 480, lights: 'off' },
      { name: 'town', rpm: 1800, minutes: 20, lights: 'low' },
    ],
    loads:
      accessories > 0
        ? [
            {
              name: 'what is wired on now',
              watts: Math.round(accessories * RATED_VOLTS * 10) / 10,
              when: 'riding',
            },
          ]
        : [],
    celsius: 15,
    days: 30,
    everyDays: 1,
    startCharge: 0.95,
  };
}

export type CheckedLife =
  | { readonly ok: true; readonly life: RideLife }
  /** One sentence: where, what, what to do. */
  | { readonly ok: false; readonly why: string };

type Fields = Readonly<Record<string, unknown>>;

/** Looks a life over that comes from outside; the first fault is said. */
export function checkRideLife(value: unknown): CheckedLife {
  try {
    return { ok: true, life: lifeOf(value) };
  } catch (fault) {
    if (fault instanceof Misfit) return { ok: false, why: fault.message };
    throw fault;
  }
}

class Misfit extends Error {}

function lifeOf(value: unknown): RideLife {
  const life = fieldsOf(value, 'The ride', ['legs', 'loads', 'celsius', 'days', 'everyDays', 'startCharge']);
  const legs = listOf(life.legs, 'legs', RIDE_LIMITS.legs).map((leg, n) => legOf(leg, `Leg ${n + 1}`));
  const minutes = legs.reduce((sum, leg) => sum + leg.minutes, 0);
  if (minutes > 1440)
    throw new Misfit(
      `The legs last ${Math.round(minutes)} minutes and a day has 1440: shorten one of them or leave one out.`,
    );
  const loads = listOf(life.loads, 'loads', RIDE_LIMITS.loads).map((load, n) =>
    loadOf(load, `Load ${n + 1}`, legs),
  );
  const twice = loads.find((load, n) => loads.findIndex(({ name }) => name === load.name) < n);
  if (twice) throw new Misfit(`Two loads are called "${twice.name}": give each a name of its own.`);
  return {
    legs,
    loads,
    celsius: figure(life.celsius, 'The temperature', RIDE_LIMITS.celsius, '°C'),
    days: whole(life.days, 'The number of days', RIDE_LIMITS.days),
    everyDays: whole(life.everyDays, 'Every how many days it is ridden', RIDE_LIMITS.everyDays),
    startCharge: figure(life.startCharge, 'The charge at first', RIDE_LIMITS.startCharge, ''),
  };
}

function legOf(value: unknown, at: string): Leg {
  const leg = fieldsOf(value, at, ['name', 'rpm', 'minutes', 'lights']);
  const name = nameOf(leg.name, at);
  const place = `${at} (${name})`;
  const lights = LIGHTS.find((one) => one === leg.lights);
  if (!lights) throw new Misfit(`${place}: its lights may be ${LIGHTS.join(', ')}, not ${said(leg.lights)}.`);
  return {
    name,
    rpm: leg.rpm === 0 ? 0 : figure(leg.rpm, `${place}: the engine speed`, RIDE_LIMITS.rpm, 'rpm'),
    minutes: figure(leg.minutes, `${place}: its time`, RIDE_LIMITS.minutes, 'min'),
    lights,
  };
}

function loadOf(value: unknown, at: string, legs: readonly Leg[]): Load {
  const load = fieldsOf(value, at, ['name', 'watts', 'when']);
  const name = nameOf(load.name, at);
  const place = `${at} (${name})`;
  const watts = figure(load.watts, `${place}: what it draws`, RIDE_LIMITS.watts, 'W');
  if (load.when === 'riding' || load.when === 'always') return { name, watts, when: load.when };
  if (!Array.isArray(load.when) || load.when.length === 0)
    throw new Misfit(
      `${place}: it may run "riding", "always", or in a list of legs, not ${said(load.when)}.`,
    );
  const known = [...new Set(legs.map((leg) => leg.name))];
  for (const each of load.when as readonly unknown[])
    if (!known.some((leg) => leg === each))
      throw new Misfit(`${place}: there is no leg ${said(each)}; there ${count(known)}.`);
  return { name, watts, when: [...(load.when as string[])] };
}

function count(names: readonly string[]): string {
  return names.length === 1 ? `is only "${names[0]}"` : `are ${names.map((name) => `"${name}"`).join(', ')}`;
}

function fieldsOf(value: unknown, at: string, names: readonly string[]): Fields {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    throw new Misfit(`${at} must be an object with ${names.join(', ')}, not ${said(value)}.`);
  for (const name of Object.keys(value))
    if (!names.includes(name))
      throw new Misfit(`${at} has a field "${name.slice(0, 40)}" that is not known: leave it out.`);
  return value as Fields;
}

function listOf(value: unknown, what: string, [least, most]: readonly [number, number]): readonly unknown[] {
  if (Array.isArray(value) && value.length >= least && value.length <= most) return value;
  const is = Array.isArray(value) ? `${value.length}` : said(value);
  throw new Misfit(`There must be a list of ${least} to ${most} ${what}, not ${is}.`);
}

function nameOf(value: unknown, at: string): string {
  if (typeof value === 'string' && value.trim() !== '' && value.length <= RIDE_LIMITS.name)
    return value.trim();
  throw new Misfit(`${at} needs a name of at most ${RIDE_LIMITS.name} characters, not ${said(value)}.`);
}

function figure(
  value: unknown,
  what: string,
  [least, most]: readonly [number, number],
  unit: string,
): number {
  if (typeof value === 'number' && value >= least && value <= most) return value;
  const in_ = unit === '' ? '' : ` ${unit}`;
  throw new Misfit(`${what} must lie between ${least} and ${most}${in_}, not ${said(value)}.`);
}

function whole(value: unknown, what: string, limits: readonly [number, number]): number {
  const found = figure(value, what, limits, '');
  if (!Number.isInteger(found)) throw new Misfit(`${what} must be a whole number, not ${said(value)}.`);
  return found;
}

function said(value: unknown): string {
  if (value === undefined) return 'nothing';
  return (JSON.stringify(value) ?? String(value)).slice(0, 60);
}
