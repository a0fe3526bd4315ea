/**
 * Finds landmarks that a fractional choice of moves does not meet: sets of moves of which every way has one, and of
 * which the choice has less than one whole. From what the whole moves reach, the cut towards the goal is taken, made
 * as small as it goes, then its moves are allowed and the next cut is taken, until the goal holds. For a choice of
 * whole moves that does not reach the goal there is always one; for others the search can miss.
 *
 * Where the bound of the root ends, measured with 60 rounds without gain: at 87 to 92 % of the least cost for shared (84 to 88 with
 * the usual 4), 87 to 100 for dense (79 to 94). All four ways of looking in each round come there in half the rounds and
 * nearly half the time, but not sooner than deciding moves does: over twenty of the longest 1.14 times the time, with 12 or 25 rounds
 * 1.5 to 1.6. Looking beside the choice and from its mean in each round: 1.0. Landmarks that lack less than 0.02 to 0.1 not taken
 * up again or not added: 1.04 to 1.25. Left out by what the prices leave of the cost and not by cost: the same bounds.
 */
import { entering } from './landmark-cut.ts';
import { LeastCut } from './landmark-flow.ts';
import { Holding, type Net } from './strip-net.ts';

const WHOLE = 1 - 1e-7;
const VIOLATED = 1 - 1e-4;
/** A landmark made smaller is worth taking up where it had more than this of the choice more. */
const LESS = 1e-4;

const WAYS = [
  [false, true],
  [false, false],
  [true, true],
  [true, false],
] as const;

export class Separator {
  private readonly net: Net;
  private readonly flow: LeastCut;
  private readonly holding: Holding;
  private readonly trial: Holding;
  /** How far each fact is, to choose between needs that could be asked for. */
  private readonly far: Float64Array;
  /** Moves gone through: effort. */
  work = 0;

  constructor(net: Net, far: Float64Array) {
    this.net = net;
    this.flow = new LeastCut(net);
    this.holding = new Holding(net);
    this.trial = new Holding(net);
    this.far = far;
  }

  /** The landmark of a zone, as small as it goes. */
  private smallest(zone: Uint8Array, x: Float64Array, out: readonly number[]): number[] {
    const cut = entering(this.net, zone, this.trial, out);
    return this.shrunk(cut, x, out).moves;
  }

  /**
   * Leaves out moves of a landmark as long as the rest is still one, those with most of the choice first. Those that are out for
   * now, which need not be in it, come last: where they are, the fewest others are left to choose from. `less`: how much of the
   * choice was left out; less than `worth`, and it is given up.
   */
  private shrunk(
    cut: readonly number[],
    x: Float64Array,
    out: readonly number[],
    worth = 0,
  ): { readonly moves: number[]; readonly less: number } {
    const { net, trial } = this;
    const kept = new Set(cut);
    for (const a of out) kept.delete(a);
    const order = [...kept].sort((p, q) => x[q]! - x[p]! || net.cost[p]! - net.cost[q]! || p - q);
    for (const a of out) kept.add(a);
    trial.begin((a) => !kept.has(a));
    this.work += net.cost.length;
    let less = 0;
    for (const list of [order, out]) {
      for (const a of list) {
        if (kept.size === 1 || (less < worth && x[a]! <= LESS)) break;
        this.work += 20;
        if (!trial.allowUnlessDone(a)) continue;
        kept.delete(a);
        less += x[a]!;
      }
      if (less < worth) break;
    }
    return { moves: [...kept].sort((p, q) => p - q), less };
  }

  /** Landmarks that the choice just meets, made smaller now that more is out: those it then does not meet. */
  tighten(rows: readonly (readonly number[])[], x: Float64Array, out: readonly number[]): number[][] {
    return rows.flatMap((row) => {
      const { moves, less } = this.shrunk(row, x, out, LESS);
      return less < LESS ? [] : [moves];
    });
  }

  /** Landmarks of which the choice has less than one, no two the same. `out`: moves decided to be out for now. */
  find(x: Float64Array, most: number, out: readonly number[]): number[][] {
    const { net, holding, flow } = this;
    const found = new Map<string, number[]>();
    const raised = new Float64Array(x.length);
    const used: number[] = [];
    for (let a = 0; a < x.length; a++) if (x[a]! > 1e-9 || net.cost[a] === 0) used.push(a);
    for (const [byFar, nearGoal] of WAYS) {
      // The next way of looking only where this one found nothing.
      if (found.size > 0) break;
      raised.set(x);
      holding.begin((a) => net.cost[a] === 0 || x[a]! >= WHOLE);
      for (let a = 0; a < x.length; a++) if (net.cost[a] === 0) raised[a] = 4;
      for (let nested = 0; !holding.done() && nested < most; nested++) {
        flow.choose(raised, holding, used, this.far, byFar);
        const cut = flow.zone(raised, holding, used, VIOLATED, nearGoal);
        if (cut === null) break;
        const { zone } = cut;
        const small = this.smallest(zone, x, out);
        found.set(small.join(' '), small);
        // The next cut is looked for behind or before this one.
        for (const a of small) {
          if (raised[a]! <= 1e-9) continue;
          raised[a] = 4;
          holding.allow(a);
        }
        if (small.some((a) => raised[a]! > 1e-9)) continue;
        // A cut of moves not chosen at all: all of them, or the next would be the same.
        for (const a of small) {
          used.push(a);
          raised[a] = 4;
          holding.allow(a);
        }
      }
    }
    this.work += flow.work;
    flow.work = 0;
    return [...found.values()];
  }
}
