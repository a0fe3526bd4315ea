/**
 * The door for events that come from outside (a browser, another device, a file): lets through exactly the shapes
 * of event.ts within stated lengths, and says of anything else, in one sentence, what is wrong and what would do.
 * Fields it does not know are refused, not dropped: an event of a later version must not lose half of itself here.
 */
import { checkKey } from '../reading/catalogue.ts';
import {
  COST_KINDS,
  DEVIATION_KINDS,
  type EventOf,
  type EventType,
  type JobEvent,
  WAY_TROUBLES,
} from './event.ts';
import {
  AMOUNT_LIMIT,
  byName,
  CLIP_LIMIT,
  chance,
  checkFields,
  figure,
  flag,
  isFields,
  KM_LIMIT,
  LIST_LIMITS,
  life,
  list,
  more,
  oneOf,
  orNull,
  photoHash,
  type Rule,
  readingKey,
  readingValue,
  record,
  rule,
  share,
  slug,
  stamp,
  TEXT_LIMITS,
  TROUBLE_LIMIT,
  text,
  utc,
  within,
  word,
  workId,
} from './event-rule.ts';
import { isDevice, readStamp } from './stamp.ts';

export type CheckedEvent =
  | { readonly ok: true; readonly event: JobEvent }
  /** `field` is the path of the field at fault, e.g. `sets[2].probability`; null when the whole is no event. */
  | { readonly ok: false; readonly why: string; readonly field: string | null };

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
  lifeTold: { life },
  costNoted: {
    what: oneOf(...COST_KINDS),
    of: text(TEXT_LIMITS.id, 0),
    words: text(TEXT_LIMITS.why, 0),
    amount: rule(
      `be an amount from 0 to ${AMOUNT_LIMIT}`,
      (value) => typeof value === 'number' && value >= 0 && value <= AMOUNT_LIMIT,
    ),
  },
  minutesLearned: {
    steps: list(
      LIST_LIMITS.steps,
      record({
        step: workId,
        minutes: rule(
          `be minutes above 0 and at most ${TROUBLE_LIMIT}`,
          (value) => typeof value === 'number' && value > 0 && value <= TROUBLE_LIMIT,
        ),
      }),
    ),
  },
  offerAnswered: { offer: text(TEXT_LIMITS.why, 1), taken: flag },
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

/** Whether this version knows events of this type. */
export function isEventType(type: string): type is EventType {
  return Object.hasOwn(BODIES, type);
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
  if (typeof type !== 'string' || !isEventType(type)) {
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
