/**
 * What lags, resources and shut hours say of the starts, each with its reason.
 *
 * - A lag lifts the later start and holds back the earlier one.
 * - Two tasks that cannot run at once are in one order or the other (disjunctive pairs).
 * - What must run at a time, whenever it starts exactly, fills the resource there; who does not fit beside it goes past
 *   (time-tabling, explained time by time: Schutt, Feydy, Stuckey and Wallace 2011).
 * - A task that needs people does not overlap shut hours.
 */
import { neededLags } from './needed-waits.ts';
import type { Nogoods } from './nogoods.ts';
import type { OpenOrders } from './open-orders.ts';
import type { Project } from './project.ts';
import type { StartBounds } from './start-bounds.ts';

export class Propagation {
  /** Lags from bound j: from `begins[j]` up to `begins[j + 1]`, to which bound and by how much. */
  private readonly begins: Int32Array;
  private readonly lagTo: Int32Array;
  private readonly lagBy: Int32Array;
  private readonly durations: Int32Array;
  private readonly demands: Int32Array[];
  private readonly users: number[][];
  /** The two tasks of each pair, and the pairs of each task. */
  private readonly firsts: Int32Array;
  private readonly seconds: Int32Array;
  private readonly pairsOf: Int32Array[];
  private readonly resourcesOf: number[][];
  private readonly state: StartBounds;
  private readonly nogoods: Nogoods;
  private readonly project: Project;
  private head = 0;
  private readonly dirtyTasks: Uint8Array;
  private readonly dirty: number[] = [];
  private readonly dirtyResources: Uint8Array;
  /** The profile of one resource: where a piece begins, and how much of it is taken from there on. */
  private readonly times: number[] = [];
  private readonly heights: number[] = [];
  private readonly events: Float64Array;

  constructor(project: Project, { pairs, complete }: OpenOrders, state: StartBounds, nogoods: Nogoods) {
    this.project = project;
    this.state = state;
    this.nogoods = nogoods;
    const { tasks, lags, capacity } = project;
    const n = tasks.length;
    const edges = neededLags(n, lags)
      .flatMap(({ from, to, least }) => [
        { j: 2 * from, k: 2 * to, least },
        { j: 2 * to + 1, k: 2 * from + 1, least },
      ])
      .sort((a, b) => a.j - b.j);
    // Orders of pairs have no lags: their places stay empty.
    this.begins = new Int32Array(2 * (n + pairs.length) + 1);
    for (const { j } of edges) this.begins[j + 1]!++;
    for (let j = 1; j < this.begins.length; j++) this.begins[j]! += this.begins[j - 1]!;
    this.lagTo = Int32Array.from(edges, ({ k }) => k);
    this.lagBy = Int32Array.from(edges, ({ least }) => least);
    this.durations = Int32Array.from(tasks, (task) => task.duration);
    this.demands = capacity.map((_, r) => Int32Array.from(tasks, (task) => task.demand[r] ?? 0));
    const uses = (i: number, r: number) => this.durations[i]! > 0 && this.demands[r]![i]! > 0;
    this.users = capacity.map((_, r) => tasks.flatMap((_, i) => (uses(i, r) ? [i] : [])));
    // Where no two can run at once, what fills the resource says nothing that their orders do not.
    const paired = capacity.map(
      (most, r) => complete && this.users[r]!.every((i) => 2 * this.demands[r]![i]! > most),
    );
    this.resourcesOf = tasks.map((_, i) => capacity.flatMap((_, r) => (uses(i, r) && !paired[r] ? [r] : [])));
    this.firsts = Int32Array.from(pairs, ({ a }) => a);
    this.seconds = Int32Array.from(pairs, ({ b }) => b);
    const pairsOf: number[][] = tasks.map(() => []);
    pairs.forEach(({ a, b }, p) => {
      pairsOf[a]!.push(p);
      pairsOf[b]!.push(p);
    });
    this.pairsOf = pairsOf.map((list) => Int32Array.from(list));
    this.dirtyTasks = new Uint8Array(n);
    this.events = new Float64Array(2 * n);
    this.dirtyResources = new Uint8Array(capacity.length);
  }

  /** Everything is looked at anew: at the start, and whenever the root has changed. */
  wake(): void {
    this.head = 0;
    for (let i = 0; i < this.durations.length; i++) this.mark(i);
  }

  /** After levels were taken back. */
  settle(): void {
    this.head = Math.min(this.head, this.state.risen.length);
  }

