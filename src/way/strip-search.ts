/**
 * Branch and bound over the moves of a net: each node solves the fractional problem over the landmarks found so far,
 * looks for landmarks it does not meet, and throws out moves that no cheaper way can have; then one move is decided.
 *
 * Rejected, each measured on hard strip-downs of 30 and 60 parts (random-strip.ts of the tests, two cores):
 * - Landmarks sought only by cuts grown from what the whole moves reach: bounds stay 10 to 25 % under the least cost,
 *   thousands of nodes (2,674 and 2 s for slack, 30 parts, seed 9; 13 nodes and 0.2 s with least cuts by flow).
 * - Least cuts by branch and bound instead of flow: as good a bound, 3 to 20 times the time.
 * - Leaving by the greatest gain in the objective instead of the steepest edge: 1.4 times the time.
 * - All four ways of looking for cuts in each round, and 12 rounds without gain before branching: 1.5 times the time;
 *   2 rounds: 1.5 times; 1 round: 1.9 times.
 * - Deciding the most divided move whatever it costs: 1.1 times the time.
 * - Without what moves ask for (strip-asks.ts): 1.4 times the time over 400 strip-downs of 60 parts, and worst cases of 1.0
 *   to 1.5 s where it is 0.2 to 0.3 (knots, slack).
 * - Not counting rounds that only took up what is asked for as rounds without gain: bounds at the root 3 to 6 % higher, and
 *   1.1 times the time. Shaking a way before branching (40 to 200 tries, Shaw 1998): a few per cent cheaper ways at the
 *   start, no less time.
 * - Moves that several others together outdo (a plan from what holds before the move to what it gives, no dearer) left out:
 *   15 to 25 % fewer moves, as much work, and 10 ms more. Pieces without a common fact: there are none. The least cost known
 *   beforehand: a third of the time on one in a hundred (shared), nothing on the others.
 * - Deciding the move that raises the fractional problem most both ways, of 3 or 6 tried (strong branching): 0.7 to 1.4
 *   times the time, 1.1 over all.
 * Where the tail comes from (worst of 60 parts, shared and dense): the bound of the root lies 10 to 20 % under the least
 * cost, 12 to 28 nodes of 150 to 200 steps each follow, and of the time the fractional problem takes 50 to 70 %, cuts by
 * flow 10 to 25 %, looking for ways 5 to 15 %. Tried against it, eight of the worst:
 * - What a move asks for of all facts that must be true before it, not of its needs alone: the same bounds at the root, 0.5 to
 *   2.5 times the time.
 * - What a move asks for behind its needs, by flow, with the choice taken as shares of that move: bounds at the root up to
 *   5 % of the least cost higher, no fewer nodes, 1.1 to 2.2 times the time.
 * - Rounded sums of landmarks (Gomory 1958, Chvátal 1973) with whole denominators up to 24: few fit; 0.9 to 1.4 times the
 *   time over two families, twice for some of the third.
 * - 8, 14 or 30 rounds without gain at the root: bounds there up to 12 % higher (1166 to 1311 for dense, seed 20), as long
 *   over 40 seeds, and the longest no shorter. 25 rounds at a node in place of 6: 1.2 times; 12: 1.04.
 * - Dividing counted more or less against cost (cost to the power 0.5 or 1.5), the first side of a decision from 0.2 or
 *   0.7 of a move: 0.95 to 1.3 times the time, none over all.
 * Tried later, on 39 of the worst and 300 drawn anew (worst ones of one trial look better in the next whatever is changed):
 * - Deciding whether a fact is used, all that needs it out or it brought about, in place of a move: as many nodes, 1.0 times.
 * - Gains under 1 to 10 % of what lies between bound and best counted as none, 2 or 3 rounds without at the root, 4 or 9 rounds
 *   at a node: 0.99 to 1.05 times. 3 or 10 landmarks behind the other, ways looked for in every second or third round, beginning
 *   smaller as soon as 20 to 50 % of the moves are out: 0.95 to 1.0 times, less than two runs of the same differ by.
 * - An integer program with an order of facts, by a general solver: open after 10 s on nine of nine.
 */
import { Dearest, landmarkCuts } from './landmark-cut.ts';
import { LandmarkLp } from './landmark-lp.ts';
import { LandmarkRows } from './landmark-rows.ts';
import { Separator } from './landmark-separate.ts';
import { Asks } from './strip-asks.ts';
import { type Decided, ProvenBound } from './strip-bound.ts';
import { WayLooks } from './strip-look.ts';
import { Holding, type Net } from './strip-net.ts';

