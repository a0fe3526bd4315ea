/** The rules by which the fields of an event are checked: each says what a value should be, or that it is. */
import { LIGHTS, RIDE_LIMITS } from '../circuit/ride-legs.ts';
import { readKey, writeKey } from '../reading/key.ts';
import { isPhotoName } from './photo-file.ts';
import { readStamp } from './stamp.ts';

/** Longest texts, in UTF-16 units. */
export const TEXT_LIMITS = {
  who: 60,
  title: 120,
  words: 4000,
  text: 4000,
  why: 400,
  key: 120,
  entered: 60,
  id: 80,
} as const;
/** Longest lists. */
export const LIST_LIMITS = {
  symptoms: 20,
  repairs: 40,
  sets: 60,
  left: 60,
  steps: 400,
  faults: 6,
  targets: 40,
  leave: 40,
  yes: 20,
  fields: 20,
  figures: 80,
} as const;
/** Least and greatest chance that a fault may be given, share of bikes that somebody complains of. */
export const CHANCE_LIMITS = { least: 0.001, most: 0.5 } as const;
/** Longest that a trouble may be said to take more, min. */
export const TROUBLE_LIMIT = 10_000;
/** Farthest that a part may be said to have gone, km. */
export const KM_LIMIT = 2_000_000;
/** Greatest number of a clip or a clap, count. */
export const CLIP_LIMIT = 10_000;
/** Greatest amount of money, in that of the garage, 1. */
export const AMOUNT_LIMIT = 1e7;
/** Greatest size of a reading, in the unit of its kind. */
export const VALUE_LIMIT = 1e9;

export type Fields = Readonly<Record<string, unknown>>;
/** Says what a value should be ("must be …"), or null when it is. */
export type Rule = (value: unknown) => Complaint | null;
interface Complaint {
  /** Path below the field, e.g. `[2].probability`; empty for the field itself. */
  readonly below: string;
  readonly must: string;
}

// Half a surrogate pair would come back from UTF-8 as another letter, and the event as another event.
const CONTROL = /(?![\n\t])\p{Cc}|\p{Cs}/u;
const SLUG = /^[a-z0-9](?:[a-z0-9-]{0,62}[a-z0-9])?$/;
const WORD = /^[a-z][a-z0-9_-]{0,39}$/;
/** Kinds of reading may carry a unit's capital, as keyoff_mA does. */
const KIND = /^[a-z][A-Za-z0-9_]{0,39}$/;
const UTC = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d{1,3})?Z$/;

export function rule(must: string, holds: (value: unknown) => boolean): Rule {
  return (value) => (holds(value) ? null : { below: '', must });
}

export function text(limit: number, least: 0 | 1): Rule {
  return (value) => {
    if (typeof value !== 'string') return { below: '', must: 'be text' };
    if (value.length > limit)
      return { below: '', must: `be at most ${limit} characters long (it has ${value.length})` };
    if (value.trim().length < least) return { below: '', must: 'not be empty' };
    return CONTROL.test(value) ? { below: '', must: 'be plain text without control characters' } : null;
  };
}

export function list(limit: number, each: Rule): Rule {
  return (value) => {
    if (!Array.isArray(value)) return { below: '', must: 'be a list' };
    if (value.length > limit)
      return { below: '', must: `have at most ${limit} entries (it has ${value.length})` };
    for (const [index, entry] of value.entries()) {
      const complaint = each(entry);
      if (complaint) return { below: `[${index}]${complaint.below}`, must: complaint.must };
    }
    return null;
  };
}

/** `may` are fields that an earlier version did not write. */
export function record(
  rules: Readonly<Record<string, Rule>>,
  may: Readonly<Record<string, Rule>> = {},
): Rule {
  return (value) => {
    if (!isFields(value)) return { below: '', must: `be an object with ${Object.keys(rules).join(', ')}` };
    const there = Object.entries(may).filter(([name]) => Object.hasOwn(value, name));
    const complaint = checkFields(value, { ...rules, ...Object.fromEntries(there) });
    return complaint && { below: `.${complaint.below}`, must: complaint.must };
  };
}

