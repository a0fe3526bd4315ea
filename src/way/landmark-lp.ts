/**
 * The cheapest fractional choice of moves that meets every landmark found so far, by the dual simplex method. Rows come
 * and go, and moves are fixed in or out. Kept are only the rows as they are (a few moves each) and the inverse of their
 * tight ones by the moves in use (landmark-inverse.ts): half as high and a third as wide as the whole dictionary, which
 * took three times as long. Its prices (one a landmark) are the best way to share the moves' costs among the landmarks
 * found so far; landmark-cut shares them greedily.
 *
 * Rejected: columns only for moves that pay, the rest taken in when they do. It wants primal steps as well, and these
 * went round in circles: the rows of what a move asks for stand at nought, and so does every step.
 * Lengths of rows worked out every 16 or 32 steps in place of 8, those of moves in use kept in the same way, the column of what
 * enters summed row by row: 0.95 to 1.1 times the time on 200 of 60 parts and on fifteen of 400. Two thirds of the tight rows
 * are what moves ask for, and one step in twenty gains nothing: neither can be spared. A move decided by what one step of its
 * row proves both ways (penalties of Driebeek 1966), alone or with its share: 1.05 to 2.5 times the time, up to 3.5 times the nodes.
 *
 * The arithmetic is floating point, and nothing is claimed from it: `prices` are only a proposal, from which
 * `ProvenBound` (strip-bound.ts) works out a bound in whole numbers.
 */
import { LandmarkBasis } from './landmark-basis.ts';
import { longer } from './landmark-rows.ts';

const TINY = 1e-9;
/** Steps after which all values are worked out anew from the inverse. */
const FRESH = 40;

export class LandmarkLp extends LandmarkBasis {
  /** What the choice costs, in the unit of the costs. */
  private spent = 0;

  /**
   * Dual simplex to the end, or until the choice costs more than `enough`: each step adds to it. False when the landmarks cannot
   * all be met, or rounding has got the better of it.
   */
  solve(enough = Number.POSITIVE_INFINITY): boolean {
    if (this.stale && !this.refresh()) return false;
    this.spent = 0;
    for (let j = 0; j < this.x.length; j++) this.spent += this.cost[j]! * this.x[j]!;
    for (let pivots = 0; ; pivots++) {
      if (this.spent > enough) return true;
      const { inverse } = this;
      this.room(inverse.size + 1);
      if (pivots % 8 === 0)
        for (let i = 0; i < this.here.length; i++)
          if (this.over[i]! < -TINY && this.tightAt[i] === -1) this.through(i);
      // What is farthest beyond its limit for the length of its row leaves (steepest edge, Forrest and Goldfarb 1992).
      let leaves = Number.NaN;
      let worst = 0;
      // Lengths grow as more landmarks are tight: the last one known is enough to see which rows are not worth working out.
      for (let known = -1; ; ) {
        let choice = -1;
        worst = 0;
        for (let i = 0; i < this.here.length; i++) {
          const value = this.over[i]!;
          if (value >= -TINY || this.tightAt[i] !== -1 || value * value <= worst * this.length[i]!) continue;
          worst = (value * value) / this.length[i]!;
          choice = i;
        }
        if (choice === -1) break;
        leaves = ~choice;
        if (choice === known) break;
        known = choice;
        this.through(choice);
      }
      for (let p = 0; p < inverse.size; p++) {
        const j = this.use[p]!;
        const value =
          this.fixed[j] === 0 ? Math.min(0, this.x[j]!) : this.x[j]! - (this.fixed[j] === 1 ? 1 : 0);
        if (value > -TINY && value < TINY) continue;
        const gain = (value * value) / inverse.lengthOf(p);
        if (gain <= worst) continue;
        worst = gain;
        leaves = p;
      }
      if (Number.isNaN(leaves)) {
        if (this.since < FRESH) return true;
        if (!this.refresh()) return false;
        continue;
      }
      if (pivots > 20 * (this.x.length + this.here.length)) return false;
      if (!this.step(leaves)) return false;
    }
  }

  /** Whether the choice costs more than this: then it may not be solved to the end. */
  dear(than: number): boolean {
    return this.spent > than;
  }

