/**
 * Which test next, and when to stop, on a model small enough to be listed: hypotheses with weights, tests with
 * P(outcome | hypothesis), minutes and set-up paid once, and what it costs to stop and act on what is known.
 * `chooseTest` looks two tests ahead; `exactPolicy` (in lookahead-exact.ts) is the yardstick it is measured by.
 *
 * Rejected: stopping as soon as no single test is worth its minutes. Two tests often pay only together (the second
 * one tells apart what the first has split off), and the one-step rule then stops too early.
 */

import { discreteInformation } from './information.ts';

/** One test. */
export interface TestTable {
  /** Cost of the test itself, in the unit of the stop loss (minutes), ≥ 0. */
  readonly cost: number;
  /** Set-ups it needs, one bit each; each is paid once. */
  readonly setUps: number;
  readonly outcomes: number;
  /** P(outcome | hypothesis), hypothesis by hypothesis: `given[h * outcomes + o]`. */
  readonly given: Float64Array;
}

/** A listed decision problem. */
export interface TestModel {
  /** Number of hypotheses. */
  readonly hypotheses: number;
  readonly tests: readonly TestTable[];
  /** Cost of each set-up, in the same unit as the tests, by bit number. */
  readonly setUpCost: readonly number[];
  /**
   * Least expected loss of stopping and acting now, for weights that need not add up to 1: the loss of their
   * normalised form times their sum.
   */
  readonly stopLoss: (weights: Float64Array) => number;
  /** Class of each hypothesis (what to repair) and the number of classes: what information is counted about. */
  readonly classes: Int32Array;
  readonly nClasses: number;
}

/** What `chooseTest` advises. */
export interface Choice {
  /** Index of the test to make next; null = stop and act. */
  readonly test: number | null;
  /** Expected saving against stopping now, looking at most two tests ahead, in the unit of the stop loss. */
  readonly saving: number;
  /** Minutes (cost) of that test with the set-up still to be paid; 0 when stopping. */
  readonly cost: number;
}

/** How `chooseTest` looks ahead. */
export interface ChooseOptions {
  /** How many of the tests, best information per cost first, are looked at two deep. 1 or more. */
  readonly keep?: number;
  /** Take, among the tests worth making, the greatest information per cost or the greatest saving. */
  readonly by?: 'information' | 'saving';
}

/** Cost of set-ups in `needed` that are not in `paid`, in the unit of the tests. */
export function setUpToPay(model: TestModel, needed: number, paid: number): number {
  let sum = 0;
  for (let bits = needed & ~paid; bits !== 0; bits &= bits - 1) {
    const bit = 31 - Math.clz32(bits & -bits);
    sum += model.setUpCost[bit] ?? 0;
  }
  return sum;
}

/** Set-ups already paid for by the tests in `taken`, dimensionless: one bit each. */
export function paidBy(model: TestModel, taken: number): number {
  let paid = 0;
  for (let bits = taken; bits !== 0; bits &= bits - 1)
    paid |= model.tests[31 - Math.clz32(bits & -bits)]!.setUps;
  return paid;
}

/**
 * Stop loss where each repair is decided by itself: doing repair r costs `doCost[r]`, leaving it undone while it is
 * needed costs `missCost[r]`. Hypothesis h needs the repairs whose bits are set in `needs[h]`. Needless work costs
 * `doCost` as well; needed work costs it whatever is known, and is counted so that losses compare across states.
 */
export function separateRepairs(
  needs: Uint32Array,
  doCost: readonly number[],
  missCost: readonly number[],
): (weights: Float64Array) => number {
  const repairs = doCost.length;
  if (repairs > 32 || missCost.length !== repairs) {
    throw new RangeError(
      `doCost and missCost must be equally long and at most 32, got ${repairs} and ${missCost.length}`,
    );
  }
  const needed = new Float64Array(repairs);
  return (weights) => {
    needed.fill(0);
    let total = 0;
    for (let h = 0; h < weights.length; h++) {
      const weight = weights[h]!;
      if (weight === 0) continue;
      total += weight;
      for (let bits = needs[h]!; bits !== 0; bits &= bits - 1)
        needed[31 - Math.clz32(bits & -bits)]! += weight;
    }
    let loss = 0;
    for (let r = 0; r < repairs; r++) loss += Math.min(doCost[r]! * total, missCost[r]! * needed[r]!);
    return loss;
  };
}