/** A landmark in the moves of the problem as given. */
export interface Carried {
  readonly moves: readonly number[];
  /** The move that asks for it; −1 for one that every way has. */
  readonly asking: number;
}

export interface SearchEnd {
  /** Cost below which there is no way; equals the best cost when that is proved. */
  readonly bound: number;
  readonly nodes: number;
  readonly work: number;
}

/** How much the lesser needs of a move count, in turn. */
const SHARES = [1, 0.5, 0.2, 0];
/** Rounds without a better bound after which a node is branched on, count. */
const STALLED = 4;
/** By so much a choice must cost more than the dearest way that would still be cheaper, for the prices to prove it. */
const CLOSED = 1e-3;
/** A landmark that lacks less than this of a whole move is met. */
const SHORT = 1e-4;
/** Landmarks looked for one behind the other. */
const NESTED = 6;

export class StripSearch {
  readonly net: Net;
  /** Moves that cost, by column. */
  private readonly paid: Int32Array;
  private readonly column: Int32Array;
  private readonly proven: ProvenBound;
  private readonly looks: WayLooks;
  private readonly separator: Separator;
  private readonly holding: Holding;
  private readonly asks: Asks;
  private readonly pool: LandmarkRows;
  private readonly names = new Set<string>();
  private readonly xs: Float64Array;
  private readonly xn: Float64Array;
  private readonly cost: Float64Array;
  /** What a move costs where a way is looked for, and whether it may be in it. */
  private readonly weight: Float64Array;
  private readonly may: Uint8Array;
  private readonly found: (moves: readonly number[], cost: number) => void;
  /** Running mean of the choices at the root, and what lies between it and the choice now. */
  private readonly mean: Float64Array;
  private readonly between: Float64Array;
  private lpWork = 0;
  /** Cost to beat. */
  upper: number;
  nodes = 0;
  /** Least bound of what was left unexplored for want of effort. */
  private left = Number.POSITIVE_INFINITY;
  private readonly effort: number;
  private until = Number.POSITIVE_INFINITY;

  constructor(
    net: Net,
    upper: number,
    effort: number,
    found: (moves: readonly number[], cost: number) => void,
  ) {
    this.net = net;
    this.upper = upper;
    this.effort = effort;
    this.found = found;
    this.paid = Int32Array.from(net.cost.keys()).filter((a) => net.cost[a]! > 0);
    this.column = new Int32Array(net.cost.length).fill(-1);
    this.paid.forEach((a, j) => {
      this.column[a] = j;
    });
    this.cost = Float64Array.from(this.paid, (a) => net.cost[a]!);
    this.pool = new LandmarkRows(this.paid.length);
    this.proven = new ProvenBound(this.cost);
    this.looks = new WayLooks(net);
    const dearest = new Dearest(net);
    dearest.measure(net.cost);
    this.separator = new Separator(net, dearest.far);
    this.asks = new Asks(net, dearest.far);
    this.holding = new Holding(net);
    this.xs = new Float64Array(this.paid.length);
    this.mean = new Float64Array(net.cost.length);
    this.between = new Float64Array(net.cost.length);
    this.xn = new Float64Array(net.cost.length);
    this.weight = new Float64Array(net.cost.length);
    this.may = new Uint8Array(net.cost.length);
  }

  /** Moves that cost, count. */
  get width(): number {
    return this.paid.length;
  }

  /** Moves of the net decided to be out. */
  outOf(decided: Decided): number[] {
    return [...this.paid].filter((_, j) => decided[j] === -1);
  }

  get work(): number {
    return this.lpWork + 4 * (this.separator.work + this.asks.work);
  }

  /** Looks for ways that are cheap under these weights, and takes the best if it is cheaper. */
  private look(weight: Float64Array, may: Uint8Array, shares: readonly number[]): void {
    const better = this.looks.under(weight, may, shares, this.upper);
    if (better === null) return;
    this.upper = better.cost;
    this.found(better.moves, better.cost);
  }

  /** Looks for cheap ways beside the choice: what it has in part costs the less. */
  private lookBeside(decided: Decided, shares: readonly number[]): void {
    const { net, xn } = this;
    const { may, weight } = this;
    for (let a = 0; a < may.length; a++) {
      may[a] = Number(net.cost[a] === 0 || decided[this.column[a]!] !== -1);
      weight[a] = net.cost[a]! * (1 - Math.min(1, xn[a]!)) + 1e-6;
    }
    this.look(weight, may, shares);
  }

