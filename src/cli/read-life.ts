/** The owner's life that the options of `ride` describe. */
import { readLegs, readLoad } from '../circuit/read-ride.ts';
import { checkRideLife, type RideLife, usualLife } from '../circuit/ride-legs.ts';
import type { ChargingSpec } from '../circuit/spec.ts';
import { parseQuantity } from '../units/parse.ts';
import type { Option, World } from './command.ts';
import { type Given, numberOf, oneOf } from './options.ts';
import { Refusal } from './refusal.ts';

export const LIFE: readonly Option[] = [
  {
    name: '--legs',
    value: 'TEXT|FILE',
    about:
      'the day as legs, with ";" or on lines of their own: a name, an engine speed or "engine off", a time, and perhaps low beam, high beam, parking lights or lights off; to work and back in town unless said',
  },
  {
    name: '--load',
    value: 'TEXT',
    many: true,
    about: 'something that draws current: "jacket 65 W", "grips 3 A in town", "tracker 20 mA always"',
  },
  {
    name: '--accessories',
    value: 'on|off',
    about: "the owner's additions in the machine file; on unless said",
  },
  {
    name: '--air',
    value: 'TEMPERATURE',
    about: 'how cold it is, e.g. "−5 °C" or "40 °F"; 15 °C unless said',
  },
  { name: '--days', value: 'DAYS', about: 'how many days are looked at; 30 unless said' },
  { name: '--every', value: 'DAYS', about: 'every how many days it is ridden; 1 unless said' },
  { name: '--charge', value: 'PERCENT', about: 'how full the battery is at first; 95 unless said' },
];

/** Reads the options; every fault goes into one Refusal. */
export async function readLife(given: Given, spec: ChargingSpec, world: World): Promise<RideLife> {
  const usual = usualLife(spec);
  const text = given.one('--legs');
  // A file's name says nothing of engine speeds.
  const legsText =
    text === null || /\brpm\b|\/min|engine\s+(is\s+)?(off|stopped)/i.test(text)
      ? text
      : await world.read(text);
  const read = legsText === null ? ({ ok: true, legs: usual.legs } as const) : readLegs(legsText);
  if (!read.ok) throw new Refusal(...read.whys);
  const loads = given.all('--load').map((load) => readLoad(load, read.legs));
  const refused = loads.flatMap((load) => (load.ok ? [] : [load.why]));
  if (refused.length > 0) throw new Refusal(...refused);
  const wired = oneOf(given, '--accessories', ['on', 'off'], 'on') === 'on' ? usual.loads : [];
  const air = given.one('--air');
  const celsius = air === null ? null : parseQuantity(air, 'temperature', { defaultUnit: '°C' });
  if (celsius?.ok === false) throw new Refusal(`--air: ${celsius.why}`);
  const checked = checkRideLife({
    ...usual,
    legs: read.legs,
    loads: [...wired, ...loads.flatMap((load) => (load.ok ? [load.load] : []))],
    ...(celsius ? { celsius: Number((celsius.value.si - 273.15).toFixed(2)) } : {}),
    days: numberOf(given, '--days', 1, 366, 'days', usual.days),
    everyDays: numberOf(given, '--every', 1, 60, 'days', usual.everyDays),
    startCharge: numberOf(given, '--charge', 10, 100, '%', 100 * usual.startCharge) / 100,
  } satisfies RideLife);
  if (!checked.ok) throw new Refusal(checked.why);
  return checked.life;
}
