/**
 * Legs and loads as people write them: "town 1800 rpm 20 min", "ferry queue engine off 30 min parking lights",
 * "jacket 65 W in town, motorway", "tracker 20 mA always". What is left when the figures are taken out is the name.
 */
import type { Kind } from '../units/kind.ts';
import { parseQuantity } from '../units/parse.ts';
import { quote } from '../units/refuse.ts';
import { type Leg, type Lights, type Load, RATED_VOLTS, RIDE_LIMITS } from './ride-legs.ts';

export type ReadLegs =
  | { readonly ok: true; readonly legs: readonly Leg[] }
  /** One sentence for each line that cannot be read. */
  | { readonly ok: false; readonly whys: readonly string[] };

export type ReadLoad =
  | { readonly ok: true; readonly load: Load }
  | { readonly ok: false; readonly why: string };

/** Longest text of legs, characters. */
export const LONGEST_RIDE = 4000;

const FIGURE = String.raw`-?\d[\d.,]*(?:\s*[½¼¾])?|[½¼¾]`;
const ROTATION = new RegExp(String.raw`(?:${FIGURE})\s*(?:rpm|r\/min|rev\/min|min-1|1\/min)(?![a-z])`, 'i');
const TIME = new RegExp(
  String.raw`(?:${FIGURE})\s*(?:hours?|hrs?|h)(?![a-z])(?:\s*\d+\s*(?:minutes?|mins?)(?![a-z]))?|(?:${FIGURE})\s*(?:minutes?|mins?|seconds?|secs?|s)(?![a-z])`,
  'i',
);
const STANDS = /\bengine\s+(?:is\s+)?off\b|\bengine\s+stopped\b/i;
const LAMPS: readonly (readonly [RegExp, Lights])[] = [
  [/\b(?:lights?|lamps?)\s+(?:are\s+)?off\b|\bno\s+lights?\b|\bdark\b/i, 'off'],
  [/\bpark(?:ing)?\s+(?:lights?|lamps?)\b|\bside\s?lights?\b|\btail\s+(?:light|lamp)\b/i, 'park'],
  [/\bhigh\s+beam\b|\bmain\s+beam\b/i, 'high'],
  [/\b(?:low|dipped)\s+beam\b|\b(?:lights?|lamps?)\s+on\b/i, 'low'],
];
const POWER = new RegExp(String.raw`(?:${FIGURE})\s*(?:kW|mW|W|watts?)(?![a-z])`, 'i');
const CURRENT = new RegExp(String.raw`(?:${FIGURE})\s*(?:mA|µA|uA|A|amps?|milliamps?)(?![a-z])`, 'i');

/** Takes the first match out of a text. */
function take(text: string, pattern: RegExp): { readonly found: string | null; readonly rest: string } {
  const match = pattern.exec(text);
  if (!match) return { found: null, rest: text };
  const rest = `${text.slice(0, match.index)} ${text.slice(match.index + match[0].length)}`;
  return { found: match[0].trim(), rest };
}

const tidy = (text: string): string =>
  text
    .replace(/[\s,:–—-]+$|^[\s,:–—-]+/g, '')
    .replace(/\s+/g, ' ')
    .trim();

function quantityOf(text: string, kind: Kind): { readonly si: number } | { readonly why: string } {
  // The long words that people write; `units` has the signs.
  const short = text
    .replace(/hours?|hrs?/i, 'h')
    .replace(/minutes?|mins?/i, 'min')
    .replace(/seconds?|secs?/i, 's');
  const read = parseQuantity(
    short
      .replace(/milliamps?/i, 'mA')
      .replace(/amps?/i, 'A')
      .replace(/watts?/i, 'W'),
    kind,
  );
  return read.ok ? { si: read.value.si } : { why: read.why };
}

