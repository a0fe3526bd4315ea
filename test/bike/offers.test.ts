/** What the jobs of a bike offer for its machine file: measured, told with how it was got, and taken only by a person. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { agree, writeSpan } from '../../src/bike/honest-range.ts';
import { answerTo, type Offer } from '../../src/bike/offer.ts';
import { timesSeen } from '../../src/bike/offer-minutes.ts';
import { offersOf } from '../../src/bike/offers.ts';
import { change, openDraft } from '../../src/draft/draft.ts';
import { takeOffer } from '../../src/draft/take-offer.ts';
import type { EventBody, JobEvent } from '../../src/job/event.ts';
import { foldJob, type JobState } from '../../src/job/fold.ts';
import { writeEvent } from '../../src/job/stamp.ts';
import {
  getAt,
  type Json,
  type JsonObject,
  type Path,
  pathText,
  putAt,
  writeJson,
} from '../../src/machine/json-value.ts';
import { readMachine } from '../../src/machine/read-machine.ts';

const FILE = JSON.parse(readFileSync('machines/ardmoor-650-pathway.json', 'utf8')) as Json;

/** The file as the rooms take it; throws where it does not read. */
function read(file: Json) {
  const answer = readMachine(writeJson(file), 'test.json');
  if (!answer.ok) throw new Error(JSON.stringify(answer.problems));
  return answer.machine;
}
const machine = read(FILE);

type Tale = readonly (readonly [minute: number, body: EventBody])[];
function jobOf(job: string, tale: Tale, day = 17): JobState {
  const events: JobEvent[] = [];
  const opened: EventBody = { type: 'jobOpened', machine: 'ardmoor-650-pathway', title: job, invented: true };
  for (const [minute, body] of [[0, opened] as const, ...tale])
    events.push(
      writeEvent(
        { job, who: '', device: 'bench' },
        body,
        events.at(-1)?.id ?? null,
        Date.UTC(2026, 10, day, 19) + minute * 60_000,
      ),
    );
  return foldJob(events);
}
const done = (step: string): EventBody => ({ type: 'stepDone', step, seen: null });
const at = (offers: readonly Offer[], path: Path): Offer | undefined =>
  offers.find((one) => pathText(one.path) === pathText(path));
const OPEN: Path = ['charging', 'alternator', 'openVolts'];
const OHMS: Path = ['charging', 'alternator', 'pairOhms'];

/** A job whose repaired bike was read; the readings' `after` is the round of repairs. */
function provenJob(
  readings: Readonly<Record<string, number>>,
  proven = true,
  repairs = ['replace-stator'],
): JobState {
  const events: JobEvent[] = [];
  const write = (body: EventBody): JobEvent => {
    const event = writeEvent(
      { job: 'proven', who: '', device: 'bench' },
      body,
      events.at(-1)?.id ?? null,
      Date.UTC(2026, 10, 17, 19) + events.length * 60_000,
    );
    events.push(event);
    return event;
  };
  write({ type: 'jobOpened', machine: 'ardmoor-650-pathway', title: 'proven', invented: true });
  const made = write({ type: 'repairsMade', repairs, left: [], noneOfThese: 0 });
  for (const [key, value] of Object.entries(readings))
    write({ type: 'readingTaken', key, value, entered: String(value), over: null, after: made.id });
  write({ type: 'proofSaid', after: made.id, proven, faultLeft: 0.01, sets: [], why: '' });
  return foldJob(events);
}

/** Every offer taken; the file that comes of it. */
function takeAll(file: Json, offers: readonly Offer[]): Json {
  return offers.reduce((draft, one) => change(draft, takeOffer(draft.value, one)), openDraft(file)).value;
}

describe('honest ranges', () => {
  it('are rounded outwards and never claim more than was measured', () => {
    expect(writeSpan({ low: 15.83, high: 17.77 }, 'V AC')).toBe('15.8–17.8 V AC');
    expect(writeSpan({ low: 0.1877, high: 0.2123 }, 'Ω')).toBe('0.18–0.22 Ω');
    expect(writeSpan({ low: 14.21, high: 14.59 }, 'V')).toBe('14.2–14.6 V');
  });
  it('agree where the middle of one lies in the other', () => {
    expect(agree({ low: 1, high: 3 }, { low: 1.9, high: 9 })).toBe(true);
    expect(agree({ low: 1, high: 3 }, { low: 2.1, high: 9 })).toBe(false);
  });
});

