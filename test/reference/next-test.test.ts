/** The choice of the next test against the exact policy on random small models: see test/speed/gap-bench.ts. */
import { describe, expect, it } from 'vitest';
import { chooseTest, separateRepairs, type TestModel } from '../../src/verdict/lookahead.ts';
import { exactPolicy, twoStepPolicy } from '../../src/verdict/lookahead-exact.ts';
import { checklistPolicy, gaps, oneStepPolicy } from '../speed/next-test-models.ts';

describe('next test against the exact policy', () => {
  // No published figures: models drawn at random, each solved exactly by dynamic programming (Bellman 1957).
  for (const [tests, setUps, models] of [
    [7, 0, 40],
    [8, 2, 12],
  ] as const) {
    it(`${models} random models, ${tests} tests, ${setUps} set-ups: two tests ahead loses 2 % at most, a checklist far more`, {
      timeout: 120_000,
    }, () => {
      const figures = gaps(models, tests, setUps, {
        saving: (model) => twoStepPolicy(model),
        information: (model) => twoStepPolicy(model, { by: 'information' }),
        oneStep: oneStepPolicy,
        checklist: checklistPolicy,
      });
      const [saving, information, oneStep, checklist] = figures;
      expect(saving!.mean).toBeLessThan(2);
      expect(saving!.mean).toBeLessThan(oneStep!.mean);
      expect(information!.mean).toBeLessThan(8);
      expect(checklist!.mean).toBeGreaterThan(5 * information!.mean);
      // No policy beats the exact one: a negative gap would mean that the yardstick is wrong.
      for (const { least } of figures) expect(least).toBeGreaterThan(-1e-7);
    });
  }

  it('stops at once when no test can pay for itself', () => {
    const model: TestModel = {
      hypotheses: 2,
      tests: [{ cost: 50, setUps: 0, outcomes: 2, given: Float64Array.of(1, 0, 0, 1) }],
      setUpCost: [],
      stopLoss: separateRepairs(Uint32Array.of(0, 1), [40], [60]),
      classes: Int32Array.of(0, 1),
      nClasses: 2,
    };
    const weights = Float64Array.of(0.5, 0.5);
    expect(chooseTest(model, weights, 0).test).toBeNull();
    expect(exactPolicy(model, weights)).toEqual({ loss: 30, first: null });
  });
});
