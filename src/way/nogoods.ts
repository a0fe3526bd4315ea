/**
 * What the search has learned: clauses of literals of which one must hold, watched by two of them (Moskewicz et al. 2001),
 * and how a conflict becomes one: literals of its own level are replaced by their reasons until a single one is left
 * (first unique implication point: Marques-Silva and Sakallah 1999), over bounds instead of Booleans (Schutt, Feydy,
 * Stuckey and Wallace 2013 for RCPSP/max).
 */
import type { StartBounds } from './start-bounds.ts';

interface Clause {
  /** Pairs k, v: one of "bound k is at least v" must hold. The first two are watched. */
  readonly literals: number[];
  /** Conflict in which it was last of use. */
  met: number;
}

export interface Learned {
  readonly literals: readonly number[];
  /** Level to go back to, where the first literal is forced. */
  readonly level: number;
}

const DECAY = 1 / 0.95;
const RESCALE = 1e100;

export class Nogoods {
  /** How often each task was met in conflicts lately. */
  readonly activity: Float64Array;
  private readonly state: StartBounds;
  private readonly watches: Clause[][];
  private clauses: Clause[] = [];
  private bump = 1;
  private conflicts = 0;
  private readonly asked: Int32Array;
  private readonly at: Int32Array;

  constructor(state: StartBounds) {
    this.state = state;
    const bounds = state.bound.length;
    this.watches = Array.from({ length: bounds }, () => []);
    this.activity = new Float64Array(bounds >> 1);
    this.asked = new Int32Array(bounds);
    this.at = new Int32Array(bounds).fill(-1);
  }

  get size(): number {
    return this.clauses.length;
  }

  /** Goes through the clauses that watch a bound which has risen; false on a conflict. */
  risen(j: number): boolean {
    const { state } = this;
    const { bound } = state;
    const list = this.watches[j]!;
    let kept = 0;
    for (let n = 0; n < list.length; n++) {
      const clause = list[n]!;
      const { literals } = clause;
      // A clause has each bound once: the watched literal whose contrary may now hold is put second.
      if (literals[0] === (j ^ 1)) swap(literals, 0, 2);
      if (1 - literals[3]! > bound[j]! || bound[literals[0]!]! >= literals[1]!) {
        list[kept++] = clause;
        continue;
      }
      let found = false;
      for (let m = 4; m < literals.length; m += 2) {
        if (bound[literals[m]! ^ 1]! >= 1 - literals[m + 1]!) continue;
        swap(literals, 2, m);
        this.watches[literals[2]! ^ 1]!.push(clause);
        found = true;
        break;
      }
      if (found) continue;
      list[kept++] = clause;
      const why: number[] = [];
      for (let m = 2; m < literals.length; m += 2) why.push(literals[m]! ^ 1, 1 - literals[m + 1]!);
      if (!state.raise(literals[0]!, literals[1]!, why)) {
        for (let m = n + 1; m < list.length; m++) list[kept++] = list[m]!;
        list.length = kept;
        this.touch(clause);
        return false;
      }
    }
    list.length = kept;
    return true;
  }