describe('readings of a sound bike', () => {
  const readings = {
    'stator_ac pair=ab rpm=1000 temp=cold': 16.8,
    'stator_ac pair=bc rpm=1000 temp=cold': 16.9,
    'mv_pair pair=ab through_plug=False': 205,
    'batt_volts acc=False charged=True lights=low rpm=5000 temp=cold wiggle=False': 14.42,
    keyoff_mA: 1.3,
    'drop_breaker acc=False charged=False lights=low rpm=3000 temp=cold wiggle=False': 0.062,
    'alt_amps acc=False charged=False lights=low rpm=3000 temp=cold wiggle=False': 18.2,
  };
  const offers = offersOf([provenJob(readings)], machine, FILE);

  it('become ranges about what was read, with engine speed and source', () => {
    const open = at(offers, OPEN)!;
    expect(open.is).toEqual({ is: expect.stringMatching(/V AC$/), at: '1000 rpm' });
    expect(open.was).toBe('17.0 V AC ± 10 % at 1000 rpm (Ardmoor 650 Pathway, workshop book (invented))');
    expect(open.why).toContain('16.8, 16.9 V AC');
    expect(open.date).toBe('2026-11-17');
    const [low, high] = String(open.is!.is).split('–').map(Number.parseFloat) as [number, number];
    expect(low).toBeLessThan(16.8 - 0.5);
    expect(high).toBeGreaterThan(16.9 + 0.5);
    expect(high - low).toBeLessThan(4);
  });
  it('tell the winding by the mV way, the set point, the drain and a joint', () => {
    expect(at(offers, OHMS)!.is!.is).toBe('0.196–0.214 Ω');
    expect(String(at(offers, ['charging', 'regulator', 'chargeVolts'])!.is!.is)).toMatch(/^14\.1–14\.7 V$/);
    expect(Number.parseFloat(String(at(offers, ['charging', 'restDrain'])!.is!.is))).toBeGreaterThan(1.3);
    const joint = at(offers, ['charging', 'wiring', 'output', 'joints', 1, 'ohms'])!;
    const [low, high] = String(joint.is!.is).split('–').map(Number.parseFloat) as [number, number];
    // 62 mV over 18.2 A: 3.4 mΩ.
    expect(low).toBeLessThan(3.4);
    expect(high).toBeGreaterThan(3.4);
    expect(joint.was).toBe('2 mΩ (Guess)');
  });
  it('come from proven jobs alone', () => {
    expect(offersOf([provenJob(readings, false)], machine, FILE)).toEqual([]);
  });
  it('taken, they stand beside the book and in a guess’s place; the file reads, and nothing is offered again', () => {
    const file = takeAll(FILE, offers);
    const open = getAt(file, OPEN) as JsonObject;
    expect(open.is).toBe('17.0 V AC ± 10 %');
    expect(open.also).toEqual([{ ...at(offers, OPEN)!.is, from: 'bench-2026-11', date: '2026-11-17' }]);
    const joint = getAt(file, ['charging', 'wiring', 'output', 'joints', 1, 'ohms']) as JsonObject;
    expect(joint.from).toBe('bench-2026-11');
    expect(joint.also).toBeUndefined();
    expect(getAt(file, ['sources', 'bench-2026-11'])).toEqual({
      kind: 'measured',
      title: 'Measured at the bench, 2026-11',
      date: '2026-11',
    });
    const again = offersOf([provenJob(readings)], read(file), file);
    expect(again.map(({ path }) => pathText(path))).toEqual(
      offers
        .filter(({ kind }) => kind !== 'reading' && kind !== 'part-fitted')
        .map(({ path }) => pathText(path)),
    );
  });
  it('a high winding is told by the ohms range too, a low one is not', () => {
    const low = provenJob({ 'ohms_pair pair=ab through_plug=False': 0.5 });
    expect(at(offersOf([low], machine, FILE), OHMS)).toBeUndefined();
    const high = provenJob({ 'ohms_pair pair=ab through_plug=False': 2.3 });
    expect(at(offersOf([high], machine, FILE), OHMS)).toBeDefined();
  });
  it('loads come of the amps out of the regulator less those into the battery', () => {
    const states = { on: 'acc=True', off: 'acc=False' };
    const rest = 'charged=False lights=low rpm=5000 temp=cold wiggle=False';
    const offered = offersOf(
      [
        provenJob({
          [`alt_amps ${states.on} ${rest}`]: 21.2,
          [`batt_amps ${states.on} ${rest}`]: 2.1,
          [`batt_volts ${states.on} ${rest}`]: 14.3,
          [`alt_amps ${states.off} ${rest}`]: 12.4,
          [`batt_amps ${states.off} ${rest}`]: 2.6,
          [`batt_volts ${states.off} ${rest}`]: 14.4,
        }),
      ],
      machine,
      putAt(FILE, ['charging', 'loads', 'accessories'], { is: '4 A', from: 'guess' })!,
    );
    const load = at(offered, ['charging', 'loads', 'accessories'])!;
    const [low, high] = String(load.is!.is).split('–').map(Number.parseFloat) as [number, number];
    // (19.1 at 14.3 V) − (9.8 at 14.4 V), each brought to 13.5 V: 8.84 A.
    expect((low + high) / 2).toBeCloseTo(8.84, 0);
  });
});

