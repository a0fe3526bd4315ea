/**
 * Three devices that write apart, with clocks up to an hour off, and hear of each other in pieces, late, out of order and
 * more than once: do all come to one state, with nothing lost? Rules 8 and 13 to 16 of src/log/SPEC.md.
 */
import type { EventBody, JobEvent } from '../../src/job/event.ts';
import { foldJob } from '../../src/job/fold.ts';
import { canonical, writeEvent } from '../../src/job/stamp.ts';
import { mergeEvents } from '../../src/log/merge.ts';
import { openStream, type Stream } from '../../src/numbers/random.ts';

const HOUR_MS = 3_600_000;
const START = Date.UTC(2026, 2, 1, 20, 0);
const STEPS = ['seat', 'cool', 'battery-negative', 'cover-off'];

export interface PartitionCount {
  readonly runs: number;
  readonly events: number;
  /** Deliveries, those that came twice or more among them. */
  readonly deliveries: number;
  /** Runs after which the three did not hold the same, or not everything that was written. */
  readonly apart: number;
  readonly lost: number;
}

function bodyOf(random: Stream, own: readonly JobEvent[]): EventBody {
  const kind = Math.floor(7 * random());
  const state = foldJob(own);
  const step = STEPS[Math.floor(STEPS.length * random())]!;
  switch (kind) {
    case 0:
      return { type: 'noteAdded', text: `note ${Math.floor(1e6 * random())}` };
    case 1:
      return { type: 'stepDone', step, seen: state.way.undone.get(step) ?? null };
    case 2:
      return { type: 'stepUndone', step };
    case 3: {
      const [reading] = state.readings;
      return reading
        ? { type: 'readingPicked', event: reading.event }
        : { type: 'noteAdded', text: 'nothing yet' };
    }
    case 4: {
      const [reading] = state.readings;
      return reading
        ? { type: 'readingWithdrawn', event: reading.event, why: 'slip' }
        : { type: 'stockNoted', supply: 'gasket', here: random() < 0.5 };
    }
    default: {
      const value = Math.round(1100 + 400 * random()) / 100;
      const over = state.readings[0]?.event ?? null;
      return { type: 'readingTaken', key: 'rest_volts', value, entered: String(value), over };
    }
  }
}

function run(seed: number): Omit<PartitionCount, 'runs'> {
  const random = openStream(seed);
  const names = ['laptop', 'tablet', 'phone'];
  const off = names.map(() => (2 * random() - 1) * HOUR_MS);
  const logs: (readonly JobEvent[])[] = names.map(() => []);
  const written: JobEvent[] = [];
  let now = START;
  let deliveries = 0;
  const write = (who: number, body: EventBody): void => {
    const own = logs[who]!;
    const last = own.reduce<string | null>((most, { id }) => (most === null || id > most ? id : most), null);
    const device = names[who]!;
    const event = writeEvent({ job: 'j1', who: device, device }, body, last, now + off[who]!);
    logs[who] = mergeEvents(own, [event]).events;
    written.push(event);
  };
  const deliver = (from: number, to: number, share: number): void => {
    // A piece of the other's log, shuffled, some of it twice.
    const piece = logs[from]!.filter(() => random() < share);
    const twice = piece.filter(() => random() < 0.25);
    const sent = [...piece, ...twice].map((event) => ({ event, at: random() })).sort((a, b) => a.at - b.at);
    deliveries += sent.length;
    logs[to] = mergeEvents(
      logs[to]!,
      sent.map(({ event }) => event),
    ).events;
  };
  write(0, { type: 'jobOpened', machine: 'm1', title: 'Fades', invented: true });
  const acts = 10 + Math.floor(50 * random());
  for (let n = 0; n < acts; n++) {
    now += Math.floor(120_000 * random());
    const who = Math.floor(3 * random());
    if (random() < 0.75) write(who, bodyOf(random, logs[who]!));
    else deliver(who, Math.floor(3 * random()), random());
  }
  for (let round = 0; round < 2; round++)
    for (const a of [0, 1, 2]) for (const b of [0, 1, 2]) deliver(a, b, 1);
  const texts = logs.map((log) => log.map(canonical).join('\n'));
  const states = logs.map((log) => JSON.stringify(foldJob(log)));
  const held = new Set(logs[0]!.map(({ id }) => id));
  const lost = written.filter(({ id }) => !held.has(id)).length;
  const apart = texts.some((text) => text !== texts[0]) || states.some((state) => state !== states[0]);
  return { events: written.length, deliveries, apart: apart || lost > 0 ? 1 : 0, lost };
}

/** Many runs, each from a seed of its own. */
export function partitions(runs: number, seed: number): PartitionCount {
  const sum = { runs, events: 0, deliveries: 0, apart: 0, lost: 0 };
  for (let n = 0; n < runs; n++) {
    const one = run(seed * 100_003 + n);
    sum.events += one.events;
    sum.deliveries += one.deliveries;
    sum.apart += one.apart;
    sum.lost += one.lost;
  }
  return sum;
}
