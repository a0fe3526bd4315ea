/**
 * Waits that no others imply. The way out of a bike has each step wait for all that needed it, a thousand waits for
 * seventy steps, of which a hundred say it all: the search lifts its bounds along each of them, the clock asks
 * each in every run.
 */

import type { StartLag } from './project.ts';

export interface Wait {
  readonly from: number;
  readonly to: number;
  /** Whether it counts from the end of `from`, whatever time that takes, or from its start. */
  readonly fromEnd: boolean;
  /** Least time between, min. */
  readonly gap: number;
}

const NONE = Number.NEGATIVE_INFINITY;

/**
 * The waits without those that others imply, whatever time each task takes. Only those forward in `order` are implied or
 * imply, so that of two tasks tied to each other neither wait is left out for the other. There a longest chain of
 * the most links is made of waits that are kept.
 */
export function neededWaits<W extends Wait>(order: readonly number[], waits: readonly W[]): W[] {
  const place = placesOf(order);
  // Flat lists: the loop below goes through all of them once for each task.
  const sorted = waits
    .filter(({ from, to }) => place[from]! < place[to]!)
    .sort((a, b) => place[a.to]! - place[b.to]! || place[b.from]! - place[a.from]!);
  const by = Int32Array.from(sorted, ({ from }) => place[from]!);
  const gaps = Float64Array.from(sorted, ({ gap }) => gap);
  const begins = new Int32Array(order.length + 1);
  for (const { to } of sorted) begins[place[to]! + 1]!++;
  for (let k = 0; k < order.length; k++) begins[k + 1]! += begins[k]!;
  const needless = new Set<W>();
  // The least from one task's end, and from its start, to each start after it; by chains of two and more alone.
  const [end, start] = [new Float64Array(order.length), new Float64Array(order.length)];
  for (let first = 0; first < order.length; first++) {
    end.fill(NONE);
    start.fill(NONE);
    for (let k = first + 1; k < order.length; k++) {
      let [fromEnd, fromStart, ownEnd, ownStart] = [NONE, NONE, NONE, NONE];
      for (let w = begins[k]!; w < begins[k + 1]!; w++) {
        const from = by[w]!;
        const gap = gaps[w]!;
        // Those that follow come from before as well.
        if (from < first) break;
        if (from === first) {
          if (sorted[w]!.fromEnd) ownEnd = Math.max(ownEnd, gap);
          else ownStart = Math.max(ownStart, gap);
          continue;
        }
        // A task's end is not before its start: what is after the one is after the other.
        if (end[from]! + gap > fromEnd) fromEnd = end[from]! + gap;
        if (start[from]! + gap > fromStart) fromStart = start[from]! + gap;
      }
      if (ownEnd > NONE || ownStart > NONE)
        for (let w = begins[k]!; w < begins[k + 1]!; w++) {
          if (by[w] !== first) continue;
          if (sorted[w]!.fromEnd ? fromEnd >= gaps[w]! : Math.max(fromStart, ownEnd) >= gaps[w]!)
            needless.add(sorted[w]!);
        }
      end[k] = Math.max(fromEnd, ownEnd);
      start[k] = Math.max(fromStart, ownStart, end[k]!);
    }
  }
  return waits.filter((wait) => !needless.has(wait));
}

/** The lags of so many tasks without those that others imply; of several between the same two tasks the strongest. */
export function neededLags(tasks: number, lags: readonly StartLag[]): StartLag[] {
  const best = new Map<number, StartLag>();
  for (const lag of lags) {
    const pair = tasks * lag.from + lag.to;
    const known = best.get(pair);
    if (!known || lag.least > known.least) best.set(pair, lag);
  }
  const all = [...best.values()];
  const waits = all.filter(({ least }) => least >= 0);
  const order = inOrder(tasks, waits);
  const place = placesOf(order);
  const forward = waits.filter(({ from, to }) => place[from]! < place[to]!);
  const needless = new Set(impliedLags(place, forward).map((n) => forward[n]!));
  return all.filter((lag) => !needless.has(lag));
}

/** Which of these lags, all forward in order, a chain of two or more makes at least as long: their indices. */
function impliedLags(place: Int32Array, forward: readonly StartLag[]): number[] {
  const n = place.length;
  // Lags from the k-th in order: from `begins[k]` up to `begins[k + 1]`, to where in the order, and by how much.
  const begins = new Int32Array(n + 1);
  for (const { from } of forward) begins[place[from]! + 1]!++;
  for (let k = 0; k < n; k++) begins[k + 1]! += begins[k]!;
  const next = begins.slice();
  const index = new Int32Array(forward.length);
  forward.forEach(({ from }, lag) => {
    index[next[place[from]!]!++] = lag;
  });
  const to = index.map((lag) => place[forward[lag]!.to]!);
  const least = Float64Array.from(index, (lag) => forward[lag]!.least);
  // Longest way from one task to each after it, and the longest of two lags and more.
  const [longest, chain] = [new Float64Array(n), new Float64Array(n)];
  const implied: number[] = [];
  for (let first = 0; first < n; first++) {
    const [own, end] = [begins[first]!, begins[first + 1]!];
    // A single lag is not implied by itself.
    if (end - own < 2) continue;
    longest.fill(NONE);
    chain.fill(NONE);
    let last = first;
    for (let e = own; e < end; e++) {
      longest[to[e]!] = least[e]!;
      last = Math.max(last, to[e]!);
    }
    for (let k = first + 1; k < last; k++) {
      const far = longest[k]!;
      if (far === NONE) continue;
      for (let e = begins[k]!; e < begins[k + 1]!; e++) {
        const there = to[e]!;
        const both = far + least[e]!;
        if (both > chain[there]!) chain[there] = both;
        if (both > longest[there]!) longest[there] = both;
      }
    }
    for (let e = own; e < end; e++) if (chain[to[e]!]! >= least[e]!) implied.push(index[e]!);
  }
  return implied;
}

function placesOf(order: readonly number[]): Int32Array {
  const place = new Int32Array(order.length);
  order.forEach((task, k) => {
    place[task] = k;
  });
  return place;
}

/** Tasks so that what waits comes after what it waits for; those that wait for each other as they come. */
function inOrder(tasks: number, waits: readonly StartLag[]): number[] {
  const after: number[][] = Array.from({ length: tasks }, () => []);
  const open = new Int32Array(tasks);
  for (const { from, to } of waits) {
    after[from]!.push(to);
    open[to]!++;
  }
  const order: number[] = [];
  const ready = [...open.keys()].filter((task) => open[task] === 0);
  for (let task = ready.pop(); task !== undefined; task = ready.pop()) {
    order.push(task);
    for (const next of after[task]!) if (--open[next]! === 0) ready.push(next);
  }
  const placed = new Set(order);
  for (let task = 0; task < tasks; task++) if (!placed.has(task)) order.push(task);
  return order;
}