  private mark(i: number): void {
    for (const r of this.resourcesOf[i]!) this.dirtyResources[r] = 1;
    if (this.dirtyTasks[i]) return;
    this.dirtyTasks[i] = 1;
    this.dirty.push(i);
  }

  private drop(): false {
    for (const i of this.dirty) this.dirtyTasks[i] = 0;
    this.dirty.length = 0;
    // What was not looked at stays to be looked at: the resources keep their marks.
    return false;
  }

  /** To the fixed point; false on a conflict, which the state then holds. */
  run(): boolean {
    const { state } = this;
    const tasks = this.durations.length;
    if (state.conflict) return this.drop();
    for (;;) {
      while (this.head < state.risen.length) {
        const j = state.risen[this.head++]!;
        this.mark(j >> 1 < tasks ? j >> 1 : this.firsts[(j >> 1) - tasks]!);
        if (!this.nogoods.risen(j)) return this.drop();
        const v = state.bound[j]!;
        for (let e = this.begins[j]!; e < this.begins[j + 1]!; e++) {
          const to = this.lagTo[e]!;
          const value = v + this.lagBy[e]!;
          if (state.bound[to]! < value && !state.raise(to, value, [j, v])) return this.drop();
        }
      }
      const before = state.risen.length;
      while (this.dirty.length > 0) {
        const i = this.dirty.pop()!;
        this.dirtyTasks[i] = 0;
        if (!this.keepHours(i) || !this.keepPairs(i)) return this.drop();
      }
      if (state.risen.length > before) continue;
      for (let r = 0; r < this.users.length; r++) {
        if (!this.dirtyResources[r]) continue;
        this.dirtyResources[r] = 0;
        if (!this.keepResource(r)) {
          this.dirtyResources[r] = 1;
          return this.drop();
        }
        if (state.risen.length > before) break;
      }
      if (state.risen.length > before) continue;
      if (this.dirtyResources.includes(1)) continue;
      return true;
    }
  }

  private keepHours(i: number): boolean {
    const { shut, tasks } = this.project;
    const { state } = this;
    const long = this.durations[i]!;
    if (!tasks[i]!.attended || long === 0) return true;
    for (const { from, to } of shut) {
      const start = state.bound[2 * i]!;
      if (start >= to) continue;
      if (start <= from - long) break;
      if (!state.raise(2 * i, to, [2 * i, from - long + 1])) return false;
    }
    for (let n = shut.length - 1; n >= 0; n--) {
      const { from, to } = shut[n]!;
      const latest = -state.bound[2 * i + 1]!;
      if (latest <= from - long) continue;
      if (latest >= to) break;
      if (!state.raise(2 * i + 1, long - from, [2 * i + 1, 1 - to])) return false;
    }
    return true;
  }

  private keepPairs(i: number): boolean {
    const { state, durations, firsts, seconds } = this;
    const { bound } = state;
    const own = this.pairsOf[i]!;
    for (let n = 0; n < own.length; n++) {
      const p = own[n]!;
      const [a, b] = [firsts[p]!, seconds[p]!];
      const order = 2 * (durations.length + p);
      // Where one cannot be done before the other begins at the latest, it comes second; told as weakly as it holds.
      if (bound[order]! < 1 && bound[order + 1]! < 0) {
        const [afterA, afterB] = [bound[2 * a]! + durations[a]!, bound[2 * b]! + durations[b]!];
        if (
          afterA + bound[2 * b + 1]! > 0 &&
          !state.raise(order + 1, 0, [2 * a, bound[2 * a]!, 2 * b + 1, 1 - afterA])
        )
          return false;
        if (
          afterB + bound[2 * a + 1]! > 0 &&
          !state.raise(order, 1, [2 * b, bound[2 * b]!, 2 * a + 1, 1 - afterB])
        )
          return false;
      }
      if (bound[order]! >= 1 && !this.keepOrder(a, b, order, 1)) return false;
      if (bound[order + 1]! >= 0 && !this.keepOrder(b, a, order + 1, 0)) return false;
    }
    return true;
  }

  /** The first task is before the second because the literal (k, v) holds. */
  private keepOrder(first: number, second: number, k: number, v: number): boolean {
    const { state, durations } = this;
    const { bound } = state;
    const long = durations[first]!;
    const start = bound[2 * first]!;
    if (bound[2 * second]! < start + long && !state.raise(2 * second, start + long, [k, v, 2 * first, start]))
      return false;
    const latest = bound[2 * second + 1]!;
    return (
      bound[2 * first + 1]! >= latest + long ||
      state.raise(2 * first + 1, latest + long, [k, v, 2 * second + 1, latest])
    );
  }

