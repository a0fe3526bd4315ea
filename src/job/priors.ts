/**
 * Chances before any reading: what the catalogue's weights and the chances that a mechanic has set in this job come to
 * on one bike. The verdict works with weights within sets of up to three faults; a mechanic thinks in "so many of a
 * hundred bikes". Here is the way from one to the other and back.
 */
import type { FaultId } from '../fault/catalogue.ts';
import { FAULT_IDS, FAULTS, faultPossible } from '../fault/faults.ts';
import { catalogueWeights } from '../verdict/field.ts';
import { CASCADE, COUNT, mayJoin } from '../verdict/sets.ts';
import type { OwnPrior } from './fold.ts';

export type Weights = Readonly<Record<FaultId, number>>;
export type Build = Parameters<typeof faultPossible>[1];

/** Rounds of fitting weights to chances at most; each brings them several times nearer. */
const ROUNDS = 200;
/** Near enough, as a share of the chance. */
const NEAR = 1e-4;
/** A weight beyond this share of all others says nothing more. */
const HEAVIEST = 50;

function factor(a: FaultId, b: FaultId): number {
  let product = 1;
  for (const [one, other, times] of CASCADE)
    if ((one === a && other === b) || (one === b && other === a)) product *= times;
  return product;
}

interface Pair {
  readonly a: number;
  readonly b: number;
  readonly times: number;
}

/**
 * Faults with a chance of their own on this bike. A flat battery has none: it is told by the state of charge of a bike
 * that is otherwise sound.
 */
export function chanceFaults(build: Build): readonly FaultId[] {
  return FAULT_IDS.filter((id) => id !== 'battery-flat' && faultPossible(id, build));
}

/** The faults this bike can have, which pairs of them can be there at once, and the weight of the others. */
function openBuild(build: Build): {
  readonly ids: readonly FaultId[];
  readonly pairs: readonly Pair[];
  readonly others: number;
} {
  const ids = chanceFaults(build);
  const others = FAULT_IDS.filter((id) => !ids.includes(id)).reduce((sum, id) => sum + FAULTS[id].prior, 0);
  const pairs: Pair[] = [];
  for (const [a, fault] of ids.entries())
    for (let b = a + 1; b < ids.length; b++) {
      const other = ids[b]!;
      if (mayJoin([{ fault }], { fault: other })) pairs.push({ a, b, times: factor(fault, other) });
    }
  return { ids, pairs, others };
}

/** Chance of each fault, over all sets of up to three, before any reading and before the owner's words. */
function chancesOf(weights: readonly number[], others: number, pairs: readonly Pair[]): number[] {
  const total = weights.reduce((sum, weight) => sum + weight, others);
  const share = weights.map((weight) => weight / total);
  const n = share.length;
  const times = new Float64Array(n * n);
  for (const pair of pairs) {
    times[pair.a * n + pair.b] = pair.times;
    times[pair.b * n + pair.a] = pair.times;
  }
  const sums = new Array<number>(n).fill(0);
  let all: number = COUNT[0];
  for (let a = 0; a < n; a++) {
    const one = COUNT[1] * share[a]!;
    all += one;
    sums[a]! += one;
  }
  for (const { a, b, times: ab } of pairs) {
    const pair = share[a]! * share[b]! * ab;
    const two = 2 * COUNT[2] * pair;
    all += two;
    sums[a]! += two;
    sums[b]! += two;
    for (let c = b + 1; c < n; c++) {
      const both = times[a * n + c]! * times[b * n + c]!;
      if (both === 0) continue;
      const three = 6 * COUNT[3] * pair * share[c]! * both;
      all += three;
      sums[a]! += three;
      sums[b]! += three;
      sums[c]! += three;
    }
  }
  return sums.map((sum) => sum / all);
}

/** Chance of each fault this bike can have, share of bikes that somebody complains of, 0–1. */
export function priorChances(weights: Weights, build: Build): ReadonlyMap<FaultId, number> {
  const { ids, pairs, others } = openBuild(build);
  const chances = chancesOf(
    ids.map((id) => weights[id]),
    others,
    pairs,
  );
  return new Map(ids.map((id, at) => [id, chances[at]!]));
}

/**
 * Weights with which the faults in `own` have the chances set for them and all others keep the catalogue's weights
 * among themselves. Chances that cannot stand together (four faults of a half each, where a bike has one and a half
 * on average) come as near as they can. Words that this version does not know are passed over.
 */
export function ownWeights(own: readonly OwnPrior[], build: Build): Weights {
  const weights: Record<FaultId, number> = { ...catalogueWeights() };
  const { ids, pairs, others } = openBuild(build);
  const wanted = own.flatMap(({ fault, chance }) => {
    const at = (ids as readonly string[]).indexOf(fault);
    return at < 0 ? [] : [{ at, chance }];
  });
  if (wanted.length === 0) return weights;
  const list = ids.map((id) => weights[id]);
  const heaviest = HEAVIEST * list.reduce((sum, weight) => sum + weight, 0);
  const odds = (chance: number): number => chance / (1 - chance);
  for (let round = 0; round < ROUNDS; round++) {
    const now = chancesOf(list, others, pairs);
    if (wanted.every(({ at, chance }) => Math.abs(now[at]! / chance - 1) < NEAR)) break;
    for (const { at, chance } of wanted)
      list[at] = Math.min(heaviest, (list[at]! * odds(chance)) / odds(Math.min(0.999, now[at]!)));
  }
  for (const [at, id] of ids.entries()) weights[id] = list[at]!;
  return weights;
}
