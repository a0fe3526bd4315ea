import { describe, expect, it } from 'vitest';
import {
  chooseTest,
  paidBy,
  separateRepairs,
  setUpToPay,
  type TestModel,
} from '../../src/verdict/lookahead.ts';
import { exactPolicy, policyLoss, twoStepPolicy } from '../../src/verdict/lookahead-exact.ts';
import { randomModel } from './random-model.ts';

/** The optimum by walking the whole tree of orders and outcomes, remembering nothing. */
function byTree(model: TestModel, weights: Float64Array, taken = 0): number {
  let best = model.stopLoss(weights);
  const mass = weights.reduce((a, b) => a + b, 0);
  model.tests.forEach((test, t) => {
    if ((taken >> t) & 1) return;
    let loss = mass * (test.cost + setUpToPay(model, test.setUps, paidBy(model, taken)));
    for (let o = 0; o < test.outcomes; o++) {
      loss += byTree(
        model,
        weights.map((w, h) => w * test.given[h * test.outcomes + o]!),
        taken | (1 << t),
      );
    }
    best = Math.min(best, loss);
  });
  return best;
}

/** Two coins: what is wrong shows only when both are known. Each test alone changes nothing. */
function twoCoins(cost: number): { model: TestModel; weights: Float64Array } {
  const reads = (place: number) =>
    Float64Array.from({ length: 8 }, (_, i) => ((((i >> 1) >> place) & 1) === (i & 1) ? 1 : 0));
  return {
    model: {
      hypotheses: 4,
      tests: [0, 1].map((place) => ({ cost, setUps: 0, outcomes: 2, given: reads(place) })),
      setUpCost: [],
      stopLoss: separateRepairs(Uint32Array.of(0, 1, 1, 0), [100], [200]),
      classes: Int32Array.of(0, 1, 1, 0),
      nClasses: 2,
    },
    weights: Float64Array.of(0.25, 0.25, 0.25, 0.25),
  };
}

describe('exact policy', () => {
  it('equals walking the whole tree, set-ups included', () => {
    for (let seed = 1; seed <= 12; seed++) {
      const { model, weights } = randomModel(seed, 4, 2);
      expect(exactPolicy(model, weights).loss).toBeCloseTo(byTree(model, weights), 9);
    }
  });

  it('is beaten by no policy and met by its own first move on a hand-made case', () => {
    const { model, weights } = twoCoins(5);
    // Stop now: min(100, 200 · ½) = 100. Both tests: 10, then 100 in the half of the cases that need the repair.
    expect(exactPolicy(model, weights)).toEqual({ loss: 60, first: 0 });
    expect(policyLoss(model, weights, () => null).loss).toBe(100);
  });

  it('refuses a model too large to list', () => {
    const { model, weights } = randomModel(1, 9);
    expect(() => exactPolicy(model, weights)).toThrow(/states/);
  });
});

describe('two tests ahead', () => {
  it('sees tests that pay only together', () => {
    const { model, weights } = twoCoins(5);
    const choice = chooseTest(model, weights, 0);
    expect(choice.test).toBe(0);
    expect(choice.saving).toBeCloseTo(40, 9);
    expect(policyLoss(model, weights, twoStepPolicy(model)).loss).toBeCloseTo(60, 9);
    expect(chooseTest(twoCoins(60).model, weights, 0).test).toBeNull();
  });

  it('gives the same advice for weights of any sum', () => {
    const { model, weights } = randomModel(4, 6, 2);
    const once = chooseTest(model, weights, 0);
    const thrice = chooseTest(
      model,
      weights.map((w) => 3 * w),
      0,
    );
    expect(thrice.test).toBe(once.test);
    expect(thrice.saving).toBeCloseTo(once.saving, 9);
  });

  it('pays for a set-up once', () => {
    const { model, weights } = twoCoins(5);
    const withSetUp = {
      ...model,
      tests: model.tests.map((test) => ({ ...test, setUps: 1 })),
      setUpCost: [20],
    };
    const choice = chooseTest(withSetUp, weights, 0);
    expect(choice.cost).toBe(25);
    expect(choice.saving).toBeCloseTo(20, 9);
    expect(exactPolicy(withSetUp, weights).loss).toBeCloseTo(80, 9);
    expect(chooseTest(withSetUp, weights, 1).cost).toBe(0);
    expect(setUpToPay(withSetUp, 1, paidBy(withSetUp, 1))).toBe(0);
  });

  it('never makes a test twice and refuses weights of the wrong length', () => {
    const { model, weights } = twoCoins(5);
    expect(chooseTest(model, weights, 0b11).test).toBeNull();
    expect(chooseTest(model, new Float64Array(4), 0).test).toBeNull();
    expect(() => chooseTest(model, new Float64Array(3), 0)).toThrow(/weights/);
    expect(() => separateRepairs(Uint32Array.of(1), [1], [])).toThrow(RangeError);
  });
});