/** Buffers for one model size, so that looking ahead allocates nothing. */
interface Scratch {
  readonly first: Float64Array;
  readonly second: Float64Array;
}

/** Weights after outcome `o` of `test`, written to `into`; returns their sum. */
function afterOutcome(test: TestTable, o: number, weights: Float64Array, into: Float64Array): number {
  let mass = 0;
  const { outcomes, given } = test;
  for (let h = 0; h < weights.length; h++) {
    const value = weights[h]! * given[h * outcomes + o]!;
    into[h] = value;
    mass += value;
  }
  return mass;
}

/** Expected stop loss once `test` has been made (its cost not counted), in the unit of the stop loss. */
function lossAfter(model: TestModel, test: TestTable, weights: Float64Array, into: Float64Array): number {
  let loss = 0;
  for (let o = 0; o < test.outcomes; o++)
    if (afterOutcome(test, o, weights, into) > 0) loss += model.stopLoss(into);
  return loss;
}

/**
 * The next test by looking at most two tests ahead, or null when none is worth its cost. `weights` are the current
 * weights of the hypotheses (any positive sum), `taken` the tests already made (one bit each; a test is made once).
 */
export function chooseTest(
  model: TestModel,
  weights: Float64Array,
  taken: number,
  options: ChooseOptions = {},
): Choice {
  const { keep = 6, by = 'information' } = options;
  if (weights.length !== model.hypotheses) {
    throw new RangeError(
      `weights must hold one number a hypothesis (${model.hypotheses}), got ${weights.length}`,
    );
  }
  const scratch: Scratch = {
    first: new Float64Array(weights.length),
    second: new Float64Array(weights.length),
  };
  if (model.tests.length > 31) {
    throw new RangeError(`tests must be at most 31 (one bit each in taken), got ${model.tests.length}`);
  }
  let mass = 0;
  for (let h = 0; h < weights.length; h++) mass += weights[h]!;
  const stop: Choice = { test: null, saving: 0, cost: 0 };
  if (!(mass > 0)) return stop;
  const stopNow = model.stopLoss(weights);
  const paid = paidBy(model, taken);
  const ranked = rankTests(model, weights, taken, paid).slice(0, Math.max(1, keep));
  let best = stop;
  let bestScore = 0;
  for (const { test, cost, rate } of ranked) {
    const saving = stopNow - mass * cost - lossTwoDeep(model, test, weights, taken, paid, scratch);
    if (saving <= 1e-9 * stopNow) continue;
    const score = by === 'information' ? rate : saving;
    if (best.test === null || score > bestScore) {
      best = { test, saving: saving / mass, cost };
      bestScore = score;
    }
  }
  return best;
}

/** Expected loss after `index`, then the best of stopping and one further test, in the unit of the stop loss. */
function lossTwoDeep(
  model: TestModel,
  index: number,
  weights: Float64Array,
  taken: number,
  paid: number,
  scratch: Scratch,
): number {
  const test = model.tests[index]!;
  const nowPaid = paid | test.setUps;
  let loss = 0;
  for (let o = 0; o < test.outcomes; o++) {
    const mass = afterOutcome(test, o, weights, scratch.first);
    if (mass <= 0) continue;
    let least = model.stopLoss(scratch.first);
    for (let t = 0; t < model.tests.length && least > 0; t++) {
      if (t === index || (taken >>> t) & 1) continue;
      const next = model.tests[t]!;
      const cost = mass * (next.cost + setUpToPay(model, next.setUps, nowPaid));
      if (cost >= least) continue;
      least = Math.min(least, cost + lossAfter(model, next, scratch.first, scratch.second));
    }
    loss += least;
  }
  return loss;
}

/** Tests not yet made, greatest information per cost first. */
function rankTests(model: TestModel, weights: Float64Array, taken: number, paid: number) {
  const ranked: { readonly test: number; readonly cost: number; readonly rate: number }[] = [];
  model.tests.forEach((table, test) => {
    if ((taken >>> test) & 1) return;
    const cost = table.cost + setUpToPay(model, table.setUps, paid);
    const bits = discreteInformation(table.given, table.outcomes, weights, model.classes, model.nClasses);
    ranked.push({ test, cost, rate: bits / Math.max(cost, 1e-9) });
  });
  return ranked.sort((a, b) => b.rate - a.rate || a.test - b.test);
}
