/** A job at the bench for the tests of room `bench`: entries written a minute apart, and the asking of any step. */
import { readFileSync } from 'node:fs';
import type { Asking } from '../../src/bench/ask.ts';
import { fastenerOf } from '../../src/bench/fastener-of.ts';
import { placesOf } from '../../src/bench/place.ts';
import { progressOf } from '../../src/bench/progress.ts';
import { standingOf } from '../../src/bench/standing.ts';
import type { EventBody, JobEvent } from '../../src/job/event.ts';
import { foldJob } from '../../src/job/fold.ts';
import { writeEvent } from '../../src/job/stamp.ts';
import { readMachine } from '../../src/machine/read-machine.ts';

export const START = Date.UTC(2026, 0, 17, 19);
const MINUTE = 60_000;

export function machineOf<T>(id: string, change: (file: T) => void = () => undefined) {
  const json = JSON.parse(readFileSync(`machines/${id}.json`, 'utf8')) as T;
  change(json);
  const read = readMachine(JSON.stringify(json), id);
  if (!read.ok) throw new Error(`the machine file must read: ${JSON.stringify(read)}`);
  return read.machine;
}

export function benchJob(machine = machineOf('ardmoor-650-pathway')) {
  const events: JobEvent[] = [];
  const places = placesOf(machine);
  const nowMs = () => START + events.length * MINUTE;
  const write = (body: EventBody, later = 0): JobEvent => {
    const event = writeEvent(
      { job: 'j', who: '', device: 'bench' },
      body,
      events.at(-1)?.id ?? null,
      nowMs() + later * MINUTE,
    );
    events.push(event);
    return event;
  };
  const asking = (step: string, at = nowMs()): Asking => {
    const place = places.get(step);
    if (!place) throw new Error(`no such step: ${step}`);
    const { bench, way } = foldJob(events);
    const { done } = progressOf(machine, way, at, 2026);
    return {
      machine,
      place,
      fastener: fastenerOf(machine, place, ['alternator']),
      fresh: ['alternator'],
      bench,
      done,
    };
  };
  return {
    machine,
    places,
    events,
    write,
    nowMs,
    asking,
    state: () => foldJob(events),
    done: (...steps: readonly string[]) => {
      for (const step of steps) write({ type: 'stepDone', step, seen: null });
    },
    record: (
      step: string,
      ask: string,
      words: Readonly<Record<string, string>>,
      yes: readonly string[] = [],
      figures = {},
    ) => write({ type: 'recordMade', step, ask, yes, figures, words }),
    progress: (at = nowMs()) => progressOf(machine, foldJob(events).way, at, 2026),
    standing: (step: string, at = nowMs()) =>
      standingOf(
        asking(step, at),
        progressOf(machine, foldJob(events).way, at, 2026),
        places,
        new Set(places.keys()),
        at,
      ),
  };
}
