/**
 * Bounds of the starts with their history. A literal is (k, v): for k = 2i "task i starts at v or later", for k = 2i + 1
 * "task i starts at −v or earlier", so that both are "the bound k is at least v" and the contrary of (k, v) is
 * (k xor 1, 1 − v). Each rise of a bound is kept with its reason, a list of literals that together force it: what the
 * search learns from is taken from there (lazy explanation: Ohrimenko, Stuckey and Codish 2009).
 *
 * Of two tasks that cannot run at once the order is an unknown of its own, 1 for the first before the second. Bounds alone
 * were tried: 20 activities that all get in each other's way were open after 8 seconds.
 */
export type Reason = readonly number[] | null;

export class StartBounds {
  /** Bound of each k. */
  readonly bound: Int32Array;
  /** Rises in the order they came: which bound, to what, the rise of the same bound before it, why. */
  readonly risen: number[] = [];
  readonly to: number[] = [];
  readonly before: number[] = [];
  readonly why: Reason[] = [];
  readonly levels: number[] = [];
  /** Last rise of each bound, −1 for none. */
  readonly last: Int32Array;
  /** Place in the trail at which each level begins. */
  readonly begins: number[] = [];
  /** Literals that cannot all hold, pairs k, v; null while nothing is wrong. */
  conflict: number[] | null = null;
  private readonly first: Int32Array;

  /** `orders`: pairs of tasks of which one comes before the other, each a further unknown from 0 to 1 behind the starts. */
  constructor(tasks: number, horizon: number, orders: number) {
    this.bound = new Int32Array(2 * (tasks + orders));
    for (let i = 0; i < tasks; i++) this.bound[2 * i + 1] = -horizon;
    for (let p = 0; p < orders; p++) this.bound[2 * (tasks + p) + 1] = -1;
    this.first = this.bound.slice();
    this.last = new Int32Array(this.bound.length).fill(-1);
  }

  get level(): number {
    return this.begins.length;
  }

  /** Raises a bound; false when that contradicts the opposite one. */
  raise(k: number, v: number, why: Reason): boolean {
    if (this.bound[k]! >= v) return true;
    if (v + this.bound[k ^ 1]! > 0) {
      // Not the literal itself but what forces it: its contrary may hold for good, and nothing would be learned from that.
      this.conflict = [...(why ?? []), k ^ 1, 1 - v];
      return false;
    }
    this.before.push(this.last[k]!);
    this.last[k] = this.risen.length;
    this.risen.push(k);
    this.to.push(v);
    this.why.push(why);
    this.levels.push(this.level);
    this.bound[k] = v;
    return true;
  }

  /** Opens a level with a decision. */
  decide(k: number, v: number): boolean {
    this.begins.push(this.risen.length);
    return this.raise(k, v, null);
  }

  /** Takes back all levels above one. */
  backTo(level: number): void {
    if (this.level <= level) return;
    const from = this.begins[level]!;
    for (let at = this.risen.length - 1; at >= from; at--) {
      const k = this.risen[at]!;
      const before = this.before[at]!;
      this.last[k] = before;
      this.bound[k] = before < 0 ? this.first[k]! : this.to[before]!;
    }
    this.risen.length = from;
    this.to.length = from;
    this.before.length = from;
    this.why.length = from;
    this.levels.length = from;
    this.begins.length = level;
    this.conflict = null;
  }

  /** The rise by which a literal that holds came to hold, −1 when it always did. */
  riseOf(k: number, v: number): number {
    if (this.first[k]! >= v) return -1;
    let at = this.last[k]!;
    for (let before = this.before[at]!; before >= 0 && this.to[before]! >= v; before = this.before[at]!)
      at = before;
    return at;
  }
}
