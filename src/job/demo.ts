/**
 * The demo job: every bike, person and figure in it is invented, and it says so wherever it is shown.
 *
 * The truth behind the figures, which the job itself does not know: pin a of the stator plug is burnt to 0.5 Ω and the
 * battery, two fifths charged, is only the victim. The figures are those of the circuit with that fault, rounded as a
 * meter does: the open-circuit volts look sound and 3000 rpm hides it, as a burnt pin does.
 */
import type { Envelope, EventBody, JobEvent } from './event.ts';
import { writeEvent } from './stamp.ts';

export const DEMO_JOB = 'demo-ferry-run';

const OPENED = Date.UTC(2026, 0, 17, 19, 40);
const WRITER: Pick<Envelope, 'job' | 'who' | 'device'> = {
  job: DEMO_JOB,
  who: 'the mechanic',
  device: 'demo',
};

/** Minutes after the opening, and what happened. */
const STORY: readonly (readonly [number, EventBody])[] = [
  [
    0,
    {
      type: 'jobOpened',
      machine: 'ardmoor-650-pathway',
      title: 'Ardmoor 650 Pathway, fades on the ferry run',
      invented: true,
    },
  ],
  [
    3,
    {
      type: 'complaintHeard',
      words:
        'Fine all summer. On the winter run to the early ferry, with the heated gloves plugged in and the low beam on, the headlight fades after half an hour, and after the crossing it hardly cranks. Left on the charger overnight it starts like new and does the same again.',
      symptoms: ['runs_flat_riding', 'weak_battery', 'headlight_dims_idle'],
    },
  ],
  [6, { type: 'toolsDeclared', clamp: true, loadTester: false, hydrometer: false, supply: false }],
  [8, { type: 'readingTaken', key: 'rest_volts', value: 12.18, entered: '12.18 V' }],
  [14, { type: 'readingTaken', key: 'batt_volts lights=low rpm=3000', value: 13.91, entered: '13.91' }],
  [19, { type: 'readingTaken', key: 'batt_volts lights=low rpm=idle', value: 12.31, entered: '12.31 V' }],
  [
    20,
    {
      type: 'noteAdded',
      text: 'Gloves plugged in and warm for these two. Owner holds the throttle; there is a tachometer, so 3000 is 3000.',
    },
  ],
  [30, { type: 'readingTaken', key: 'stator_ac pair=ab rpm=3000 temp=cold', value: 50.6, entered: '50,6' }],
  [33, { type: 'readingTaken', key: 'stator_ac pair=bc rpm=3000 temp=cold', value: 50.3, entered: '50,3' }],
  [36, { type: 'readingTaken', key: 'stator_ac pair=ca rpm=3000 temp=cold', value: 50.8, entered: '50,8' }],
];

/** The demo job's events, the same at every call. */
export function demoJob(): readonly JobEvent[] {
  const events: JobEvent[] = [];
  for (const [minute, body] of STORY) {
    events.push(writeEvent(WRITER, body, events.at(-1)?.id ?? null, OPENED + minute * 60_000));
  }
  return events;
}
