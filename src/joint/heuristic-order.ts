/**
 * A good order where there are too many screws for an exact one: a beam of the most even beginnings, grown a screw at
 * a time, and the best mended by moving and swapping single screws until no such change helps. On layouts
 * small enough to solve exactly it lands within a few per cent (test/joint/heuristic-order.test.ts); beyond, the
 * distance to the least conceivable J is told.
 */
import { openStream } from '../numbers/random.ts';
import { type Layout, unevenness } from './layout.ts';

/** Beginnings kept at each length, count: fewer where there are many screws, so that 100 take seconds, not a minute. */
const beamWidth = (screws: number) => Math.max(60, Math.min(300, Math.floor(8000 / screws)));
/** Gains below this are rounding. */
const GAIN = 1e-12;

interface Beginning {
  readonly cost: number;
  readonly order: readonly number[];
  readonly done: ReadonlySet<number>;
  readonly sums: readonly number[];
  /** Names the set of screws done; two sets share one so rarely that the loss of one beginning does not matter. */
  readonly name: number;
}

interface Step {
  readonly cost: number;
  readonly from: Beginning;
  readonly screw: number;
  readonly name: number;
}

const NOTHING: Beginning = { cost: 0, order: [], done: new Set(), sums: [0, 0, 0, 0], name: 0 };

function beam({ count, pulls }: Layout, first: number | null): readonly number[] {
  const stream = openStream(count);
  const names = Array.from({ length: count }, () => Math.floor(stream() * 2 ** 32) | 0);
  let kept: readonly Beginning[] = [NOTHING];
  for (let length = 0; length < count; length++) {
    const steps = new Map<number, Step>();
    for (const from of kept) {
      for (let screw = 0; screw < count; screw++) {
        if (from.done.has(screw) || (length === 0 && first !== null && screw !== first)) continue;
        let cost = from.cost;
        for (let k = 0; k < 4; k++) cost += (from.sums[k]! + pulls[screw * 4 + k]!) ** 2;
        const name = from.name ^ names[screw]!;
        // Two ways to one set: only the cheaper can lead to the best.
        const known = steps.get(name);
        if (!known || cost < known.cost - GAIN) steps.set(name, { cost, from, screw, name });
      }
    }
    kept = [...steps.values()]
      .sort((a, b) => a.cost - b.cost)
      .slice(0, beamWidth(count))
      .map(({ cost, from, screw, name }) => ({
        cost,
        order: [...from.order, screw],
        done: new Set(from.done).add(screw),
        sums: from.sums.map((sum, k) => sum + pulls[screw * 4 + k]!),
        name,
      }));
  }
  // At full length all ways lead to one set: the cheapest is left.
  return kept[0]!.order;
}

function swapped(order: readonly number[], i: number, j: number): number[] {
  const next = [...order];
  [next[i], next[j]] = [order[j]!, order[i]!];
  return next;
}

function moved(order: readonly number[], i: number, j: number): number[] {
  const next = [...order];
  next.splice(j, 0, ...next.splice(i, 1));
  return next;
}

/** Moves and swaps until none helps; the first screw stays where it was asked for. */
export function mendOrder(layout: Layout, start: readonly number[], keepFirst: boolean): number[] {
  let order = [...start];
  let cost = unevenness(layout, order);
  for (let helped = true; helped; ) {
    helped = false;
    for (let i = keepFirst ? 1 : 0; i < order.length; i++) {
      for (let j = keepFirst ? 1 : 0; j < order.length; j++) {
        if (i === j) continue;
        for (const next of [moved(order, i, j), swapped(order, i, j)]) {
          const trial = unevenness(layout, next);
          if (trial >= cost - GAIN) continue;
          [order, cost, helped] = [next, trial, true];
        }
      }
    }
  }
  return order;
}

/** A good order of all screws, places from 0, with `first` in front unless it is null. */
export function heuristicOrder(layout: Layout, first: number | null = null): number[] {
  return mendOrder(layout, beam(layout, first), first !== null);
}

/**
 * A good order of opposite pairs (and a screw in the middle), places from 0: always the pair that leaves the least
 * unevenness next. Step `first` goes in front unless it is null.
 */
export function heuristicPairs(
  layout: Layout,
  steps: readonly (readonly [number] | readonly [number, number])[],
  first: number | null = null,
): number[] {
  const order: number[] = first === null ? [] : [...steps[first]!];
  const left = new Set(steps.filter((_, j) => j !== first));
  while (left.size > 0) {
    let next: readonly number[] = [];
    let least = Number.POSITIVE_INFINITY;
    for (const step of left) {
      const cost = unevenness(layout, [...order, ...step]);
      if (cost < least - GAIN) [next, least] = [step, cost];
    }
    order.push(...next);
    for (const step of left) if (step === next) left.delete(step);
  }
  return order;
}
