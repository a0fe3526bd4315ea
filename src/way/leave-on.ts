/**
 * "Leave the clutch on": the cheapest way without some facts becoming true, beside the cheapest way at all.
 *
 * A move that gives such a fact may not be used, whatever else it gives. A fact that holds at the start cannot be left.
 */
import { type CheapestOptions, cheapestWay } from './cheapest-way.ts';
import type { StripDown, Way } from './strip-down.ts';

export interface LeftOn {
  /** The cheapest way with nothing left on. */
  readonly free: Way;
  /** The cheapest way with the facts left; where there is none, why. */
  readonly left: Way;
  /** What leaving them costs more, in the unit of the costs; null where either way is missing. */
  readonly dearer: number | null;
  /** Whether that difference is proved: both ways are. */
  readonly proved: boolean;
  /** Moves that only the free way has, and that only the other has, by index in the order of their way. */
  readonly onlyFree: readonly number[];
  readonly onlyLeft: readonly number[];
  /** Goals that are themselves among the facts to be left: asked for and forbidden at once. */
  readonly contradicted: readonly number[];
  /** Moves that may not be used because they give a fact to be left, by index. */
  readonly without: readonly number[];
}

/** Both ways and what is between them. Throws RangeError for a fact that is none or that holds at the start. */
export function leaveOn(problem: StripDown, leave: readonly number[], options: CheapestOptions = {}): LeftOn {
  const facts = problem.facts.length;
  const start = new Set(problem.start);
  for (const f of leave) {
    if (!Number.isInteger(f) || f < 0 || f >= facts)
      throw new RangeError(`leave must be a whole number from 0 to ${facts - 1}, got ${f}`);
    if (start.has(f))
      throw new RangeError(`leave must name facts that do not hold yet, got "${problem.facts[f]}"`);
  }
  const kept = new Set(leave);
  const without = problem.moves.flatMap(({ gives }, a) => (gives.some((f) => kept.has(f)) ? [a] : []));
  const free = cheapestWay(problem, options);
  const left = cheapestWay(problem, { ...options, without: [...(options.without ?? []), ...without] });
  const contradicted = [...new Set(problem.goals)].filter((f) => kept.has(f));
  if (!free.ok || !left.ok)
    return { free, left, dearer: null, proved: false, onlyFree: [], onlyLeft: [], contradicted, without };
  const [inFree, inLeft] = [new Set(free.moves), new Set(left.moves)];
  return {
    free,
    left,
    dearer: left.cost - free.cost,
    proved: free.proved && left.proved,
    onlyFree: free.moves.filter((a) => !inLeft.has(a)),
    onlyLeft: left.moves.filter((a) => !inFree.has(a)),
    contradicted,
    without,
  };
}