describe('a sheet of a part that was fitted', () => {
  it('is offered as fitted once the job is proven, and then no more', () => {
    const job = provenJob({});
    const offers = offersOf([job], machine, FILE);
    const fitted = at(offers, ['sources', 'stator-sheet', 'fitted'])!;
    expect(fitted.puts).toEqual([{ path: ['sources', 'stator-sheet', 'fitted'], is: true }]);
    expect(at(offers, ['sources', 'regulator-sheet', 'fitted'])).toBeUndefined();
    const file = takeAll(FILE, offers);
    expect(offersOf([job], read(file), file)).toEqual([]);
  });
  it('a second new part takes the place of the first, which does not come again', () => {
    const first = putAt(FILE, ['sources', 'stator-sheet', 'fitted'], true)!;
    const second = putAt(first, ['sources', 'stator-2'], {
      kind: 'part-sheet',
      title: 'Second (invented)',
      for: 'alternator',
      fitted: false,
    })!;
    const offers = offersOf([provenJob({})], read(second), second);
    expect(offers.map(({ says }) => says)).toEqual(['“Second (invented)” is of the part on the bike']);
    const file = takeAll(second, offers);
    expect(getAt(file, ['sources', 'stator-sheet', 'fitted'])).toBe(false);
    expect(offersOf([provenJob({})], read(file), file)).toEqual([]);
  });
});

describe('minutes', () => {
  const timed = (job: string, minutes: number) =>
    jobOf(job, [
      [0, done('raise')],
      [minutes, done('gear-lever')],
    ]);
  const path: Path = ['work', 'actions', 'gear-lever'];

  it('are told with how often they were seen, and offered only where they differ', () => {
    const once = at(offersOf([timed('a', 14)], machine, FILE), path)!;
    expect(once.why).toContain('once only');
    const thrice = at(offersOf([timed('a', 14), timed('b', 15), timed('c', 13)], machine, FILE), path)!;
    expect(thrice.why).toBe('Timed by the ticks 3 times: 14, 15, 13 min.');
    expect(thrice.puts.map(({ is }) => is)).toEqual([thrice.says.split(',')[0], '14 min']);
    expect(at(offersOf([timed('a', 5)], machine, FILE), path)).toBeUndefined();
  });
  it('taken, they are not offered again by the same jobs', () => {
    const jobs = [timed('a', 14), timed('b', 22)];
    const file = takeAll(FILE, offersOf(jobs, machine, FILE));
    expect(getAt(file, [...path, 'likely'])).toBe('18 min');
    expect(offersOf(jobs, read(file), file)).toEqual([]);
  });
  it('taken, a longer gap is not offered next; taken back out of the file, they are offered again', () => {
    // 62 min is a pause by the file's own 3–8 min, and no pause by the range that 27 min made of it.
    const jobs = [timed('a', 27), timed('b', 62)];
    const offer = at(offersOf(jobs, machine, FILE), path)!;
    const file = takeAll(FILE, [offer]);
    expect(at(offersOf(jobs, read(file), file), path)!.why).toContain('twice');
    const told = [...jobs, jobOf('later', [[9000, answerTo(offer, true)]])];
    expect(at(offersOf(told, read(file), file), path)).toBeUndefined();
    expect(at(offersOf(told, machine, FILE), path)!.id).toBe(offer.id);
    const news = [
      ...told,
      jobOf(
        'news',
        [
          [0, done('raise')],
          [40, done('gear-lever')],
        ],
        29,
      ),
    ];
    expect(at(offersOf(news, read(file), file), path)).toBeDefined();
  });
  it('the likely one is the mean of the logs, and the range holds all that was seen', () => {
    const { low, likely, high } = timesSeen([4, 9]);
    expect(likely).toBeCloseTo(6, 9);
    expect(low).toBeLessThanOrEqual(4);
    expect(high).toBeGreaterThanOrEqual(9);
  });
});

