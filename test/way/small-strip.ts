/** Strip-downs small enough to try every set of moves, and that trial. */
import { openStream } from '../../src/numbers/random.ts';
import type { StripDown } from '../../src/way/strip-down.ts';

/** Up to 8 facts and 12 moves, many of them in each other's way, some free, some dear; now and then out of reach. */
export function smallStrip(seed: number): StripDown {
  const random = openStream(seed * 2_654_435);
  const below = (n: number) => Math.floor(random() * n);
  const count = 4 + below(5);
  const moves = Array.from({ length: 5 + below(8) }, (_, a) => {
    const needs = new Set<number>();
    for (let k = a < 2 ? 0 : below(3); k > 0; k--) needs.add(below(count));
    const gives = new Set<number>();
    for (let k = 1 + below(2); k > 0; k--) gives.add(below(count));
    const cost = below(6) === 0 ? 0 : 1 + below(20);
    return { id: `move-${a}`, needs: [...needs], gives: [...gives], cost };
  });
  return {
    facts: Array.from({ length: count }, (_, f) => `fact-${f}`),
    start: below(3) === 0 ? [below(count)] : [],
    goals: Array.from({ length: 1 + below(3) }, () => below(count)),
    moves,
  };
}

/** Least cost over all sets of moves, in the unit of the costs; null when no set reaches the goals. */
export function bruteForce(problem: StripDown): number | null {
  const { moves } = problem;
  const needs = moves.map((move) => move.needs.reduce((bits, f) => bits | (1 << f), 0));
  const gives = moves.map((move) => move.gives.reduce((bits, f) => bits | (1 << f), 0));
  const goals = problem.goals.reduce((bits, f) => bits | (1 << f), 0);
  const start = problem.start.reduce((bits, f) => bits | (1 << f), 0);
  let least: number | null = null;
  for (let set = 0; set < 2 ** moves.length; set++) {
    let cost = 0;
    for (let a = 0; a < moves.length; a++) if ((set >>> a) & 1) cost += moves[a]!.cost;
    if (least !== null && cost >= least) continue;
    let holds = start;
    for (let before = -1; before !== holds; ) {
      before = holds;
      for (let a = 0; a < moves.length; a++)
        if ((set >>> a) & 1 && (needs[a]! & holds) === needs[a]) holds |= gives[a]!;
    }
    if ((holds & goals) === goals) least = cost;
  }
  return least;
}
