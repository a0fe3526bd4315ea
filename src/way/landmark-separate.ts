/**
 * Finds landmarks that a fractional choice of moves does not meet: sets of moves of which every way has one, and of
 * which the choice has less than one whole. From what the whole moves reach, the cut towards the goal is taken, made
 * as small as it goes, then its moves are allowed and the next cut is taken, until the goal holds. For a choice of
 * whole moves that does not reach the goal there is always one; for others the search can miss.
 */
import { entering } from './landmark-cut.ts';
import { LeastCut } from './landmark-flow.ts';
import { Holding, type Net } from './strip-net.ts';

const WHOLE = 1 - 1e-7;
const VIOLATED = 1 - 1e-4;

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

  /**
   * The landmark of a zone, made smaller: moves are left out as long as the rest is still one, those with most of the choice
   * first. Those that are out for now come last: where they are, the fewest others are left to choose from.
   */
  private smallest(zone: Uint8Array, x: Float64Array, out: readonly number[]): number[] {
    const { net, trial } = this;
    const cut = entering(net, zone, trial, out);
    const kept = new Set(cut);
    for (const a of out) kept.add(a);
    trial.begin((a) => !kept.has(a));
    const order = cut.sort((p, q) => x[q]! - x[p]! || net.cost[p]! - net.cost[q]! || p - q);
    for (const list of [order, out])
      for (const a of list) {
        if (kept.size === 1) break;
        if (trial.allowUnlessDone(a)) kept.delete(a);
        this.work += 20;
      }
    this.work += net.cost.length;
    return [...kept].sort((p, q) => p - q);
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
