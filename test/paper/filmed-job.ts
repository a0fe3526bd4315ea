/** A filmed job for the tests of the papers: everything in it that is the owner's carries words that nothing else has. */
import { readFileSync } from 'node:fs';
import type { EventBody, JobEvent } from '../../src/job/event.ts';
import { writeEvent } from '../../src/job/stamp.ts';
import { IN } from '../e2e/bench-story.ts';
import { picture, sumOf } from '../job/pictures.ts';

/** 2026-01-17, half past seven in the evening, UTC. */
export const BEGIN = Date.UTC(2026, 0, 17, 19, 30);
export const MINUTE = 60_000;
export const MACHINE = 'ardmoor-650-pathway';
export const machineText = (): string => readFileSync(`machines/${MACHINE}.json`, 'utf8');

/** Words that may be in no output unless they were ticked, by what lets them in. */
export const OWNERS = {
  owner: ['Quillfeather', 'Zebulonia', 'Xanthippia'],
  notes: ['Wobblethorpe', 'Mugglespring', 'Crumpetshaw'],
  /** What a photograph shows was typed: it wants both ticks. */
  shots: ['Frobisherly'],
} as const;
/** Words that may be in none at all: the ids of the job and of the device. */
export const NEVER = ['zebulonias-bike', 'vexillaphone'] as const;

export const SHOTS = [picture(11), picture(12), picture(13)];
const MISSING = sumOf(picture(99));

/** What comes off in the first clip, and after the second began. */
const FIRST = IN.slice(0, 15);
const mark = (what: 'start' | 'stop' | 'clap', number: number, step = ''): EventBody => ({
  type: 'clipMarked',
  what,
  number,
  step,
});
const done = (step: string): EventBody => ({ type: 'stepDone', step, seen: null });

/** Seconds after the beginning, and what happened. */
const TALE: readonly (readonly [number, EventBody])[] = [
  [
    0,
    {
      type: 'jobOpened',
      machine: MACHINE,
      title: 'Zebulonia’s bike, fades; again, at the ferry',
      invented: true,
    },
  ],
  [
    60,
    {
      type: 'complaintHeard',
      words: 'Quillfeather says it fades on the run to Xanthippia’s.',
      symptoms: ['runs_flat_riding'],
    },
  ],
  [
    120,
    {
      type: 'verdictAccepted',
      repairs: [{ repair: 'replace-stator', probability: 0.8, worthDoing: true }],
      sets: [
        { faults: ['stator-core-midway'], probability: 0.7 },
        { faults: ['plug-pin'], probability: 0.2 },
      ],
      noneOfThese: 0.02,
    },
  ],
  [
    180,
    {
      type: 'wayChosen',
      targets: ['stator'],
      people: 1,
      startsAt: new Date(BEGIN + 300_000).toISOString(),
      nights: true,
      aim: 'least',
      leave: [],
      km: null,
    },
  ],
  [300, mark('start', 1, 'raise-alone')],
  [312, mark('clap', 1, 'raise-alone')],
  ...FIRST.map((step, n): readonly [number, EventBody] => [600 + n * 240, done(step)]),
  [4100, mark('stop', 1, 'seat')],
  [4200, { type: 'noteAdded', text: 'Wobblethorpe held the bar.', step: 'chain-link' }],
  [4210, { type: 'noteAdded', text: 'Mugglespring tea after this.' }],
  [
    4220,
    {
      type: 'photoAdded',
      photo: sumOf(SHOTS[0]!),
      step: 'cover-off',
      about: 'Frobisherly points at the stator',
    },
  ],
  [4230, { type: 'photoAdded', photo: sumOf(SHOTS[1]!), step: '', about: '' }],
  [4240, { type: 'photoAdded', photo: MISSING, step: 'cover-off', about: 'gone' }],
  [
    4250,
    {
      type: 'deviationNoted',
      step: 'cover-b-stage-2',
      what: 'used-again',
      used: 'the old gasket, Wobblethorpe cleaned it',
      why: 'Mugglespring had none',
    },
  ],
  [4260, { type: 'deviationNoted', step: 'retainer-on', what: 'locker', used: 'high', why: 'Crumpetshaw’s' }],
  [5000, mark('start', 2, 'seat')],
  [5003, done('seat')],
  [5006, done('side-cover')],
  [5100, done('battery-negative')],
  [5160, mark('clap', 2, 'rotor-off')],
  [5400, done('rotor-off')],
];

export const STEPS_LATER = IN.slice(19);

/** The events; `more` are steps ticked afterwards, a minute apart. */
export function filmedJob(more: readonly string[] = STEPS_LATER): readonly JobEvent[] {
  const events: JobEvent[] = [];
  const write = (second: number, body: EventBody) =>
    events.push(
      writeEvent(
        { job: 'zebulonias-bike', who: 'Xanthippia', device: 'vexillaphone' },
        body,
        events.at(-1)?.id ?? null,
        BEGIN + second * 1000,
      ),
    );
  for (const [second, body] of TALE) write(second, body);
  for (const [n, step] of more.entries()) write(5460 + 60 * n, done(step));
  return events;
}