  /** Adds a landmark that is new; false for one known before. `asking`: the move that asks for it, −1 for none. */
  private add(lp: LandmarkLp, cut: readonly number[], asking = -1): boolean {
    const name = `${asking} ${cut.join(' ')}`;
    if (this.names.has(name)) return false;
    this.names.add(name);
    const moves = new Int32Array(cut.length);
    for (let n = 0; n < moves.length; n++) moves[n] = this.column[cut[n]!]!;
    const k = this.pool.push({ moves, asking: asking === -1 ? -1 : this.column[asking]! });
    lp.addLandmark(k);
    return true;
  }

  /** Landmarks with a price, for the same problem made smaller. */
  carried(lp: LandmarkLp): Carried[] {
    const { net, paid, pool } = this;
    const origin = (j: number) => net.origin[paid[j]!]!;
    const found: Carried[] = [];
    lp.prices((k) => {
      const { moves, asking } = pool.all[k]!;
      found.push({ moves: Array.from(moves, origin), asking: asking === -1 ? -1 : origin(asking) });
    });
    return found;
  }

  /**
   * Adds landmarks of the problem before it was made smaller. A way of this net is one of that with the moves that must be:
   * it has one of those that are left, unless one of them must be.
   */
  private carry(lp: LandmarkLp, carried: readonly Carried[], must: ReadonlySet<number>): void {
    const { net } = this;
    const place = new Map<number, number>();
    for (const a of this.paid) place.set(net.origin[a]!, a);
    for (const { moves, asking } of carried) {
      if (moves.some((o) => must.has(o))) continue;
      const cut = moves.flatMap((o) => place.get(o) ?? []).sort((a, b) => a - b);
      // Asked for by a move that must be, every way has it; by one that is out, nobody asks.
      const who = asking === -1 || must.has(asking) ? -1 : place.get(asking);
      if (who !== undefined && cut.length > 0) this.add(lp, cut, who);
    }
  }

  /** First ways and landmarks, and the fractional problem over them. `must`: moves of the problem that are in every way. */
  begin(carried: readonly Carried[], must: readonly number[]): LandmarkLp {
    const { net } = this;
    const any = new Uint8Array(net.cost.length).fill(1);
    this.look(net.cost, any, SHARES);
    const cuts = landmarkCuts(net);
    this.look(
      cuts.left.map((left, a) => left + 1e-3 * net.cost[a]!),
      any,
      SHARES,
    );
    const lp = new LandmarkLp(this.pool, this.cost);
    for (const cut of cuts.landmarks) this.add(lp, cut);
    this.carry(lp, carried, new Set(must));
    return lp;
  }

  /** The bound that the prices prove. */
  private reckon(lp: LandmarkLp, decided: Decided): number {
    return this.proven.reckon(decided, (each) => lp.prices((k, price) => each(this.pool.all[k]!, price)));
  }

  /** Bound of the root, moves out for good in `decided`; as far as so many steps of work lead. */
  root(lp: LandmarkLp, decided: Decided, until = Number.POSITIVE_INFINITY): number {
    this.until = until;
    const { bound } = this.settle(lp, decided, 200, true);
    this.until = Number.POSITIVE_INFINITY;
    return bound;
  }
  /** Works the node until it is closed or must be branched on. */
  private settle(
    lp: LandmarkLp,
    decided: Decided,
    rounds: number,
    root: boolean,
  ): { bound: number; closed: boolean } {
    const { xs, xn, paid, net, proven } = this;
    let bound = 0;
    let stalled = 0;
    let known = 0;
    for (let round = 0; ; round++) {
      const before = lp.work;
      // Beyond this the node is closed: bounds are whole.
      const enough = this.upper - 1 + CLOSED;
      let solved = lp.solve(enough);
      let now = this.reckon(lp, decided);
      if (now < this.upper && lp.dear(enough)) {
        solved = lp.solve();
        now = this.reckon(lp, decided);
      }
      this.lpWork += lp.work - before;
      stalled = now > bound ? 0 : stalled + 1;
      bound = Math.max(bound, now);
      if (bound >= this.upper) return { bound, closed: true };
      let news = false;
      for (const j of [...proven.outAt(decided, this.upper)]) {
        decided[j] = -1;
        lp.forbid(j);
        news = true;
      }
      if (news) {
        this.holding.begin((a) => net.cost[a] === 0 || decided[this.column[a]!] !== -1);
        if (!this.holding.done()) return { bound: this.upper, closed: true };
        if (!lp.solve(enough)) return { bound, closed: false };
        if (lp.dear(enough)) continue;
      }
      if (!solved || this.work > Math.min(this.effort, this.until)) return { bound, closed: false };
      lp.values(xs);
      let whole = true;
      xn.fill(0);
      xs.forEach((value, j) => {
        const x = decided[j] === 1 ? 1 : decided[j] === -1 ? 0 : value;
        xs[j] = x;
        xn[paid[j]!] = x;
        if (x > 1e-6 && x < 1 - 1e-6) whole = false;
      });
      if (!whole && (round >= rounds || stalled > STALLED)) return { bound, closed: false };
      // Landmarks of other nodes first: to look through them costs least.
      let added = lp.takeUp(xs, SHORT);
      this.asks.find(xn, (move, bringing) => {
        if (this.add(lp, bringing, move)) added += 1;
      });
      if (added === 0) {
        if (root) this.draw(round);
        const out = this.outOf(decided);
        if (out.length > known) added = this.addCuts(lp, this.separator.tighten(this.priced(lp), xn, out));
        known = out.length;
        if (added === 0 && root) added = this.addCuts(lp, this.separator.find(this.between, NESTED, out));
        if (added === 0) added = this.addCuts(lp, this.separator.find(xn, NESTED, out));
      }
      if (root || added === 0) this.lookBeside(decided, [SHARES[round % SHARES.length]!]);
      if (added === 0) return { bound, closed: bound >= this.upper };
      if (root || round % 8 === 7) lp.forgetSlack();
    }
  }