  /** One step: `leaves` is a place among the moves in use, or ~ where a landmark stands. False when nothing can enter. */
  private step(leaves: number): boolean {
    const { inverse, entry, place, fixed, left, tight, price, here } = this;
    const { begins, columns, asking } = this.rows;
    const { size } = inverse;
    const slot = leaves < 0 ? ~leaves : -1;
    if (slot === -1) {
      this.row.fill(0, 0, size);
      inverse.addRow(this.row, leaves, 1);
    }
    const { row } = this;
    entry.fill(0);
    for (let r = 0; r < size; r++) {
      const v = row[r]!;
      if (v < 1e-12 && v > -1e-12) continue;
      const k = here[tight[r]!]!;
      const end = begins[k + 1]!;
      for (let at = begins[k]!; at < end; at++) entry[columns[at]!]! -= v;
      if (asking[k] !== -1) entry[asking[k]!]! += v;
      this.done += end - begins[k]!;
    }
    let short: number;
    let up = 1;
    if (slot !== -1) {
      const k = here[slot]!;
      for (let at = begins[k]!; at < begins[k + 1]!; at++) entry[columns[at]!]! += 1;
      if (asking[k] !== -1) entry[asking[k]!]! -= 1;
      short = -this.over[slot]!;
    } else {
      const j = this.use[leaves]!;
      short = (fixed[j] === 1 ? 1 : 0) - this.x[j]!;
      if (short < 0) up = -1;
      short = Math.abs(short);
    }
    let enters = Number.NaN;
    let ratio = Number.POSITIVE_INFINITY;
    let most = 0;
    const weigh = (of: number, e: number, who: number) => {
      const r = Math.max(0, of) / e;
      if (r < ratio - TINY || (r <= ratio + TINY && e > most)) {
        ratio = r;
        enters = who;
        most = e;
      }
    };
    for (let j = 0; j < entry.length; j++)
      if (place[j] === -1 && fixed[j] === 0 && up * entry[j]! > TINY) weigh(left[j]!, up * entry[j]!, j);
    for (let r = 0; r < size; r++) if (up * row[r]! > TINY) weigh(price[tight[r]!]!, up * row[r]!, ~r);
    const none = Number.isNaN(enters);
    // Nothing can make up for it: prices that rise without end prove that there is no way, so they are raised far.
    if (none) {
      ratio = this.cost.reduce((sum, c) => sum + c, 1) / short;
      this.stale = true;
    }
    for (let j = 0; j < entry.length; j++) if (place[j] === -1) left[j]! -= ratio * up * entry[j]!;
    for (let r = 0; r < size; r++) price[tight[r]!]! -= ratio * up * row[r]!;
    if (slot !== -1) price[slot] = ratio;
    else left[this.use[leaves]!] = up * ratio;
    if (none) return false;
    this.pivots += 1;
    this.since += 1;
    this.spent += ratio * short;
    this.exchange(leaves, enters, short / most, up * most);
    return true;
  }

  /** Lets one in by `amount` for the other; `by`: the entry where they meet. */
  private exchange(leaves: number, enters: number, amount: number, by: number): void {
    const { inverse, column, change, x, place, fixed, over, tightAt, tight } = this;
    const { size } = inverse;
    column.fill(0, 0, size);
    if (enters < 0) inverse.addColumn(column, ~enters, 1);
    else
      for (const k of this.rows.of[enters]!) {
        const i = k < this.at.length ? this.at[k]! - 1 : -1;
        const r = i < 0 ? -1 : tightAt[i]!;
        if (r !== -1) inverse.addColumn(column, r, this.rows.all[k]!.asking === enters ? 1 : -1);
      }
    for (let p = 0; p < size; p++) change[this.use[p]!] = column[p]!;
    if (enters >= 0) change[enters] = 1;
    const { begins, columns, asking } = this.rows;
    for (let i = 0; i < this.here.length; i++) {
      if (tightAt[i] !== -1) continue;
      const k = this.here[i]!;
      const end = begins[k + 1]!;
      let sum = asking[k] === -1 ? 0 : -change[asking[k]!]!;
      for (let at = begins[k]!; at < end; at++) sum += change[columns[at]!]!;
      over[i]! += amount * sum;
      this.done += end - begins[k]!;
    }
    for (let p = 0; p < size; p++) {
      const j = this.use[p]!;
      x[j]! += amount * column[p]!;
      change[j] = 0;
    }
    if (enters >= 0) {
      x[enters]! += amount;
      change[enters] = 0;
    } else over[tight[~enters]!] = amount;
    const { row } = this;
    this.use = longer(this.use, size);
    this.tight = longer(this.tight, size);
    if (leaves < 0) {
      const slot = ~leaves;
      over[slot] = 0;
      if (enters >= 0) {
        inverse.grow(column, row, by);
        this.left[enters] = 0;
        this.use[size] = enters;
        place[enters] = size;
        this.tight[size] = slot;
        tightAt[slot] = size;
      } else {
        inverse.changeRow(~enters, column, row, by);
        this.loosen(~enters);
        this.tight[~enters] = slot;
        tightAt[slot] = ~enters;
      }
      return;
    }
    const out = this.use[leaves]!;
    place[out] = -1;
    x[out] = fixed[out] === 1 ? 1 : 0;
    if (enters >= 0) {
      inverse.changeMove(leaves, column, row, by);
      this.left[enters] = 0;
      this.use[leaves] = enters;
      place[enters] = leaves;
      return;
    }
    inverse.shrink(leaves, ~enters, column, row, by);
    this.loosen(~enters);
    const last = size - 1;
    if (leaves !== last) {
      this.use[leaves] = this.use[last]!;
      place[this.use[leaves]!] = leaves;
    }
    if (~enters !== last) {
      this.tight[~enters] = this.tight[last]!;
      tightAt[this.tight[~enters]!] = ~enters;
    }
  }

  private loosen(r: number): void {
    this.tightAt[this.tight[r]!] = -1;
    this.price[this.tight[r]!] = 0;
  }
}
