/**
 * The door for events that come from outside (a browser, another device, a file): lets through exactly the shapes
 * of event.ts within stated lengths, and says of anything else, in one sentence, what is wrong and what would do.
 * Fields it does not know are refused, not dropped: an event of a later version must not lose half of itself here.
 */
import { checkKey } from '../reading/catalogue.ts';
import { readKey, writeKey } from '../reading/key.ts';
import { DEVIATION_KINDS, type EventOf, type EventType, type JobEvent, WAY_TROUBLES } from './event.ts';
import { isPhotoName } from './photo-file.ts';
import { isDevice, readStamp } from './stamp.ts';

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
/** Greatest size of a reading, in the unit of its kind. */
export const VALUE_LIMIT = 1e9;

export type CheckedEvent =
  | { readonly ok: true; readonly event: JobEvent }
  /** `field` is the path of the field at fault, e.g. `sets[2].probability`; null when the whole is no event. */
  | { readonly ok: false; readonly why: string; readonly field: string | null };

type Fields = Readonly<Record<string, unknown>>;
/** Says what a value should be ("must be …"), or null when it is. */
type Rule = (value: unknown) => Complaint | null;
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

function rule(must: string, holds: (value: unknown) => boolean): Rule {
  return (value) => (holds(value) ? null : { below: '', must });
}

function text(limit: number, least: 0 | 1): Rule {
  return (value) => {
    if (typeof value !== 'string') return { below: '', must: 'be text' };
    if (value.length > limit)
      return { below: '', must: `be at most ${limit} characters long (it has ${value.length})` };
    if (value.trim().length < least) return { below: '', must: 'not be empty' };
    return CONTROL.test(value) ? { below: '', must: 'be plain text without control characters' } : null;
  };
}