export const flag = rule('be true or false', (value) => typeof value === 'boolean');
export const share = rule(
  'be a number from 0 to 1',
  (value) => typeof value === 'number' && value >= 0 && value <= 1,
);
export const within = rule(
  `be a number within ±${VALUE_LIMIT}`,
  (value) => typeof value === 'number' && Math.abs(value) <= VALUE_LIMIT,
);
export const chance = rule(
  `be a number from ${CHANCE_LIMITS.least} to ${CHANCE_LIMITS.most}, or null for the catalogue's own`,
  (value) =>
    value === null ||
    (typeof value === 'number' && value >= CHANCE_LIMITS.least && value <= CHANCE_LIMITS.most),
);
export const slug = rule(
  'be 1–64 of a–z, 0–9 and -, not beginning or ending with -',
  (value) => typeof value === 'string' && SLUG.test(value),
);
export const word = rule(
  'be a word of 1–40 small letters, digits, - and _',
  (value) => typeof value === 'string' && WORD.test(value),
);
export const stamp = rule(
  'be an event id (time-count-device, as in 0mk8q3z5s-0001-bench)',
  (value) => typeof value === 'string' && readStamp(value) !== null,
);
export const readingKey = rule(
  `be a reading key of at most ${TEXT_LIMITS.key} characters, its words in alphabetical order, as in "batt_volts lights=low rpm=3000"`,
  (value) => {
    if (typeof value !== 'string' || value.length > TEXT_LIMITS.key || CONTROL.test(value)) return false;
    const key = readKey(value);
    return key !== null && KIND.test(key.kind) && writeKey(key) === value;
  },
);
export const readingValue = rule(
  `be a number within ±${VALUE_LIMIT}, true, false, or null for "OL"`,
  (value) =>
    value === null ||
    typeof value === 'boolean' ||
    (typeof value === 'number' && Math.abs(value) <= VALUE_LIMIT),
);
export const utc = rule('be a time in UTC as in 2026-01-17T21:04:05.000Z', (value) => {
  if (typeof value !== 'string' || !UTC.test(value)) return false;
  const ms = Date.parse(value);
  // Day 30 of February parses to a day in March: what was read must write back to the same second.
  return Number.isFinite(ms) && new Date(ms).toISOString().slice(0, 19) === value.slice(0, 19);
});

export const photoHash = rule(
  'be a SHA-256 in 64 small hexadecimal digits',
  (value) => typeof value === 'string' && isPhotoName(value),
);
export const workId = text(TEXT_LIMITS.id, 1);
export const oneOf = (...words: readonly (string | number)[]): Rule =>
  rule(`be one of ${words.join(', ')}`, (value) => words.includes(value as string | number));
export const more = rule(
  `be minutes from 0 to ${TROUBLE_LIMIT}, or null where it will not go at all`,
  (value) => value === null || (typeof value === 'number' && value >= 0 && value <= TROUBLE_LIMIT),
);
export const orNull =
  (inner: Rule): Rule =>
  (value) =>
    value === null ? null : inner(value);

const NAME = /^[a-z][A-Za-z0-9]{0,39}$/;
/** An object whose names are plain and few, each value by one rule. */
export function byName(each: Rule): Rule {
  return (value) => {
    if (!isFields(value)) return { below: '', must: 'be an object' };
    const entries = Object.entries(value);
    if (entries.length > LIST_LIMITS.fields)
      return { below: '', must: `have at most ${LIST_LIMITS.fields} entries (it has ${entries.length})` };
    for (const [name, entry] of entries) {
      if (!NAME.test(name)) return { below: '', must: 'name its entries in 1–40 letters and digits' };
      const complaint = each(entry);
      if (complaint) return { below: `.${name}${complaint.below}`, must: complaint.must };
    }
    return null;
  };
}

export const figure: Rule = (value) =>
  Array.isArray(value) ? list(LIST_LIMITS.figures, within)(value) : within(value);

export function isFields(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** The first field at fault; `below` is its path without a leading dot. */
export function checkFields(fields: Fields, rules: Readonly<Record<string, Rule>>): Complaint | null {
  for (const [name, check] of Object.entries(rules)) {
    if (!Object.hasOwn(fields, name)) return { below: name, must: 'be there' };
    const complaint = check(fields[name]);
    if (complaint) return { below: `${name}${complaint.below}`, must: complaint.must };
  }
  const stranger = Object.keys(fields).find((name) => !Object.hasOwn(rules, name));
  return stranger === undefined
    ? null
    : { below: stranger.slice(0, 40), must: 'not be there: this version does not know it' };
}

const lifeName = text(RIDE_LIMITS.name, 1);
const from = ([least, most]: readonly [number, number]): Rule =>
  rule(
    `be a number from ${least} to ${most}`,
    (value) => typeof value === 'number' && value >= least && value <= most,
  );

/**
 * How an owner rides: each figure within its bounds. Whether it hangs together (a load in a leg that is there) is looked
 * over where it is ridden, `checkRideLife`: the door stands in every page's script, and that would make each heavier.
 */
export const life: Rule = record({
  legs: list(
    RIDE_LIMITS.legs[1],
    record({
      name: lifeName,
      rpm: (value) => (value === 0 ? null : from(RIDE_LIMITS.rpm)(value)),
      minutes: from(RIDE_LIMITS.minutes),
      lights: oneOf(...LIGHTS),
    }),
  ),
  loads: list(
    RIDE_LIMITS.loads[1],
    record({
      name: lifeName,
      watts: from(RIDE_LIMITS.watts),
      when: (value) =>
        value === 'riding' || value === 'always' ? null : list(RIDE_LIMITS.legs[1], lifeName)(value),
    }),
  ),
  celsius: from(RIDE_LIMITS.celsius),
  days: from(RIDE_LIMITS.days),
  everyDays: from(RIDE_LIMITS.everyDays),
  startCharge: from(RIDE_LIMITS.startCharge),
});