  /** Landmarks with a price that every way has, as moves of the net. */
  private priced(lp: LandmarkLp): number[][] {
    const found: number[][] = [];
    lp.prices((k) => {
      const { moves, asking } = this.pool.all[k]!;
      if (asking === -1) found.push(Array.from(moves, (j) => this.paid[j]!));
    });
    return found;
  }

  /** Moves the choice towards the mean of those before: cuts of that cut deeper (Ben-Ameur and Neto 2007). */
  private draw(round: number): void {
    const { mean, between, xn } = this;
    for (let a = 0; a < xn.length; a++) {
      mean[a] = round === 0 ? xn[a]! : 0.7 * mean[a]! + 0.3 * xn[a]!;
      between[a] = 0.5 * (xn[a]! + mean[a]!);
    }
  }

  /** Adds the landmarks that the choice does not meet; how many. */
  private addCuts(lp: LandmarkLp, cuts: readonly number[][]): number {
    let added = 0;
    for (const cut of cuts) {
      let sum = 0;
      for (const a of cut) sum += this.xn[a]!;
      if (sum > 1 - SHORT) continue;
      if (this.add(lp, cut)) added += 1;
    }
    return added;
  }

  /** Searches below a node. */
  private below(lp: LandmarkLp, decided: Decided, parent: number): void {
    if (this.work > this.effort) {
      this.left = Math.min(this.left, parent);
      return;
    }
    this.nodes += 1;
    const { bound, closed } = this.settle(lp, decided, 6, false);
    if (closed || bound >= this.upper) return;
    // A cheaper way found here closes more below than looking costs: 2.0 s to 1.2 for the worst of 25 shared ones.
    this.lookBeside(decided, SHARES);
    if (bound >= this.upper) return;
    const best = Math.max(bound, parent);
    const j = this.toDecide(decided);
    if (j === -1) {
      this.left = Math.min(this.left, best);
      return;
    }
    lp.forgetSlack();
    for (const side of this.xs[j]! >= 0.4 ? [1, -1] : [-1, 1]) {
      if (best >= this.upper) return;
      const child = Int8Array.from(decided);
      child[j] = side;
      if (side === -1) {
        this.holding.begin((a) => this.net.cost[a] === 0 || child[this.column[a]!] !== -1);
        if (!this.holding.done()) continue;
      }
      const copy = new LandmarkLp(lp);
      if (side === 1) copy.demand(j);
      else copy.forbid(j);
      this.below(copy, child, best);
    }
  }

  /** The move to decide next: undecided, most divided, dear; −1 when all are decided. */
  private toDecide(decided: Decided): number {
    let choice = -1;
    let best = -1;
    for (let j = 0; j < decided.length; j++) {
      if (decided[j] !== 0) continue;
      const x = this.xn[this.paid[j]!]!;
      const value = Math.min(x, 1 - x) * this.cost[j]! + 1e-9 * this.cost[j]!;
      if (value > best) {
        best = value;
        choice = j;
      }
    }
    return choice;
  }

  /** Finishes from the root. */
  finish(lp: LandmarkLp, decided: Decided, bound: number): SearchEnd {
    this.below(lp, decided, bound);
    return {
      bound: Math.max(bound, Math.min(this.left, this.upper)),
      nodes: this.nodes,
      work: this.work,
    };
  }
}