function list(limit: number, each: Rule): Rule {
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
function record(rules: Readonly<Record<string, Rule>>, may: Readonly<Record<string, Rule>> = {}): Rule {
  return (value) => {
    if (!isFields(value)) return { below: '', must: `be an object with ${Object.keys(rules).join(', ')}` };
    const there = Object.entries(may).filter(([name]) => Object.hasOwn(value, name));
    const complaint = checkFields(value, { ...rules, ...Object.fromEntries(there) });
    return complaint && { below: `.${complaint.below}`, must: complaint.must };
  };
}

const flag = rule('be true or false', (value) => typeof value === 'boolean');
const share = rule(
  'be a number from 0 to 1',
  (value) => typeof value === 'number' && value >= 0 && value <= 1,
);
const within = rule(
  `be a number within ±${VALUE_LIMIT}`,
  (value) => typeof value === 'number' && Math.abs(value) <= VALUE_LIMIT,
);
const chance = rule(
  `be a number from ${CHANCE_LIMITS.least} to ${CHANCE_LIMITS.most}, or null for the catalogue's own`,
  (value) =>
    value === null ||
    (typeof value === 'number' && value >= CHANCE_LIMITS.least && value <= CHANCE_LIMITS.most),
);
const slug = rule(
  'be 1–64 of a–z, 0–9 and -, not beginning or ending with -',
  (value) => typeof value === 'string' && SLUG.test(value),
);
const word = rule(
  'be a word of 1–40 small letters, digits, - and _',
  (value) => typeof value === 'string' && WORD.test(value),
);
const stamp = rule(
  'be an event id (time-count-device, as in 0mk8q3z5s-0001-bench)',
  (value) => typeof value === 'string' && readStamp(value) !== null,
);
const readingKey = rule(
  `be a reading key of at most ${TEXT_LIMITS.key} characters, its words in alphabetical order, as in "batt_volts lights=low rpm=3000"`,
  (value) => {
    if (typeof value !== 'string' || value.length > TEXT_LIMITS.key || CONTROL.test(value)) return false;
    const key = readKey(value);
    return key !== null && KIND.test(key.kind) && writeKey(key) === value;
  },
);
const readingValue = rule(
  `be a number within ±${VALUE_LIMIT}, true, false, or null for "OL"`,
  (value) =>
    value === null ||
    typeof value === 'boolean' ||
    (typeof value === 'number' && Math.abs(value) <= VALUE_LIMIT),
);
const utc = rule('be a time in UTC as in 2026-01-17T21:04:05.000Z', (value) => {
  if (typeof value !== 'string' || !UTC.test(value)) return false;
  const ms = Date.parse(value);
  // Day 30 of February parses to a day in March: what was read must write back to the same second.
  return Number.isFinite(ms) && new Date(ms).toISOString().slice(0, 19) === value.slice(0, 19);
});

const photoHash = rule(
  'be a SHA-256 in 64 small hexadecimal digits',
  (value) => typeof value === 'string' && isPhotoName(value),
);
const workId = text(TEXT_LIMITS.id, 1);
const oneOf = (...words: readonly (string | number)[]): Rule =>
  rule(`be one of ${words.join(', ')}`, (value) => words.includes(value as string | number));
const more = rule(
  `be minutes from 0 to ${TROUBLE_LIMIT}, or null where it will not go at all`,
  (value) => value === null || (typeof value === 'number' && value >= 0 && value <= TROUBLE_LIMIT),
);
const orNull =
  (inner: Rule): Rule =>
  (value) =>
    value === null ? null : inner(value);

const NAME = /^[a-z][A-Za-z0-9]{0,39}$/;
/** An object whose names are plain and few, each value by one rule. */
function byName(each: Rule): Rule {
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

const figure: Rule = (value) =>
  Array.isArray(value) ? list(LIST_LIMITS.figures, within)(value) : within(value);

const ENVELOPE: Readonly<Record<string, Rule>> = {
  id: stamp,
  job: slug,
  at: utc,
  who: text(TEXT_LIMITS.who, 0),
  device: rule('be 1–16 of a–z and 0–9', (value) => typeof value === 'string' && isDevice(value)),
  type: () => null,
};

const SETS = list(LIST_LIMITS.sets, record({ faults: list(LIST_LIMITS.faults, word), probability: share }));

const BODIES: { readonly [T in EventType]: Readonly<Record<string, Rule>> } = {
  jobOpened: { machine: slug, title: text(TEXT_LIMITS.title, 1), invented: flag },
  complaintHeard: { words: text(TEXT_LIMITS.words, 0), symptoms: list(LIST_LIMITS.symptoms, word) },
  toolsDeclared: { clamp: flag, loadTester: flag, hydrometer: flag, supply: flag },
  readingTaken: { key: readingKey, value: readingValue, entered: text(TEXT_LIMITS.entered, 0) },
  readingPicked: { event: stamp },
  readingWithdrawn: { event: stamp, why: text(TEXT_LIMITS.why, 0) },
  verdictAccepted: {
    repairs: list(
      LIST_LIMITS.repairs,
      record(
        { repair: word, probability: share, worthDoing: flag },
        { whileOpen: flag, saves: within, turnsAt: share },
      ),
    ),
    sets: SETS,
    noneOfThese: share,
  },
  verdictReopened: { why: text(TEXT_LIMITS.why, 0) },
  priorSet: { fault: word, chance, why: text(TEXT_LIMITS.why, 0) },
  wayChosen: {
    targets: list(LIST_LIMITS.targets, workId),
    people: oneOf(1, 2),
    startsAt: utc,
    nights: flag,
    aim: oneOf('least', 'earliest'),
    leave: list(LIST_LIMITS.leave, workId),
    km: rule(
      `be km from 0 to ${KM_LIMIT}, or null where nobody has said`,
      (value) => value === null || (typeof value === 'number' && value >= 0 && value <= KM_LIMIT),
    ),
  },
  stepBegun: { step: workId },
  stepDone: { step: workId },
  stepUndone: { step: workId },
  wayTroubled: {
    what: oneOf(...WAY_TROUBLES),
    of: text(TEXT_LIMITS.id, 0),
    minutes: more,
    until: orNull(utc),
  },
  wayCleared: { event: stamp },
  stockNoted: { supply: workId, here: flag },
  recordMade: {
    step: workId,
    ask: word,
    yes: list(LIST_LIMITS.yes, word),
    figures: byName(figure),
    words: byName(text(TEXT_LIMITS.why, 0)),
  },
  holdOverridden: { step: workId, ask: word, why: text(TEXT_LIMITS.why, 1) },
  deviationNoted: {
    step: workId,
    what: oneOf(...DEVIATION_KINDS),
    used: text(TEXT_LIMITS.why, 1),
    why: text(TEXT_LIMITS.why, 0),
  },
  photoAdded: { photo: photoHash, step: text(TEXT_LIMITS.id, 0), about: text(TEXT_LIMITS.why, 0) },
  clipMarked: {
    what: oneOf('start', 'stop', 'clap'),
    number: rule(
      `be a whole number from 1 to ${CLIP_LIMIT}`,
      (value) => Number.isInteger(value) && (value as number) >= 1 && (value as number) <= CLIP_LIMIT,
    ),
    step: text(TEXT_LIMITS.id, 0),
  },
  entryStruck: { event: stamp },
  noteAdded: { text: text(TEXT_LIMITS.text, 1) },
  repairsMade: {
    repairs: list(LIST_LIMITS.repairs, word),
    left: list(LIST_LIMITS.left, record({ fault: word, chance: share })),
    noneOfThese: share,
  },
  proofLooked: { after: stamp, check: word, ok: flag, words: text(TEXT_LIMITS.why, 0) },
  proofSaid: {
    after: stamp,
    proven: flag,
    faultLeft: share,
    sets: SETS,
    why: text(TEXT_LIMITS.why, 0),
  },
};

/** Fields that an earlier version did not write. */
const LATER_FIELDS: { readonly [T in EventType]?: Readonly<Record<string, Rule>> } = {
  readingTaken: { over: orNull(stamp), after: orNull(stamp) },
  stepBegun: { seen: orNull(stamp) },
  stepDone: { seen: orNull(stamp) },
  noteAdded: { step: workId },
};

function isFields(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** The first field at fault; `below` is its path without a leading dot. */
function checkFields(fields: Fields, rules: Readonly<Record<string, Rule>>): Complaint | null {
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

/** Lets an event through, or says in one sentence why not. Never throws. */
export function checkEvent(value: unknown): CheckedEvent {
  if (!isFields(value)) {
    return {
      ok: false,
      field: null,
      why: 'An event must be a JSON object with id, job, at, who, device and type.',
    };
  }
  const type = value.type;
  if (typeof type !== 'string' || !Object.hasOwn(BODIES, type)) {
    const known = Object.keys(BODIES).join(', ');
    return { ok: false, field: 'type', why: `The field type must be one of ${known}.` };
  }
  const later = Object.entries(LATER_FIELDS[type as EventType] ?? {}).filter(([name]) =>
    Object.hasOwn(value, name),
  );
  const complaint = checkFields(value, {
    ...ENVELOPE,
    ...BODIES[type as EventType],
    ...Object.fromEntries(later),
  });
  if (complaint)
    return {
      ok: false,
      field: complaint.below,
      why: `In ${type} the field ${complaint.below} must ${complaint.must}.`,
    };
  const event = value as unknown as JobEvent;
  if (readStamp(event.id)?.device !== event.device) {
    return {
      ok: false,
      field: 'device',
      why: `In ${type} the field device must be the one that the id ends with.`,
    };
  }
  return event.type === 'readingTaken' ? checkReading(event) : { ok: true, event };
}

/** A reading that the catalogue cannot place would stay in the log for good and stop every later verdict. */
function checkReading(event: EventOf<'readingTaken'>): CheckedEvent {
  const checked = checkKey(event.key);
  if (!checked.ok)
    return { ok: false, field: 'key', why: `In readingTaken the field key is no reading: ${checked.why}.` };
  const { unit } = checked.kind;
  const wrong = typeof event.value === (unit === 'seen' ? 'number' : 'boolean');
  if (!wrong) return { ok: true, event };
  const must = unit === 'seen' ? 'true, false or null' : `a number in ${unit}, or null for "OL"`;
  return {
    ok: false,
    field: 'value',
    why: `In readingTaken the field value must be ${must} for ${checked.kind.id}.`,
  };
}