/** Reads one leg; `n` counts from 1 and stands in the sentence it is refused with. */
function readLeg(text: string, n: number): Leg | { readonly why: string } {
  const at = `Leg ${n}, ${quote(text)}`;
  const rotation = take(text, ROTATION);
  const stands = take(rotation.rest, STANDS);
  if (rotation.found !== null && stands.found !== null)
    return { why: `${at}: it has an engine speed and "engine off": leave one of them out.` };
  if (rotation.found === null && stands.found === null)
    return { why: `${at}: it has no engine speed: write e.g. "town 1800 rpm 20 min", or "engine off".` };
  const time = take(stands.rest, TIME);
  if (time.found === null)
    return { why: `${at}: it does not say how long: write e.g. "20 min" or "1 h 30 min".` };
  let rest = time.rest;
  let lights: Lights | null = null;
  for (const [pattern, which] of LAMPS) {
    const lamp = take(rest, pattern);
    if (lamp.found === null) continue;
    if (lights !== null) return { why: `${at}: it names two kinds of light: leave one of them out.` };
    lights = which;
    rest = lamp.rest;
  }
  const speed = rotation.found === null ? { si: 0 } : quantityOf(rotation.found, 'rotation');
  if ('why' in speed) return { why: `${at}: ${speed.why}` };
  const long = quantityOf(time.found, 'time');
  if ('why' in long) return { why: `${at}: ${long.why}` };
  const rpm = Number((speed.si * 60).toFixed(6));
  const minutes = Number((long.si / 60).toFixed(6));
  const [slow, fast] = RIDE_LIMITS.rpm;
  if (rpm !== 0 && !(rpm >= slow && rpm <= fast))
    return {
      why: `${at}: the engine speed must lie between ${slow} and ${fast} rpm: check it, or write "engine off".`,
    };
  const [short, most] = RIDE_LIMITS.minutes;
  if (!(minutes >= short && minutes <= most))
    return { why: `${at}: its time must lie between ${short} min and 24 h.` };
  const name = tidy(rest) || (rpm === 0 ? 'parked' : 'ride');
  if (/\d/.test(name) && /\d\s*(?:rpm|min|h)\b/i.test(name))
    return { why: `${at}: it has two figures of one kind: write one leg a line, or put ";" between legs.` };
  if (name.length > RIDE_LIMITS.name)
    return {
      why: `${at}: its name is longer than ${RIDE_LIMITS.name} characters: write one leg a line, or put ";" between legs.`,
    };
  return { name, rpm, minutes, lights: lights ?? (rpm > 0 ? 'low' : 'off') };
}

/** Reads legs, one a line or with ";" between them. Empty lines and lines that begin with # are passed over. */
export function readLegs(text: string): ReadLegs {
  if (text.length > LONGEST_RIDE)
    return {
      ok: false,
      whys: [
        `The legs are ${text.length} characters long and at most ${LONGEST_RIDE} are read: write fewer.`,
      ],
    };
  const lines = text
    .split(/[;\n]/)
    .map((line) => line.trim())
    .filter((line) => line !== '' && !line.startsWith('#'));
  if (lines.length === 0)
    return {
      ok: false,
      whys: ['There is no leg: write e.g. "town 1800 rpm 20 min; motorway 4500 rpm 1 h".'],
    };
  if (lines.length > RIDE_LIMITS.legs[1])
    return {
      ok: false,
      whys: [
        `There are ${lines.length} legs and a day may have ${RIDE_LIMITS.legs[1]}: put some of them together.`,
      ],
    };
  const read = lines.map((line, n) => readLeg(line, n + 1));
  const whys = read.flatMap((leg) => ('why' in leg ? [leg.why] : []));
  if (whys.length > 0) return { ok: false, whys };
  return { ok: true, legs: read as Leg[] };
}

/** Reads one load. `legs` are those it may name after "in". */
export function readLoad(text: string, legs: readonly Leg[]): ReadLoad {
  const no = (why: string): ReadLoad => ({ ok: false, why: `Load ${quote(text)}: ${why}` });
  if (text.length > 200)
    return no('it is longer than 200 characters: write a name, a figure and when it runs.');
  const power = take(text, POWER);
  const current = power.found === null ? take(text, CURRENT) : null;
  const found = power.found ?? current?.found ?? null;
  if (found === null)
    return no('it does not say what it draws: write e.g. "heated jacket 65 W" or "grips 3 A".');
  const drawn = quantityOf(found, power.found === null ? 'current' : 'power');
  if ('why' in drawn) return no(drawn.why);
  const watts = Number((power.found === null ? drawn.si * RATED_VOLTS : drawn.si).toFixed(6));
  if (!(watts >= 0 && watts <= RIDE_LIMITS.watts[1]))
    return no(`it must draw between 0 and ${RIDE_LIMITS.watts[1]} W: check the figure and its unit.`);
  const rest = tidy(power.found === null ? current!.rest : power.rest);
  const always = take(rest, /\balways\b|\bday and night\b/i);
  const riding = take(always.rest, /\b(?:while|when)\s+riding\b/i);
  const [, named = riding.rest, list] = /^(.*?)\s+in\s+(.+)$/i.exec(` ${tidy(riding.rest)}`) ?? [];
  const name = tidy(named);
  if (name === '' || name.length > RIDE_LIMITS.name)
    return no(`it needs a name of at most ${RIDE_LIMITS.name} characters: write e.g. "heated jacket 65 W".`);
  if (list === undefined)
    return { ok: true, load: { name, watts, when: always.found ? 'always' : 'riding' } };
  if (always.found !== null) return no('it says "always" and names legs: leave one of them out.');
  const wanted = list
    .split(/,|\band\b/i)
    .map(tidy)
    .filter(Boolean);
  const known = [...new Set(legs.map((leg) => leg.name))];
  const when = wanted.map((each) => known.find((leg) => leg.toLowerCase() === each.toLowerCase()) ?? null);
  const strange = wanted[when.indexOf(null)];
  if (strange !== undefined)
    return no(`there is no leg ${quote(strange)}: the legs are ${known.join(', ')}.`);
  return { ok: true, load: { name, watts, when: when as string[] } };
}
