/** A whole job for the tests of the record: every kind of entry that it tells of, some of them gone wrong. All invented. */
import type { EventBody, JobEvent } from '../../src/job/event.ts';
import { writeEvent } from '../../src/job/stamp.ts';
import { IN } from '../e2e/bench-story.ts';
import { picture, sumOf } from '../job/pictures.ts';

export const RECORDED = 'recorded-job';
/** 2026-01-17, six in the evening, UTC. */
const BEGIN = Date.UTC(2026, 0, 17, 18);
const MINUTE = 60_000;

export const TAKEN = [picture(21), picture(22), picture(23)];
export const GONE = sumOf(picture(98));

const reading = (key: string, value: number | null | boolean, entered = String(value)): EventBody => ({
  type: 'readingTaken',
  key,
  value,
  entered,
  over: null,
});
const done = (step: string): EventBody => ({ type: 'stepDone', step, seen: null });
const record = (
  step: string,
  ask: string,
  words: Readonly<Record<string, string>>,
  yes: readonly string[] = [],
  figures: Readonly<Record<string, number | readonly number[]>> = {},
): EventBody => ({ type: 'recordMade', step, ask, yes, figures, words });

/** In order; a function is told the events before it. */
const TALE: readonly (EventBody | ((before: readonly JobEvent[]) => EventBody))[] = [
  { type: 'jobOpened', machine: 'ardmoor-650-pathway', title: 'Stator and plug, Ω run', invented: true },
  {
    type: 'complaintHeard',
    words: 'Dies on the road; the plug by the battery smells burnt.',
    symptoms: ['runs_flat_riding', 'weak_battery'],
  },
  reading('rest_volts', 12.2, '12.20 V'),
  reading('batt_volts lights=low rpm=3000', 12.61),
  reading('batt_volts lights=low rpm=3000', 1.24, '1.24'),
  (before) => ({
    type: 'readingWithdrawn',
    event: before.at(-1)!.id,
    why: 'The tip slipped off the post',
  }),
  reading('ohms_pair pair=ab', 0.21, '0,21'),
  reading('ohms_case pin=a', 1.4, '1.4 Ω'),
  reading('visual what=plug_burnt', true),
  { type: 'priorSet', fault: 'plug-pins', chance: 0.3, why: 'Seen it on three of these' },
  {
    type: 'verdictAccepted',
    repairs: [
      { repair: 'replace-stator', probability: 0.97, worthDoing: true, whileOpen: false },
      { repair: 'replace-stator-plug', probability: 0.93, worthDoing: true, whileOpen: false },
      { repair: 'charge-battery', probability: 0.41, worthDoing: true, whileOpen: true },
      { repair: 'replace-battery', probability: 0.12, worthDoing: false, whileOpen: false },
    ],
    sets: [
      { faults: ['plug-pins', 'stator-core-midway'], probability: 0.89 },
      { faults: ['stator-core-midway'], probability: 0.06 },
      { faults: ['battery-worn', 'plug-pins', 'stator-core-midway'], probability: 0.03 },
    ],
    noneOfThese: 0.01,
  },
  {
    type: 'wayChosen',
    targets: ['stator'],
    people: 2,
    startsAt: new Date(BEGIN + 60 * MINUTE).toISOString(),
    nights: true,
    aim: 'least',
    leave: [],
    km: 41_000,
  },
  { type: 'stockNoted', supply: 'cover-gasket', here: true },
  ...IN.map(done),
  record(
    'cover-with-gear-side',
    'lengths',
    { lengths: '1 1/4, 1 1/4, 1 1/4, 1 1/4, 1 1/2, 1 1/4, 1 1/4, 1 1/4, 1 1/4, 1 1/4 in' },
    ['card'],
  ),
  record('sprocket-only', 'stack-found', { found: '30, 60 thou' }, ['numbered', 'tied'], {
    shimsM: [0.000762, 0.001524],
  }),
  record('plug-retainer', 'run', { found: 'under the tensioner, two clips, a sleeve at the edge' }, [
    'followed',
  ]),
  { type: 'noteAdded', step: 'plug-retainer', text: 'The second clip is bent: straighten it first.' },
  { type: 'noteAdded', text: 'Ask the owner about the heated gloves.' },
  { type: 'photoAdded', photo: sumOf(TAKEN[0]!), step: 'plug-retainer', about: 'How the wire ran' },
  { type: 'photoAdded', photo: sumOf(TAKEN[1]!), step: 'plug-retainer', about: '' },
  { type: 'photoAdded', photo: sumOf(TAKEN[2]!), step: '', about: 'The burnt plug, both halves' },
  { type: 'photoAdded', photo: sumOf(TAKEN[0]!), step: '', about: 'The same again' },
  { type: 'photoAdded', photo: GONE, step: 'cover-off', about: 'Inside the cover' },
  done('stator-compare'),
  record(
    'stator-stage-1',
    'torque',
    { full: '10 N·m', set: '42 lbf·in', threads: 'dry', drag: '' },
    ['all'],
    { torqueNm: 4.745, setNm: 4.745, fullScaleNm: 10, dragNm: 0 },
  ),
  done('stator-stage-1'),
  { type: 'deviationNoted', step: 'retainer-on', what: 'locker', used: 'high', why: 'Nothing else at hand' },
  {
    type: 'deviationNoted',
    step: 'cover-b-stage-2',
    what: 'used-again',
    used: 'the old gasket',
    why: 'The new one was torn',
  },
  { type: 'holdOverridden', step: 'stator-insulation', ask: 'insulation', why: 'The tester is lent out' },
  { type: 'wayTroubled', what: 'seized', of: 'bar-between', minutes: 25, until: null },
  { type: 'noteAdded', text: 'Typed into the wrong job.' },
  (before) => ({ type: 'entryStruck', event: before.at(-1)!.id }),
  { type: 'cupOfTeaDrunk' } as unknown as EventBody,
  { type: 'repairsMade', repairs: ['replace-stator', 'replace-stator-plug'], left: [], noneOfThese: 0.01 },
];

/** The events; `proved` has readings on the repaired bike after them, and what was said. */
export function recordedJob(proved = false): readonly JobEvent[] {
  const events: JobEvent[] = [];
  const write = (body: EventBody): void => {
    events.push(
      writeEvent(
        { job: RECORDED, who: 'the mechanic', device: 'recorded' },
        body,
        events.at(-1)?.id ?? null,
        BEGIN + events.length * 3 * MINUTE,
      ),
    );
  };
  for (const one of TALE) write(typeof one === 'function' ? one(events) : one);
  if (!proved) return events;
  const after = events.at(-1)!.id;
  for (const [key, value] of [
    ['batt_volts lights=low rpm=idle', 13.1],
    ['batt_volts lights=low rpm=3000', 14.32],
    ['batt_volts lights=low rpm=5000', 14.4],
  ] as const)
    write({ type: 'readingTaken', key, value, entered: String(value), over: null, after });
  write({ type: 'proofLooked', after, check: 'leak', ok: true, words: '' });
  write({ type: 'proofLooked', after, check: 'noise', ok: false, words: 'ticks when cold' });
  write({ type: 'proofSaid', after, proven: true, faultLeft: 0.03, sets: [], why: '' });
  return events;
}
