/**
 * The exact policy on a small listed model, by dynamic programming over every combination of outcomes: the yardstick
 * for choosers that look less far. Up to 8 tests of 2 or 3 outcomes (at most 4^8 = 65,536 states).
 */
import { type Choice, chooseTest, paidBy, setUpToPay, type TestModel } from './lookahead.ts';

/** A rule that says which test comes next; null = stop and act. */
export type Policy = (weights: Float64Array, taken: number) => number | null;

/** Value of a policy from the start, and its first move. */
export interface PolicyValue {
  /** Expected cost of tests and of the final action, in the unit of the stop loss. */
  readonly loss: number;
  /** Test made first; null = stop at once. */
  readonly first: number | null;
}

/** Most states that are listed. */
const MOST_STATES = 65_536;

/** Exact optimum of `model` from `weights` (adding up to 1). */
export function exactPolicy(model: TestModel, weights: Float64Array): PolicyValue {
  return walk(model, weights, null);
}

/** Expected loss of following `policy` from `weights`, exactly, over every outcome. */
export function policyLoss(model: TestModel, weights: Float64Array, policy: Policy): PolicyValue {
  return walk(model, weights, policy);
}

/** The two-step chooser as a policy. */
export function twoStepPolicy(model: TestModel, options: Parameters<typeof chooseTest>[3] = {}): Policy {
  return (weights, taken): Choice['test'] => chooseTest(model, weights, taken, options).test;
}

/**
 * A state is the outcome of every test made so far, in mixed base: digit t is 0 where test t is not made, else 1 +
 * its outcome. The order in which they were made does not matter, so each state is worked out once.
 */
function walk(model: TestModel, start: Float64Array, policy: Policy | null): PolicyValue {
  const { tests } = model;
  const place: number[] = [];
  let states = 1;
  for (const test of tests) {
    place.push(states);
    states *= test.outcomes + 1;
  }
  if (states > MOST_STATES) {
    throw new RangeError(
      `tests must span at most ${MOST_STATES} states of (outcomes + 1) multiplied, got ${states}`,
    );
  }
  const value = new Float64Array(states).fill(Number.NaN);
  const depth = Array.from({ length: tests.length + 1 }, () => new Float64Array(model.hypotheses));
  let first: number | null = null;

  const visit = (
    state: number,
    taken: number,
    level: number,
    mass: number,
    weights: Float64Array,
  ): number => {
    const known = value[state]!;
    if (!Number.isNaN(known)) return known;
    if (mass <= 0) {
      value[state] = 0;
      return 0;
    }
    const paid = paidBy(model, taken);
    const costOf = (t: number): number => {
      const test = tests[t]!;
      let loss = mass * (test.cost + setUpToPay(model, test.setUps, paid));
      const next = depth[level]!;
      for (let o = 0; o < test.outcomes; o++) {
        let sum = 0;
        for (let h = 0; h < weights.length; h++) {
          next[h] = weights[h]! * test.given[h * test.outcomes + o]!;
          sum += next[h]!;
        }
        loss += visit(state + place[t]! * (o + 1), taken | (1 << t), level + 1, sum, next);
      }
      return loss;
    };
    let best = Number.NaN;
    let move: number | null = null;
    if (policy === null) {
      best = model.stopLoss(weights);
      for (let t = 0; t < tests.length; t++) {
        if ((taken >>> t) & 1) continue;
        const loss = costOf(t);
        if (loss < best) {
          best = loss;
          move = t;
        }
      }
    } else {
      move = policy(weights, taken);
      best = move === null ? model.stopLoss(weights) : costOf(move);
    }
    if (state === 0) first = move;
    value[state] = best;
    return best;
  };
  let mass = 0;
  for (let h = 0; h < start.length; h++) mass += start[h]!;
  return { loss: visit(0, 0, 0, mass, start), first };
}
