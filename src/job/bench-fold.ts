/** What the job's events say of the work at the bench: records, overrides, deviations, photographs, clips. */
import type { DeviationKind, EventOf, JobEvent } from './event.ts';

interface Written {
  /** Id of the event. */
  readonly event: string;
  readonly at: string;
  readonly who: string;
  readonly device: string;
}

/** A record of a step, see `RecordMade`. */
export interface BenchRecord extends Written {
  readonly step: string;
  readonly ask: string;
  readonly yes: readonly string[];
  readonly figures: Readonly<Record<string, number | readonly number[]>>;
  readonly words: Readonly<Record<string, string>>;
}

export interface Override extends Written {
  readonly step: string;
  readonly ask: string;
  readonly why: string;
}

export interface NotedDeviation extends Written {
  readonly step: string;
  readonly what: DeviationKind;
  readonly used: string;
  readonly why: string;
}

export interface Photo extends Written {
  /** SHA-256 of the picture's bytes, hexadecimal. */
  readonly photo: string;
  readonly step: string;
  readonly about: string;
}

export interface Clip extends Written {
  readonly what: 'start' | 'stop' | 'clap';
  readonly number: number;
  readonly step: string;
}

export interface BenchState {
  /** In order; of one step and ask the last counts, the earlier ones stay to be read. */
  readonly records: readonly BenchRecord[];
  readonly overrides: readonly Override[];
  readonly deviations: readonly NotedDeviation[];
  readonly photos: readonly Photo[];
  readonly clips: readonly Clip[];
}

const writtenOf = ({ id, at, who, device }: JobEvent): Written => ({ event: id, at, who, device });

/**
 * The bench from a job's live events in their order. A record made before its step was un-ticked no longer counts: what
 * was done anew is to be signed anew.
 */
export function foldBench(ordered: readonly JobEvent[]): BenchState {
  const undone = new Map<string, string>();
  for (const event of ordered) if (event.type === 'stepUndone') undone.set(event.step, event.id);
  const stands = (event: JobEvent & { readonly step: string }) => event.id > (undone.get(event.step) ?? '');
  const of = <T extends JobEvent['type']>(type: T) =>
    ordered.filter((event): event is EventOf<T> => event.type === type);
  return {
    records: of('recordMade')
      .filter(stands)
      .map((event) => {
        const { step, ask, yes, figures, words } = event;
        return { ...writtenOf(event), step, ask, yes, figures, words };
      }),
    overrides: of('holdOverridden')
      .filter(stands)
      .map((event) => ({ ...writtenOf(event), step: event.step, ask: event.ask, why: event.why })),
    deviations: of('deviationNoted').map((event) => {
      const { step, what, used, why } = event;
      return { ...writtenOf(event), step, what, used, why };
    }),
    photos: of('photoAdded').map((event) => {
      const { photo, step, about } = event;
      return { ...writtenOf(event), photo, step, about };
    }),
    clips: of('clipMarked').map((event) => {
      const { what, number, step } = event;
      return { ...writtenOf(event), what, number, step };
    }),
  };
}
