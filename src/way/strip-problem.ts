/**
 * A bike's work and the targets wanted, as a strip-down: facts and moves by index with whole costs.
 *
 * A move costs what it takes in hand-minutes: the expected time of going in with the expected time of a seizure, and
 * the expected time of putting it back. What runs by itself going in (a drain) counts once, since somebody waits for
 * it; on the way back it counts nothing, since others work meanwhile: the order of work weighs it. Measuring work
 * by the clock instead was passed over: two people halve the clock of some ways and not of others, which is
 * for the schedule to say.
 */
import type { BikeNow, Stuck } from './plan-shape.ts';
import type { StripDown } from './strip-down.ts';
import { type Action, type Fact, meanOf, type Work } from './work.ts';

/** Expected time of an action going in, min; `stuck` is what it is known to take more, in place of the chance. */
export function expectedIn(action: Action, stuck?: number): number {
  const seizing = stuck ?? (action.seizes ? action.seizes.chance * meanOf(action.seizes.adds) : 0);
  return meanOf(action.minutes) + seizing;
}

/** Expected work of an action in and back, summed over pairs of hands, min. */
export function workMinutes(action: Action, stuck?: number): number {
  const back = action.back.reduce((sum, step) => sum + meanOf(step.minutes) * step.hands, 0);
  return expectedIn(action, stuck) * Math.max(1, action.hands) + back;
}

/** The fact that follows from another: "x slack" from "x off"; null where none does. */
export function follows(fact: Fact): Fact | null {
  return fact.endsWith(' off') ? `${fact.slice(0, -4)} slack` : null;
}

/** Facts an action makes true, with those that follow. */
export function givesAll(action: Action): readonly Fact[] {
  const all = new Set(action.gives);
  for (const fact of action.gives) {
    const then = follows(fact);
    if (then !== null) all.add(then);
  }
  return [...all];
}

/**
 * Actions that are out now, in the order in which they were carried out: done, and nothing of them put back since.
 * Once the first of its steps back is done, an action's facts hold no longer; needed again, it must be done again.
 */
export function outNow(work: Work, now: BikeNow): Action[] {
  const byId = new Map(work.actions.map((a) => [a.id, a]));
  const owner = new Map(work.actions.flatMap((a) => a.back.map((s) => [s.id, a.id] as const)));
  const out = new Map<string, Action>();
  for (const { id } of now.did) {
    const action = byId.get(id);
    if (action) {
      out.delete(id);
      out.set(id, action);
    } else {
      const of = owner.get(id);
      if (of !== undefined) out.delete(of);
    }
  }
  return [...out.values()];
}

/** Facts that hold now. */
export function factsNow(work: Work, now: BikeNow): Set<Fact> {
  const holds = new Set<Fact>();
  for (const fact of [...now.facts, ...outNow(work, now).flatMap((a) => a.gives)]) {
    holds.add(fact);
    const then = follows(fact);
    if (then !== null) holds.add(then);
  }
  return holds;
}

export interface StripProblem {
  readonly problem: StripDown;
  /** The action behind each move. */
  readonly actions: readonly Action[];
  readonly factOf: ReadonlyMap<Fact, number>;
  /** Moves that may not be used: seized for good. */
  readonly never: readonly number[];
}

/** The strip-down to these targets together, from the state the bike is in now. */
export function stripProblem(
  work: Work,
  targets: readonly string[],
  now: BikeNow,
  stuck: readonly Stuck[] = [],
): StripProblem {
  const facts: Fact[] = [];
  const factOf = new Map<Fact, number>();
  const index = (fact: Fact) => {
    let at = factOf.get(fact);
    if (at === undefined) {
      at = facts.length;
      facts.push(fact);
      factOf.set(fact, at);
    }
    return at;
  };
  const extra = new Map<string, number>();
  const gone = new Set<string>();
  for (const { action, adds } of stuck) {
    if (adds === 'never') gone.add(action);
    else extra.set(action, (extra.get(action) ?? 0) + adds);
  }
  const moves = work.actions.map((action) => ({
    id: action.id,
    needs: action.needs.map(index),
    gives: givesAll(action).map(index),
    cost: Math.round(10 * workMinutes(action, extra.get(action.id))),
  }));
  const wanted = new Set(targets);
  const goals = new Set(work.targets.filter((t) => wanted.has(t.id)).flatMap((t) => t.needs.map(index)));
  return {
    problem: { facts, start: [...factsNow(work, now)].map(index), goals: [...goals], moves },
    actions: work.actions,
    factOf,
    never: work.actions.flatMap((a, i) => (gone.has(a.id) ? [i] : [])),
  };
}
