/**
 * Replays a way move by move against the problem as given and sums its cost: the check that a way is possible, kept
 * apart from everything that finds one.
 */
import type { StripDown } from './strip-down.ts';

export type Replay =
  | { readonly ok: true; readonly cost: number; readonly holds: ReadonlySet<number> }
  | {
      readonly ok: false;
      /** Place in the order at which it fails; the number of moves when the goals are not all reached at the end. */
      readonly at: number;
      /** Facts that should hold there and do not. */
      readonly lacks: readonly number[];
    };

/** What carrying out the moves in this order gives. Throws RangeError for a move that is none. */
export function replay(problem: StripDown, order: readonly number[]): Replay {
  const holds = new Set(problem.start);
  let cost = 0;
  for (const [at, a] of order.entries()) {
    const move = problem.moves[a];
    if (move === undefined)
      throw new RangeError(`order must name moves from 0 to ${problem.moves.length - 1}, got ${a}`);
    const lacks = move.needs.filter((f) => !holds.has(f));
    if (lacks.length > 0) return { ok: false, at, lacks };
    for (const f of move.gives) holds.add(f);
    cost += move.cost;
  }
  const lacks = problem.goals.filter((f) => !holds.has(f));
  if (lacks.length > 0) return { ok: false, at: order.length, lacks };
  return { ok: true, cost, holds };
}
