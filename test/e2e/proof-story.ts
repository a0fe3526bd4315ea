/** A job whose stator and plug were dead and are renewed: everything back on, nothing read since. All invented. */
import type { EventBody } from '../../src/job/event.ts';
import { putBodies } from './put-bodies.ts';

export const PROOF_STORY = 'proof-story';

const BEFORE: readonly (readonly [key: string, value: number | null | boolean])[] = [
  ['rest_volts charged=True', 12.71],
  ['batt_volts charged=True lights=low rpm=3000', 12.62],
  ['batt_volts charged=True lights=low rpm=idle', 12.31],
  ['batt_volts charged=True lights=low rpm=5000', 12.7],
  ['pin_case_ac pin=a rpm=3000', 11.4],
  ['visual what=plug_burnt', true],
];

/** Steps of the way back that the looks hang on, and the bottom's own. */
const DONE = ['stator-off', 'stator-in', 'slack-set', 'shoe-nut', 'cover-gasket', 'cover-on', 'fill'];

/** What was entered, in order. */
export const PROOF_TALE: readonly EventBody[] = [
  { type: 'jobOpened', machine: 'ardmoor-650-pathway', title: 'A stator and its plug', invented: true },
  { type: 'complaintHeard', words: 'It runs flat on the road.', symptoms: ['runs_flat_riding'] },
  ...BEFORE.map(
    ([key, value]): EventBody => ({ type: 'readingTaken', key, value, entered: String(value), over: null }),
  ),
  {
    type: 'verdictAccepted',
    repairs: [
      { repair: 'replace-stator', probability: 0.97, worthDoing: true, whileOpen: false },
      { repair: 'replace-stator-plug', probability: 0.93, worthDoing: true, whileOpen: false },
      { repair: 'replace-battery', probability: 0.02, worthDoing: false, whileOpen: false },
    ],
    sets: [
      { faults: ['plug-pins', 'stator-core-midway'], probability: 0.9 },
      { faults: ['stator-core-midway'], probability: 0.05 },
      { faults: ['battery-worn', 'plug-pins', 'stator-core-midway'], probability: 0.02 },
    ],
    noneOfThese: 0.01,
  },
  {
    type: 'wayChosen',
    targets: ['stator'],
    people: 1,
    startsAt: '2026-01-17T17:00:00.000Z',
    nights: true,
    aim: 'least',
    leave: [],
    km: 41_000,
  },
  ...DONE.map((step): EventBody => ({ type: 'stepDone', step, seen: null })),
];

/** One hour for all tests of a file: put twice, the story is the same events. */
const NOW = Date.now();

export async function putProofStory(address: string, job = PROOF_STORY): Promise<void> {
  await putBodies(address, { job, who: 'the demo', device: job.replaceAll('-', '') }, PROOF_TALE, NOW);
}
