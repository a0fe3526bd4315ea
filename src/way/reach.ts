/**
 * What can be reached at all: every fact that some sequence of moves makes true, and, where a goal is out of reach,
 * why: a fact that nothing gives, or facts that wait for each other in a circle.
 */
import type { StripDown, Way } from './strip-down.ts';

function whole(name: string, value: number, below: number): void {
  if (!Number.isInteger(value) || value < 0 || value >= below)
    throw new RangeError(`${name} must be a whole number from 0 to ${below - 1}, got ${value}`);
}

/** Throws RangeError where an index names no fact or move, or a cost is no whole number ≥ 0. */
export function requireStrip(problem: StripDown, without: readonly number[] = []): void {
  const facts = problem.facts.length;
  for (const f of problem.start) whole('start', f, facts);
  for (const f of problem.goals) whole('goals', f, facts);
  let sum = 0;
  for (const { id, needs, gives, cost } of problem.moves) {
    for (const f of needs) whole(`needs of move "${id}"`, f, facts);
    for (const f of gives) whole(`gives of move "${id}"`, f, facts);
    if (!Number.isSafeInteger(cost) || cost < 0)
      throw new RangeError(`cost of move "${id}" must be a whole number ≥ 0, got ${cost}`);
    sum += cost;
  }
  if (sum > 2 ** 44) throw new RangeError(`cost of all moves must be at most 2^44 together, got ${sum}`);
  for (const a of without) whole('without', a, problem.moves.length);
}

/** Facts (1 = can be true) and the moves in an order in which they could all be carried out. */
export function reachOf(
  problem: StripDown,
  may: (move: number) => boolean = () => true,
): { readonly reached: Uint8Array; readonly order: readonly number[] } {
  const reached = new Uint8Array(problem.facts.length);
  const takers: number[][] = problem.facts.map(() => []);
  const open = problem.moves.map(({ needs }, a) => {
    const each = new Set(needs);
    for (const f of each) takers[f]!.push(a);
    return each.size;
  });
  const queue: number[] = [];
  const order: number[] = [];
  const learn = (f: number) => {
    if (reached[f]) return;
    reached[f] = 1;
    queue.push(f);
  };
  const carryOut = (a: number) => {
    if (!may(a)) return;
    order.push(a);
    for (const f of problem.moves[a]!.gives) learn(f);
  };
  for (const f of problem.start) learn(f);
  open.forEach((left, a) => {
    if (left === 0) carryOut(a);
  });
  for (let head = 0; head < queue.length; head++) {
    for (const a of takers[queue[head]!]!) {
      open[a]! -= 1;
      if (open[a] === 0) carryOut(a);
    }
  }
  return { reached, order };
}

/** Why the unreached goals are out of reach; null when all goals can be reached. */
export function whyOutOfReach(
  problem: StripDown,
  may: (move: number) => boolean = () => true,
): Extract<Way, { ok: false }> | null {
  const { reached } = reachOf(problem, may);
  const unreachable = [...new Set(problem.goals)].filter((f) => !reached[f]).sort((a, b) => a - b);
  if (unreachable.length === 0) return null;
  const givers: number[][] = problem.facts.map(() => []);
  problem.moves.forEach(({ gives }, a) => {
    if (may(a)) for (const f of gives) givers[f]!.push(a);
  });
  // Behind an unreached goal lie the unreached needs of every move that would give it, and so on.
  const behind = (f: number) => [
    ...new Set(givers[f]!.flatMap((a) => problem.moves[a]!.needs.filter((need) => !reached[need]))),
  ];
  const seen = new Set(unreachable);
  const missing: number[] = [];
  for (const f of seen) {
    if (givers[f]!.length === 0) missing.push(f);
    for (const need of behind(f)) seen.add(need);
  }
  return {
    ok: false,
    unreachable,
    missing: missing.sort((a, b) => a - b),
    cycle: circle(unreachable, behind),
  };
}

/** The first circle met going back from the goals, each fact the next one's need; empty when there is none. */
function circle(from: readonly number[], behind: (f: number) => readonly number[]): number[] {
  const state = new Map<number, 'on the path' | 'left'>();
  for (const root of from) {
    if (state.has(root)) continue;
    const path: { f: number; next: readonly number[]; at: number }[] = [
      { f: root, next: behind(root), at: 0 },
    ];
    state.set(root, 'on the path');
    while (path.length > 0) {
      const top = path[path.length - 1]!;
      const need = top.next[top.at++];
      if (need === undefined) {
        state.set(top.f, 'left');
        path.pop();
      } else if (state.get(need) === 'on the path') {
        const start = path.findIndex(({ f }) => f === need);
        // The path goes from a fact to its need, so backwards each fact is the next one's need.
        return path
          .slice(start)
          .map(({ f }) => f)
          .reverse();
      } else if (!state.has(need)) {
        state.set(need, 'on the path');
        path.push({ f: need, next: behind(need), at: 0 });
      }
    }
  }
  return [];
}
