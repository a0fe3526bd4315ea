/** How far the work has come: what is done, what runs by itself, from the job's ticks. */
import type { WayState } from '../job/way-fold.ts';
import type { Machine } from '../machine/definition.ts';
import { workOf } from '../machine/work.ts';
import { didFrom, piecesOf } from '../way/did-from.ts';
import type { StepPlace } from './place.ts';

const MINUTE = 60_000;

export interface Runs {
  /** Id of the step. */
  readonly id: string;
  readonly does: string;
  readonly kind: string;
  /** ms since 1970. */
  readonly startMs: number;
  /** When it is over by its usual time, ms since 1970. */
  readonly endMs: number;
}

export interface Progress {
  /** When each step was done, ms since 1970, by its id; what ran off by itself among them. */
  readonly done: ReadonlyMap<string, number>;
  /** What runs by itself now, the first to end first. */
  readonly runs: readonly Runs[];
}

/** `year` is the year of the caller's clock, which sets the chances of a seized fit and nothing here. */
export function progressOf(
  machine: Machine,
  way: Pick<WayState, 'ticks'>,
  nowMs: number,
  year: number,
): Progress {
  const work = workOf(machine, year);
  const done = new Map<string, number>();
  for (const { step, done: at } of way.ticks) if (at !== null) done.set(step, Date.parse(at));
  if (!work) return { done, runs: [] };
  const minute = (iso: string | null) => (iso === null ? null : Date.parse(iso) / MINUTE);
  const ticks = way.ticks.map(({ step, begun, done: at }) => ({
    id: step,
    begun: minute(begun),
    done: minute(at),
  }));
  const pieces = piecesOf(work);
  const runs: Runs[] = [];
  for (const { id, start, end } of didFrom(work, ticks).did) {
    if (done.has(id)) continue;
    const endMs = end * MINUTE;
    if (endMs <= nowMs) done.set(id, endMs);
    else {
      const piece = pieces.get(id)!;
      runs.push({
        id,
        does: piece.does,
        kind: 'kind' in piece ? piece.kind : 'take off',
        startMs: start * MINUTE,
        endMs,
      });
    }
  }
  return { done, runs: runs.sort((a, b) => a.endMs - b.endMs) };
}

/** Ids of the steps that are to come or were done: what puts back a move that was made, the work at the bottom, the close. */
export function dueSteps(
  places: ReadonlyMap<string, StepPlace>,
  done: ReadonlyMap<string, number>,
): ReadonlySet<string> {
  const due = [...places.values()].filter(
    ({ phase, action, id }) => phase !== 'out' || done.has(id) || (action !== null && done.has(action.id)),
  );
  return new Set(due.map(({ id }) => id));
}
