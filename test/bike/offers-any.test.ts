/** Whatever stands in the logs of a bike: the offers never throw, and the file with all of them taken reads, and offers no more. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { placesOf } from '../../src/bench/place.ts';
import { answerTo } from '../../src/bike/offer.ts';
import { offersOf } from '../../src/bike/offers.ts';
import { change, openDraft } from '../../src/draft/draft.ts';
import { takeOffer } from '../../src/draft/take-offer.ts';
import type { EventBody, JobEvent } from '../../src/job/event.ts';
import { foldJob } from '../../src/job/fold.ts';
import { writeEvent } from '../../src/job/stamp.ts';
import { type Json, writeJson } from '../../src/machine/json-value.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { openStream } from '../../src/numbers/random.ts';
import { KINDS } from '../../src/reading/catalogue.ts';
import { SHIPPED } from '../machine/shipped.ts';

const FILES = SHIPPED.map((id) => JSON.parse(readFileSync(`machines/${id}.json`, 'utf8')) as Json);
function read(file: Json) {
  const answer = readMachine(writeJson(file), 'test.json');
  if (!answer.ok) throw new Error(JSON.stringify(answer.problems.slice(0, 2)));
  return answer.machine;
}

/** A job with anything in it; values from nothing to absurd. */
function anyJob(name: string, seed: number, machine: ReturnType<typeof read>): readonly JobEvent[] {
  const stream = openStream(seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(stream() * list.length)]!;
  const size = () => 10 ** (stream() * 8 - 5) * (stream() < 0.05 ? -1 : 1);
  const events: JobEvent[] = [];
  let now = Date.UTC(2026, 10, 1 + (seed % 28), 18);
  const write = (body: EventBody): JobEvent => {
    now += Math.floor(stream() ** 3 * 7_200_000);
    const event = writeEvent({ job: name, who: '', device: 'bench' }, body, events.at(-1)?.id ?? null, now);
    events.push(event);
    return event;
  };
  write({ type: 'jobOpened', machine: 'any', title: name, invented: true });
  const places = [...placesOf(machine).values()];
  for (let n = 0; n < 40; n++) write({ type: 'stepDone', step: pick(places).id, seen: null });
  const asks = ['lengths', 'stack-found', 'slack', 'slack-again', 'fill'];
  for (let n = 0; n < 60; n++) {
    const [value, row] = [
      size() / 1000,
      Array.from({ length: 1 + Math.floor(stream() * 9) }, () => size() / 1000),
    ];
    write({
      type: 'recordMade',
      step: pick(places).id,
      ask: pick(asks),
      yes: [],
      figures: pick([
        {},
        { slackM: value, volumeM3: value },
        { lengthsM: row, shimsM: row, slackM: row, leastM: value },
      ]),
      words: pick([{}, { level: 'right', lengths: '30 mm' }, { level: 'right', lengths: 'no length' }]),
    });
  }
  const made = write({
    type: 'repairsMade',
    repairs: [pick(['replace-stator', 'replace-regulator', 'other'])],
    left: [],
    noneOfThese: 0,
  });
  for (let n = 0; n < 120; n++) {
    const kind = pick(Object.values(KINDS).filter(({ unit }) => unit !== 'seen'));
    const state = Object.entries(kind.states)
      .map(([word, words]) => `${word}=${pick(words)}`)
      .sort();
    write({
      type: 'readingTaken',
      key: [kind.id, ...state].join(' '),
      value: size(),
      entered: '',
      over: null,
      after: made.id,
    });
  }
  write({ type: 'proofSaid', after: made.id, proven: stream() < 0.9, faultLeft: 0, sets: [], why: '' });
  return events;
}

it('a dozen bikes with three jobs each', () => {
  let offered = 0;
  for (let seed = 0; seed < 12; seed++) {
    const file = FILES[seed % FILES.length]!;
    const machine = read(file);
    const logs = [0, 1, 2].map((n) => anyJob(`j${n}`, 100 * seed + n, machine));
    const jobs = logs.map(foldJob);
    const offers = offersOf(jobs, machine, file);
    offered += offers.length;
    expect(new Set(offers.map(({ id }) => id)).size).toBe(offers.length);
    for (const { id, label, says, why, date } of offers) {
      expect(id.length).toBeLessThanOrEqual(400);
      expect(
        [label, says, why].every((words) => words !== '' && !/undefined|NaN|null/.test(words)),
        says,
      ).toBe(true);
      expect(date).toMatch(/^2026-1[12]-\d\d$/);
    }
    const taken = offers.reduce((draft, one) => {
      const puts = takeOffer(draft.value, one);
      const next = change(draft, puts);
      const shape = readMachine(writeJson(next.value), 'taken.json');
      // A figure may contradict others, which is for a person to see; it must always be one that can be read.
      if (!shape.ok) {
        const path = JSON.stringify(one.path);
        const bad = shape.problems.filter(
          ({ path: at }) =>
            !at.startsWith('$.charging') ||
            /cannot be read|lies outside/.test(JSON.stringify(shape.problems)),
        );
        expect(
          bad.map(({ path: at, what }) => `${path}: ${at} ${what}`),
          `seed ${seed}: ${one.says}`,
        ).toEqual([]);
        return draft;
      }
      return next;
    }, openDraft(file));
    const told = logs.map((log) => {
      const answers = offers
        .filter(({ job }) => job === log[0]!.job)
        .map((one, n) =>
          writeEvent(
            { job: one.job, who: '', device: 'later' },
            answerTo(one, true),
            log.at(-1)!.id,
            Date.UTC(2026, 11, 31) + n,
          ),
        );
      return foldJob([...log, ...answers]);
    });
    const again = offersOf(told, read(taken.value), taken.value);
    const known = new Set(offers.map(({ id }) => id));
    expect(
      again.filter(({ id, kind }) => !known.has(id) && kind !== 'order').map(({ id }) => id),
      `seed ${seed}`,
    ).toEqual([]);
  }
  expect(offered).toBeGreaterThan(100);
}, 240_000);
