/** What the job's events say of the way in: the choices, the steps done, what jams, what is at hand. */
import type { EventOf, JobEvent, WayTrouble } from './event.ts';

export interface WayChoice {
  readonly targets: readonly string[];
  readonly people: 1 | 2;
  /** When the work begins, ISO 8601 in UTC. */
  readonly startsAt: string;
  readonly nights: boolean;
  readonly aim: 'least' | 'earliest';
  readonly leave: readonly string[];
  /** How far the parts have gone since they were new, km; null where nobody has said. */
  readonly km: number | null;
}

export interface Ticked {
  readonly step: string;
  /** When it was set going, ISO 8601 in UTC; null for what was only ticked as done. */
  readonly begun: string | null;
  /** When it was ticked as done, ISO 8601 in UTC; null for what runs, or ran off by itself. */
  readonly done: string | null;
}

export interface Troubled {
  /** Id of the `wayTroubled` event. */
  readonly event: string;
  readonly what: WayTrouble;
  readonly of: string;
  /** What it takes more, min; null where it will not go at all or time is not the trouble. */
  readonly minutes: number | null;
  readonly until: string | null;
  readonly at: string;
}

export interface WayState {
  /** Null while nobody has chosen. */
  readonly chosen: WayChoice | null;
  /** Steps begun or done, in the order of their first ticks. */
  readonly ticks: readonly Ticked[];
  /** The last un-ticking of each step, by step: a tick that is to count names it. */
  readonly undone: ReadonlyMap<string, string>;
  /** What jams and was not cleared, in order. */
  readonly troubles: readonly Troubled[];
  /** Ids of supplies at hand, in the order in which they were noted. */
  readonly here: readonly string[];
}

/** The way in from a job's events in their order. */
export function foldWay(ordered: readonly JobEvent[]): WayState {
  // Gathered first: clocks may sort a clearing before the trouble it names.
  const cleared = new Set(ordered.flatMap((event) => (event.type === 'wayCleared' ? [event.event] : [])));
  const undone = new Map<string, string>();
  for (const event of ordered) if (event.type === 'stepUndone') undone.set(event.step, event.id);
  let chosen: WayChoice | null = null;
  const ticks = new Map<string, Ticked>();
  const troubles: Troubled[] = [];
  const here = new Set<string>();
  for (const event of ordered) {
    switch (event.type) {
      case 'wayChosen':
        chosen = choiceOf(event);
        break;
      case 'stepBegun':
      case 'stepDone': {
        const { step, at } = event;
        // Un-ticking beats a tick that did not know of it, whichever clock was ahead.
        if ((undone.get(step) ?? '') > (event.seen ?? '')) break;
        const before = ticks.get(step) ?? { step, begun: null, done: null };
        // The first tick gives the time: a second one, of another device, says nothing new.
        if (event.type === 'stepBegun') ticks.set(step, { ...before, begun: before.begun ?? at });
        else ticks.set(step, { ...before, done: before.done ?? at });
        break;
      }
      case 'wayTroubled':
        if (!cleared.has(event.id)) {
          const { what, of, minutes, until, at } = event;
          troubles.push({ event: event.id, what, of, minutes, until, at });
        }
        break;
      case 'stockNoted':
        if (event.here) here.add(event.supply);
        else here.delete(event.supply);
        break;
    }
  }
  return { chosen, undone, ticks: [...ticks.values()], troubles, here: [...here] };
}

function choiceOf(event: EventOf<'wayChosen'>): WayChoice {
  const { targets, people, startsAt, nights, aim, leave, km } = event;
  return { targets, people, startsAt, nights, aim, leave, km };
}
