/** What the papers want to know of the work at the bench, put together once. */
import type { Asking } from '../bench/ask.ts';
import { fastenerOf } from '../bench/fastener-of.ts';
import { placesOf, type StepPlace } from '../bench/place.ts';
import type { JobState } from '../job/fold.ts';
import type { Machine, Part } from '../machine/definition.ts';
import { newParts } from '../machine/new-parts.ts';

export interface JobBench {
  readonly state: JobState;
  /** Null where the machine file is not here. */
  readonly machine: Machine | null;
  readonly places: ReadonlyMap<string, StepPlace>;
  /** When each step was ticked as done, ms since 1970. */
  readonly done: ReadonlyMap<string, number>;
  /** Steps that were ticked or signed, as far as the machine file has them, in the order of the file. */
  readonly touched: readonly StepPlace[];
  /** Words of the records that were made. */
  readonly asked: ReadonlySet<string>;
  /** Parts that the job brings new. */
  readonly fresh: readonly Part[];
  /** True while a move that was made is not put back. */
  readonly open: boolean;
  /** What a step of the file asks; null for a step that it does not have. */
  readonly askingOf: (step: string) => Asking | null;
}

export function benchOf(state: JobState, machine: Machine | null): JobBench {
  const places = machine === null ? new Map<string, StepPlace>() : placesOf(machine);
  const done = new Map(
    state.way.ticks.flatMap(({ step, done: at }) => (at === null ? [] : [[step, Date.parse(at)] as const])),
  );
  const targets = Object.entries(machine?.work?.targets ?? {}).map(([id, { repairs }]) => ({
    id,
    repairs: repairs ?? [],
  }));
  const fresh = newParts(targets, state.way.chosen?.targets ?? []);
  const asked = new Set(state.bench.records.map(({ ask }) => ask));
  const signed = new Set(state.bench.records.map(({ step }) => step));
  return {
    state,
    machine,
    places,
    done,
    touched: [...places.values()].filter(({ id }) => done.has(id) || signed.has(id)),
    asked,
    fresh,
    open: [...places.values()].some(
      ({ id, phase, action }) => phase === 'out' && action !== null && done.has(action.id) && !done.has(id),
    ),
    askingOf: (step) => {
      const place = places.get(step);
      if (!place || machine === null) return null;
      return { machine, place, fastener: fastenerOf(machine, place, fresh), fresh, bench: state.bench, done };
    },
  };
}

/** A step in the machine file's words; its id where the file does not have it. */
export function stepWords(places: ReadonlyMap<string, StepPlace>, step: string): string {
  const place = places.get(step);
  return place?.step?.does ?? place?.action?.entry.does ?? step;
}