describe('the order of the work', () => {
  const without: Tale = [
    [0, done('raise')],
    [9, done('drain')],
    [12, done('clutch-cable-slack')],
    [20, done('cover-off')],
    [30, done('train-off')],
  ];
  it('gone without once it may be a tick forgotten: nothing is offered', () => {
    expect(offersOf([jobOf('a', without)], machine, FILE).filter(({ kind }) => kind === 'order')).toEqual([]);
  });
  it('only where a part’s coming off gives it; the battery, the cold and the lift stay', () => {
    const kinds = offersOf([jobOf('a', without), jobOf('b', without, 18)], machine, FILE);
    const needs = kinds.filter(({ kind }) => kind === 'order').map(({ says }) => says);
    expect(needs).not.toContain('without “engine cold”');
    expect(needs.every((one) => !one.includes('drained'))).toBe(true);
    const rotor: Tale = [
      [0, done('rotor-past-clutch')],
      [9, done('rotor-off')],
    ];
    const offers = offersOf([jobOf('a', rotor), jobOf('b', rotor, 18)], machine, FILE);
    const order = offers.find(({ kind }) => kind === 'order')!;
    expect(order.says).toBe('without “engine-sprocket off”');
    expect(order.why).toContain('twice');
    const file = takeAll(FILE, [order]);
    expect(getAt(file, ['work', 'actions', 'rotor-past-clutch', 'needs'])).toBeUndefined();
    expect(
      offersOf([jobOf('a', rotor), jobOf('b', rotor, 18)], read(file), file).filter(
        ({ kind }) => kind === 'order',
      ),
    ).toEqual([]);
  });
});

describe('records of the bench', () => {
  const record = (
    step: string,
    ask: string,
    figures: Readonly<Record<string, number | readonly number[]>>,
    words: Readonly<Record<string, string>> = {},
  ): EventBody => ({ type: 'recordMade', step, ask, yes: [], figures, words });
  const job = jobOf('a', [
    [
      1,
      record('cover-bolts', 'lengths', {
        lengthsM: [0.03, 0.03, 0.035, 0.03, 0.03, 0.03, 0.03, 0.03, 0.03, 0.03],
      }),
    ],
    [2, record('train-off', 'stack-found', { shimsM: [0.000762, 0.001524] })],
    [3, record('shoe-nut', 'slack-again', { slackM: 0.019 })],
    [4, record('fill', 'fill', { volumeM3: 0.00122 }, { volume: '1.22 l', level: 'right' })],
  ]);
  const offers = offersOf([job], machine, FILE);

  it('offer lengths by hole, the stack, the slack and the volume, each with how it was got', () => {
    expect(at(offers, ['fasteners', 'cover-screws', 'note'])!.says).toContain(
      'hole 1 to 10: 30 mm, 30 mm, 35 mm',
    );
    expect(at(offers, ['shims', 'engine-sprocket', 'stack'])!.is!.is).toBe('2.25–2.32 mm');
    expect(at(offers, ['chains', 'primary', 'slack'])!.is!.is).toBe('18.5–19.5 mm');
    expect(at(offers, ['fluids', 'primary-oil', 'dry'])!.is!.is).toBe('1.15–1.29 l');
  });
  it('one length for all holes is a figure, as it was typed', () => {
    const one = jobOf('b', [
      [
        1,
        record(
          'cover-bolts',
          'lengths',
          { lengthsM: Array.from({ length: 10 }, () => 0.038) },
          { lengths: '38 mm' },
        ),
      ],
    ]);
    const offer = offersOf([one], machine, FILE).find(({ kind }) => kind === 'length')!;
    expect(offer.is).toEqual({ is: '38 mm' });
    expect(offer.was).toContain('1 1/4 in');
  });
  it('taken, the file reads and they are not offered again', () => {
    const file = takeAll(FILE, offers);
    const left = offersOf([job], read(file), file).filter(({ kind }) => kind !== 'minutes');
    expect(left).toEqual([]);
  });
  it('turned down, they do not come again, until the bench says something else', () => {
    const offer = at(offers, ['chains', 'primary', 'slack'])!;
    const down = jobOf('d', [[1, answerTo(offer, false)]], 20);
    expect(at(offersOf([job, down], machine, FILE), offer.path)).toBeUndefined();
    const other = jobOf('e', [[1, record('shoe-nut', 'slack-again', { slackM: 0.024 })]], 21);
    expect(at(offersOf([job, down, other], machine, FILE), offer.path)!.is!.is).toBe('23.5–24.5 mm');
  });
});
