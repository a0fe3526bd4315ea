/**
 * The cheapest strip-down, with proof. What decides nothing is taken out first (strip-reduce); every way must have a
 * move in every landmark, so the cheapest fractional choice over landmarks is a bound (landmark-lp), made into whole
 * numbers before it is believed (strip-bound); landmarks are sought where the choice falls short (landmark-separate);
 * moves too dear for any better way go, and with many gone all begins again smaller; then moves are decided one by one
 * (strip-search, which also says what was rejected). Every way is replayed before it is returned. The same problem gives
 * the same way: effort is counted in steps, not in time.
 */
import { reachOf, requireStrip, whyOutOfReach } from './reach.ts';
import { replay } from './replay.ts';
import type { StripDown, Way } from './strip-down.ts';
import { reduceStrip } from './strip-reduce.ts';
import { type Carried, StripSearch } from './strip-search.ts';
import { shaken } from './strip-shake.ts';

/**
 * Steps of work before the search gives up, count: 5 s of one core. The longest of twenty drawn bikes of 400 parts is proved after
 * 3.1e9, in 4 s; when 1667 was the best found there, three times 2.5e9 took 83 s, and left the bound at 1568.
 */
const EFFORT = 3.5e9;
/**
 * Steps of work at the root after which luck is tried for a cheaper way, count; and how often. No strip-down of 60 parts comes
 * near, and of 400 one in twenty does: half a second finds 1616 there where 1667 was the best, a fifth more moves are too dear, and
 * it is proved. Of 400 tries five rows in eight found it. From 1e9 steps on, or beginning
 * smaller before the root is done, once 20 % of the moves are out: it stays open; from 2.5e8 on, or once 35 % are out: as long.
 */
const LONG = 5e8;
const TRIES = 1200;

export interface CheapestOptions {
  /** Moves that may not be used, by index. */
  readonly without?: readonly number[];
  /** Steps of work after which the search stops and says so; the default is some seconds. */
  readonly effort?: number;
  /** Told what the search did, for benches. */
  readonly tell?: (told: { readonly moves: number; readonly nodes: number; readonly work: number }) => void;
}

/** Puts chosen moves in order, with the free ones that they need, and leaves out the free ones nobody needs. */
export function inOrder(
  problem: StripDown,
  chosen: readonly number[],
  may: (move: number) => boolean,
): number[] {
  const paid = new Set(chosen);
  const { order } = reachOf(problem, (a) => paid.has(a) || (problem.moves[a]!.cost === 0 && may(a)));
  const holds = new Set(problem.start);
  const first = new Map<number, number>();
  for (const a of order)
    for (const f of problem.moves[a]!.gives)
      if (!holds.has(f)) {
        holds.add(f);
        first.set(f, a);
      }
  const needed = new Set<number>();
  const wanted = [...problem.goals];
  for (const f of wanted) {
    const a = first.get(f);
    if (a === undefined || needed.has(a)) continue;
    needed.add(a);
    wanted.push(...problem.moves[a]!.needs);
  }
  return order.filter((a) => needed.has(a));
}

/** The cheapest way to all goals, or why there is none. */
export function cheapestWay(problem: StripDown, options: CheapestOptions = {}): Way {
  const { without = [], effort = EFFORT } = options;
  requireStrip(problem, without);
  const banned = new Set(without);
  const allowed = (a: number) => !banned.has(a);
  const why = whyOutOfReach(problem, allowed);
  if (why) return why;

  const out = new Set<number>(without);
  let best = null as { moves: readonly number[]; cost: number } | null;
  let bound = 0;
  let nodes = 0;
  let work = 0;
  let shook = false;
  let carried: readonly Carried[] = [];
  for (;;) {
    const may = (a: number) => !out.has(a);
    if (best !== null && whyOutOfReach(problem, may)) {
      bound = best.cost;
      break;
    }
    const { net, forced, must } = reduceStrip(problem, may);
    if (net === null) {
      if (best === null || forced < best.cost) best = { moves: must, cost: forced };
      bound = best.cost;
      break;
    }
    const search: StripSearch = new StripSearch(
      net,
      best === null ? Number.POSITIVE_INFINITY : best.cost - forced,
      effort - work,
      (moves, cost) => {
        best = { moves: [...must, ...moves.map((a) => net.origin[a]!)], cost: cost + forced };
      },
    );
    const lp = search.begin(carried, must);
    const decided = new Int8Array(search.width);
    bound = Math.max(bound, forced + search.root(lp, decided, shook ? undefined : LONG));
    if (bound >= best!.cost) break;
    if (search.work > LONG && !shook) {
      shook = true;
      const place = new Map<number, number>();
      for (const a of net.cost.keys()) if (net.cost[a]! > 0) place.set(net.origin[a]!, a);
      const from = best!.moves.flatMap((o) => place.get(o) ?? []);
      const better = shaken(net, from, best!.cost - forced, TRIES);
      if (better !== null) {
        best = { moves: [...must, ...better.moves.map((a) => net.origin[a]!)], cost: better.cost + forced };
        search.upper = better.cost;
      }
      bound = Math.max(bound, forced + search.root(lp, decided));
      if (bound >= best!.cost) break;
    }
    const gone = search.outOf(decided);
    options.tell?.({ moves: search.width, nodes: -1, work: search.work });
    if (gone.length > 0 && gone.length >= search.width / 5) {
      for (const a of gone) out.add(net.origin[a]!);
      work += search.work;
      carried = search.carried(lp);
      continue;
    }
    const end = search.finish(lp, decided, bound - forced);
    bound = Math.max(bound, forced + end.bound);
    nodes = end.nodes;
    work += end.work;
    break;
  }
  options.tell?.({ moves: 0, nodes, work });
  const moves = inOrder(problem, best!.moves, allowed);
  const checked = replay(problem, moves);
  if (!checked.ok || checked.cost > best!.cost)
    throw new Error('the way found does not hold when it is replayed');
  bound = Math.min(bound, checked.cost);
  return { ok: true, moves, cost: checked.cost, bound, proved: bound === checked.cost };
}
