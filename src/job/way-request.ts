/** The way in of a job as room `way` asks for it: choices, ticks and troubles of the log, put on the clock of the work. */
import { didFrom, piecesOf, type Tick } from '../way/did-from.ts';
import type { BikeNow, PlanRefusal, PlanRequest } from '../way/plan-shape.ts';
import { afterEvent, type PlanEvent, THREAD_REPAIR } from '../way/replan.ts';
import { shutNights } from '../way/to-project.ts';
import type { Work } from '../way/work.ts';
import type { Troubled, WayChoice, WayState } from './way-fold.ts';

/** Hours of the night in which nobody works, min after midnight. */
export const NIGHT = { from: 22 * 60, to: 7 * 60 } as const;
/** A supply that nobody said a day for is waited for this long, min: three days, a guess. */
const UNKNOWN_ARRIVAL = 3 * 1440;

export interface WayClock {
  /** The moment of asking, ms since 1970. */
  readonly nowMs: number;
  /** The garage's wall clock when the work begins, min after midnight. */
  readonly startsAt: number;
}

export interface AskedWay {
  /** With every trouble but the last. */
  readonly before: PlanRequest;
  /** The last trouble, to be planned anew for; null where nothing jams. */
  readonly event: PlanEvent | null;
  readonly now: BikeNow;
  /** Whether the work has begun: something is ticked, or its hour is past. */
  readonly begun: boolean;
  /** Ids in the log that this machine file no longer has: they are left out. */
  readonly strays: readonly string[];
}

/** The request of a job's way in, or why a trouble in the log cannot be planned for. */
export function askWay(
  work: Work,
  choice: WayChoice,
  way: Pick<WayState, 'ticks' | 'troubles'>,
  clock: WayClock,
): AskedWay | PlanRefusal {
  const startMs = Date.parse(choice.startsAt);
  const minute = (ms: number) => Math.round((ms - startMs) / 60_000);
  const known = (ids: readonly string[], all: readonly { readonly id: string }[]) =>
    ids.filter((id) => all.some((one) => one.id === id));
  const targets = known(choice.targets, work.targets);
  let request: PlanRequest = {
    work,
    targets,
    people: choice.people,
    ...(choice.nights ? { shut: shutNights(clock.startsAt, NIGHT.from, NIGHT.to) } : {}),
    ...(choice.leave.length > 0 ? { leave: choice.leave } : {}),
  };
  const strays = choice.targets.filter((id) => !targets.includes(id));
  let event: PlanEvent | null = null;
  for (const trouble of way.troubles) {
    const next = eventOf(request.work, trouble, (iso) => minute(Date.parse(iso)));
    if (next === null) {
      if (trouble.of !== '') strays.push(trouble.of);
      continue;
    }
    if (event) {
      const changed = afterEvent(request, event);
      if ('ok' in changed) return changed;
      request = changed;
    }
    event = next;
  }
  // The last trouble may add a step that is ticked already.
  const after = event ? afterEvent(request, event) : request;
  if ('ok' in after) return after;
  const ticks = way.ticks.map(
    ({ step, begun, done }): Tick => ({
      id: step,
      begun: begun === null ? null : minute(Date.parse(begun)),
      done: done === null ? null : minute(Date.parse(done)),
    }),
  );
  const { did, strays: lost } = didFrom(after.work, ticks);
  const at = minute(clock.nowMs);
  const begun = did.length > 0 || at > 0;
  const now: BikeNow = { at: did.length > 0 ? latest(at, did) : Math.max(0, at), did, facts: [] };
  const before = { ...now, did: didFrom(request.work, ticks).did };
  return { before: { ...request, now: before }, event, now, begun, strays: [...strays, ...lost] };
}

/** Another device's clock may run ahead: nothing ticked as done lies after now. */
function latest(at: number, did: BikeNow['did']): number {
  return Math.max(at, ...did.map(({ start }) => start));
}

/** A trouble of the log as room `way` knows it; null when it speaks of what the work does not have. */
function eventOf(work: Work, trouble: Troubled, minute: (iso: string) => number): PlanEvent | null {
  const { what, of, minutes, until } = trouble;
  switch (what) {
    case 'seized':
      return work.actions.some(({ id }) => id === of)
        ? { what: 'seized', action: of, adds: minutes ?? 'never' }
        : null;
    case 'stripped':
      return piecesOf(work).has(of) ? { what: 'stripped', at: of, minutes: minutes ?? THREAD_REPAIR } : null;
    case 'not-here': {
      const at = until === null ? minute(trouble.at) + UNKNOWN_ARRIVAL : minute(until);
      return work.supplies.some(({ id }) => id === of) ? { what: 'not here yet', supply: of, at } : null;
    }
    case 'helper-gone':
      return { what: 'helper gone', at: minute(until ?? trouble.at) };
  }
}
