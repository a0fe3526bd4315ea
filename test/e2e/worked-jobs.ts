/**
 * Three worked jobs on the invented Ardmoor, for the tests of the screen and for pictures of it. The figures are those
 * of the circuit with the faults named, rounded as a meter does and a little apart as readings are.
 */
import type { EventBody } from '../../src/job/event.ts';
import { writeEvent } from '../../src/job/stamp.ts';
import type { Value } from '../../src/reading/key.ts';

export interface WorkedJob {
  readonly job: string;
  readonly title: string;
  readonly readings: readonly (readonly [key: string, value: Value])[];
}

/** A stator winding that touches the core partway, and nothing else. */
export const SINGLE: WorkedJob = {
  job: 'worked-single-fault',
  title: 'One fault: a stator that touches its core',
  readings: [
    ['rest_volts', 12.21],
    ['batt_volts lights=low rpm=3000', 13.12],
    ['drop_pos lights=low rpm=3000', 0.16],
    ['drop_neg lights=low rpm=3000', 0.14],
    ['visual what=plug_burnt', false],
    ['stator_ac pair=ab rpm=3000 temp=cold', 50.8],
    ['stator_ac pair=bc rpm=3000 temp=cold', 51.1],
    ['stator_ac pair=ca rpm=3000 temp=cold', 50.9],
    ['ohms_case pin=b temp=cold', 0.6],
    ['alt_amps lights=low rpm=3000', 20.4],
    ['keyoff_mA', 1.4],
  ],
};

/** Burnt pins in the stator plug, and both sides of it dead: a lead on the core, a diode shorted. */
export const BURNT_PLUG: WorkedJob = {
  job: 'worked-burnt-plug',
  title: 'Burnt plug with dead stator and regulator',
  readings: [
    ['rest_volts', 12.2],
    ['batt_volts lights=low rpm=3000', 12.04],
    ['visual what=plug_burnt', true],
    ['stator_ac pair=ab rpm=3000 temp=cold', 51],
    ['stator_ac pair=bc rpm=3000 temp=cold', 50.9],
    ['ohms_case pin=a temp=cold', 0.7],
    ['ohms_case pin=b temp=cold', 0.5],
    ['pin_case_ac loaded=False pin=b rpm=3000 temp=cold', 0],
    ['diode black=pos red=c', 0.48],
    ['diode black=c red=neg', 0],
    ['diode black=neg red=c', 0],
    ['ohms_pair pair=ca through_plug=True', 1.2],
  ],
};

/** The first, with one of its AC readings typed ten times too low. */
export const TYPED_WRONG: WorkedJob = {
  job: 'worked-typed-wrong',
  title: 'A reading typed wrong',
  readings: SINGLE.readings.map(([key, value]) =>
    key.startsWith('stator_ac pair=bc') ? [key, 5.11] : [key, value],
  ),
};

export const WORKED_JOBS: readonly WorkedJob[] = [SINGLE, BURNT_PLUG, TYPED_WRONG];

const OPENED = Date.UTC(2026, 0, 24, 20, 5);

/** Puts a worked job, or readings of one's own on the same bike, on the laptop. */
export async function putJob(address: string, worked: WorkedJob): Promise<void> {
  const bodies: EventBody[] = [
    { type: 'jobOpened', machine: 'ardmoor-650-pathway', title: worked.title, invented: true },
    {
      type: 'complaintHeard',
      words: 'Goes flat on the road, and the starter turns slowly after every stop.',
      symptoms: ['runs_flat_riding', 'weak_battery'],
    },
    { type: 'toolsDeclared', clamp: true, loadTester: false, hydrometer: false, supply: false },
    ...worked.readings.map(
      ([key, value]): EventBody => ({
        type: 'readingTaken',
        key,
        value,
        entered: value === null ? 'OL' : String(value),
      }),
    ),
  ];
  // Two jobs written at the same minute by one device would be one event with two contents.
  const device = worked.job.replace(/[^a-z0-9]/g, '').slice(-16);
  const events: ReturnType<typeof writeEvent>[] = [];
  for (const [minute, body] of bodies.entries())
    events.push(
      writeEvent(
        { job: worked.job, who: 'the mechanic', device },
        body,
        events.at(-1)?.id ?? null,
        OPENED + minute * 150_000,
      ),
    );
  const answer = await fetch(`${address}/api/jobs`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(events),
  });
  if (!answer.ok) throw new Error(`${answer.status} ${await answer.text()}`);
}