  private keepResource(r: number): boolean {
    const { state, durations } = this;
    const need = this.demands[r]!;
    const most = this.project.capacity[r]!;
    if (!this.fillProfile(r)) return true;
    const { times, heights } = this;
    for (let p = 0; p < times.length; p++)
      if (heights[p]! > most) {
        const why: number[] = [];
        this.blame(r, times[p]!, most, -1, why);
        state.conflict = why;
        return false;
      }
    for (const j of this.users[r]!) {
      const long = durations[j]!;
      let early = state.bound[2 * j]!;
      let late = -state.bound[2 * j + 1]!;
      if (early === late) continue;
      const own = late;
      const past = early + long;
      const room = most - need[j]!;
      let p = this.pieceAt(early);
      for (; p < times.length && times[p]! < early + long; p++) {
        const end = times[p + 1] ?? Number.POSITIVE_INFINITY;
        if (end <= early || this.leaves(p, room, own, past, need[j]!)) continue;
        const to = Math.min(end, early + long);
        const at = to - 1;
        const why = [2 * j, at - long + 1];
        this.blame(r, at, room, j, why);
        if (!state.raise(2 * j, to, why)) return false;
        early = to;
        p--;
      }
      p = this.pieceAt(late + long - 1);
      for (; p >= 0; p--) {
        const end = times[p + 1] ?? Number.POSITIVE_INFINITY;
        if (end <= late) break;
        if (times[p]! >= late + long || this.leaves(p, room, own, past, need[j]!)) continue;
        const at = Math.max(times[p]!, late);
        const why = [2 * j + 1, -at];
        this.blame(r, at, room, j, why);
        late = at - long;
        if (!state.raise(2 * j + 1, -late, why)) return false;
        p = this.pieceAt(late + long - 1) + 1;
      }
    }
    return true;
  }

  /** Whether a piece of the profile leaves room for a task, whose own part of it from `own` to `past` does not count. */
  private leaves(p: number, room: number, own: number, past: number, need: number): boolean {
    const { times, heights } = this;
    return heights[p]! - (times[p]! >= own && times[p]! < past ? need : 0) <= room;
  }

  /** Index of the piece of the profile that a time lies in; 0 before the first. */
  private pieceAt(at: number): number {
    const { times } = this;
    let [low, high] = [0, times.length - 1];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (times[middle]! <= at) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  /** Fills the profile of what must run; false when nothing must. */
  private fillProfile(r: number): boolean {
    const { state, durations, times, heights } = this;
    const need = this.demands[r]!;
    const { events } = this;
    // An event is its time, then its task, then whether it is the task's end: one number, so that they are sorted as numbers.
    const unit = 2 * durations.length;
    let many = 0;
    for (const i of this.users[r]!) {
      const from = -state.bound[2 * i + 1]!;
      const to = state.bound[2 * i]! + durations[i]!;
      if (from >= to) continue;
      events[many++] = from * unit + 2 * i;
      events[many++] = to * unit + 2 * i + 1;
    }
    times.length = 0;
    heights.length = 0;
    if (many === 0) return false;
    events.subarray(0, many).sort();
    let height = 0;
    let last = Number.NEGATIVE_INFINITY;
    for (let n = 0; n < many; n++) {
      const at = Math.floor(events[n]! / unit);
      const who = events[n]! - at * unit;
      height += who % 2 === 0 ? need[who >> 1]! : -need[who >> 1]!;
      if (at === last) heights[heights.length - 1] = height;
      else {
        times.push(at);
        heights.push(height);
        last = at;
      }
    }
    return true;
  }

  /** Adds tasks that must run at a time, the largest first, until together they need more than `room`. */
  private blame(r: number, at: number, room: number, but: number, into: number[]): void {
    const { state, durations } = this;
    const need = this.demands[r]!;
    const there = this.users[r]!.filter(
      (i) => i !== but && -state.bound[2 * i + 1]! <= at && state.bound[2 * i]! + durations[i]! > at,
    ).sort((a, b) => need[b]! - need[a]!);
    let sum = 0;
    for (const i of there) {
      into.push(2 * i, at - durations[i]! + 1, 2 * i + 1, -at);
      sum += need[i]!;
      if (sum > room) return;
    }
  }
}
