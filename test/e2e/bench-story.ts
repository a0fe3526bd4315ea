/** A job in the middle of the bench: everything off, as found written down, the bead and two lockers on. */
import type { EventBody } from '../../src/job/event.ts';
import { putBodies } from './put-bodies.ts';

export const STORY = 'bench-story';
const MINUTE = 60_000;

/** Everything off, in an order that works. */
export const IN = [
  'raise-alone',
  'cool',
  'gear-lever',
  'footrest-off',
  'exhaust-shield',
  'drain',
  'cover-with-gear-side',
  'clutch-cable-slack',
  'cover-off',
  'bar-between',
  'engine-nut',
  'adjuster-slack',
  'chain-link',
  'sprocket-only',
  'rotor-past-clutch',
  'seat',
  'side-cover',
  'battery-negative',
  'rotor-off',
  'regulator-plugs',
  'stator-screws',
  'grommet',
  'plug-retainer',
  'stator-off',
] as const;

const LENGTHS = [31.75, 31.75, 31.75, 31.75, 38.1, 31.75, 31.75, 31.75, 31.75, 31.75].map((mm) => mm / 1000);

const RECORDS: readonly EventBody[] = [
  {
    type: 'recordMade',
    step: 'cover-with-gear-side',
    ask: 'lengths',
    yes: ['card'],
    figures: { lengthsM: LENGTHS },
    words: { lengths: '1 1/4, 1 1/4, 1 1/4, 1 1/4, 1 1/2, 1 1/4, 1 1/4, 1 1/4, 1 1/4, 1 1/4 in' },
  },
  {
    type: 'recordMade',
    step: 'sprocket-only',
    ask: 'stack-found',
    yes: ['numbered', 'tied'],
    figures: { shimsM: [0.000762, 0.001524] },
    words: { found: '30, 60 thou' },
  },
  {
    type: 'recordMade',
    step: 'plug-retainer',
    ask: 'run',
    yes: ['followed'],
    figures: {},
    words: { found: 'under the tensioner, two clips, a sleeve at the edge of the case' },
  },
  { type: 'noteAdded', step: 'plug-retainer', text: 'The second clip is bent: straighten it first.' },
  { type: 'deviationNoted', step: 'retainer-on', what: 'locker', used: 'high', why: 'nothing else at hand' },
];

/** One hour for all tests of a file: put twice, the story is the same events. */
const NOW = Date.now();

/** Puts the job on the laptop, its last tick a few minutes before `nowMs`, ms since 1970. */
export async function putStory(address: string, nowMs = NOW): Promise<void> {
  const bodies: EventBody[] = [
    { type: 'jobOpened', machine: 'ardmoor-650-pathway', title: 'A stator on an evening', invented: true },
    {
      type: 'wayChosen',
      targets: ['stator'],
      people: 1,
      startsAt: new Date(nowMs - 60 * 3 * MINUTE).toISOString(),
      nights: true,
      aim: 'least',
      leave: [],
      km: null,
    },
    ...IN.map((step): EventBody => ({ type: 'stepDone', step, seen: null })),
    ...RECORDS,
    { type: 'stepDone', step: 'stator-compare', seen: null },
  ];
  await putBodies(address, { job: STORY, who: 'the lead', device: 'benchstory' }, bodies, nowMs);
}

/** Steps to look at, each of another make. */
export const LOOKED_AT = [
  'cover-with-gear-side',
  'stator-in',
  'stator-insulation',
  'stator-stage-1',
  'rotor-wipe',
  'shims-back-c',
  'engine-lock',
  'engine-stage-2',
  'retainer-on',
  'grommet-in',
  'slack-set',
  'shoe-nut',
  'cover-b-stage-2',
  'drain-plug',
  'fill',
  'look-over',
] as const;