  /** Turns the state's conflict into a clause; null when it follows from nothing that was decided. */
  analyse(): Learned | null {
    const { state, asked, at } = this;
    const { risen, levels, why } = state;
    const conflict = state.conflict!;
    // A conflict may stand below the level that was opened last.
    let level = 0;
    for (let n = 0; n < conflict.length; n += 2) {
      const rise = state.riseOf(conflict[n]!, conflict[n + 1]!);
      if (rise >= 0) level = Math.max(level, levels[rise]!);
    }
    if (level === 0) return null;
    const held: number[] = [];
    let here = 0;
    const ask = (k: number, v: number): void => {
      const rise = state.riseOf(k, v);
      if (rise < 0 || levels[rise] === 0) return;
      this.touchTask(k >> 1);
      if (at[k]! >= 0) {
        if (v <= asked[k]!) return;
        if (levels[at[k]!]! === level) here--;
      } else held.push(k);
      asked[k] = v;
      at[k] = rise;
      if (levels[rise] === level) here++;
    };
    for (let n = 0; n < conflict.length; n += 2) ask(conflict[n]!, conflict[n + 1]!);
    let place = risen.length - 1;
    let sole = -1;
    for (; place >= 0; place--) {
      const k = risen[place]!;
      if (at[k] !== place) continue;
      if (here === 1) {
        sole = k;
        break;
      }
      const reason = why[place]!;
      at[k] = -1;
      here--;
      for (let n = 0; n < reason.length; n += 2) ask(reason[n]!, reason[n + 1]!);
    }
    const literals = [sole ^ 1, 1 - asked[sole]!];
    let back = 0;
    for (const k of new Set(held)) {
      if (at[k]! < 0 || k === sole) continue;
      if (this.follows(k)) continue;
      literals.push(k ^ 1, 1 - asked[k]!);
      const its = levels[at[k]!]!;
      if (its > back) {
        back = its;
        swap(literals, 2, literals.length - 2);
      }
    }
    for (const k of held) at[k] = -1;
    this.bump *= DECAY;
    this.conflicts++;
    if (this.bump > RESCALE) {
      for (let n = 0; n < this.activity.length; n++) this.activity[n]! /= RESCALE;
      this.bump /= RESCALE;
    }
    return { literals, level: back };
  }

  /** Whether a literal of the clause follows from others of it. */
  private follows(k: number): boolean {
    const { state, asked, at } = this;
    const reason = state.why[at[k]!];
    if (!reason) return false;
    for (let n = 0; n < reason.length; n += 2) {
      const [j, v] = [reason[n]!, reason[n + 1]!];
      if (j === k) return false;
      if (at[j]! >= 0 && asked[j]! >= v) continue;
      const rise = state.riseOf(j, v);
      if (rise >= 0 && state.levels[rise] !== 0) return false;
    }
    return true;
  }

  /** Keeps a clause and forces its first literal, whose others are all false; false on a conflict. */
  learn(literals: readonly number[]): boolean {
    const why: number[] = [];
    for (let m = 2; m < literals.length; m += 2) why.push(literals[m]! ^ 1, 1 - literals[m + 1]!);
    if (literals.length > 2) {
      const clause = { literals: [...literals], met: this.conflicts };
      this.clauses.push(clause);
      this.watches[literals[0]! ^ 1]!.push(clause);
      this.watches[literals[2]! ^ 1]!.push(clause);
    }
    return this.state.raise(literals[0]!, literals[1]!, why);
  }

  /** Forgets the half of the clauses that were of no use for longest; false on a conflict. Only at level 0. */
  forget(): boolean {
    const { bound } = this.state;
    this.clauses.sort((a, b) => b.met - a.met);
    const keep = this.clauses.length >> 1;
    for (const list of this.watches) list.length = 0;
    const kept: Clause[] = [];
    for (const [n, clause] of this.clauses.entries()) {
      const { literals } = clause;
      if (n >= keep && literals.length > 4) continue;
      // What holds for good needs no clause; a watch may not stand on what is false for good.
      const open: number[] = [];
      let holds = false;
      for (let m = 0; m < literals.length; m += 2) {
        if (bound[literals[m]!]! >= literals[m + 1]!) holds = true;
        if (bound[literals[m]! ^ 1]! < 1 - literals[m + 1]!) open.push(m);
      }
      if (holds) continue;
      if (open.length < 2) {
        const m = open[0] ?? 0;
        if (!this.state.raise(literals[m]!, literals[m + 1]!, [])) return false;
        continue;
      }
      swap(literals, 0, open[0]!);
      swap(literals, 2, open[1]!);
      this.watches[literals[0]! ^ 1]!.push(clause);
      this.watches[literals[2]! ^ 1]!.push(clause);
      kept.push(clause);
    }
    this.clauses = kept;
    return true;
  }

  private touch(clause: Clause): void {
    clause.met = this.conflicts;
  }

  private touchTask(task: number): void {
    this.activity[task]! += this.bump;
  }
}

function swap(literals: number[], a: number, b: number): void {
  if (a === b) return;
  const [k, v] = [literals[a]!, literals[a + 1]!];
  literals[a] = literals[b]!;
  literals[a + 1] = literals[b + 1]!;
  literals[b] = k;
  literals[b + 1] = v;
}
