/** Choosers of the next test to compare, models to compare them on, and the comparison. */
import { paidBy, separateRepairs, setUpToPay, type TestModel } from '../../src/verdict/lookahead.ts';
import { exactPolicy, type Policy, policyLoss } from '../../src/verdict/lookahead-exact.ts';
import { randomModel, stream } from '../verdict/random-model.ts';

/** One test ahead: the greatest saving, stop when none saves. */
export function oneStepPolicy(model: TestModel): Policy {
  const next = new Float64Array(model.hypotheses);
  return (weights, taken) => {
    let mass = 0;
    for (const w of weights) mass += w;
    let best: number | null = null;
    let least = model.stopLoss(weights);
    const paid = paidBy(model, taken);
    model.tests.forEach((test, t) => {
      if ((taken >>> t) & 1) return;
      let loss = mass * (test.cost + setUpToPay(model, test.setUps, paid));
      for (let o = 0; o < test.outcomes; o++) {
        for (let h = 0; h < weights.length; h++) next[h] = weights[h]! * test.given[h * test.outcomes + o]!;
        loss += model.stopLoss(next);
      }
      if (loss < least) {
        least = loss;
        best = t;
      }
    });
    return best;
  };
}

/** All tests, cheapest first: an expert-ordered checklist. */
export function checklistPolicy(model: TestModel): Policy {
  const order = model.tests.map((_, t) => t).sort((a, b) => model.tests[a]!.cost - model.tests[b]!.cost);
  return (_, taken) => order.find((t) => !((taken >>> t) & 1)) ?? null;
}

/** A model of the size that the verdict chooses on: 60 sets of repairs, 8 tests of 8 outcomes, 3 set-ups. */
export function wideModel(seed: number): { model: TestModel; weights: Float64Array } {
  const random = stream(seed * 104_729);
  const hypotheses = 60;
  const needs = Uint32Array.from({ length: hypotheses }, () => {
    let bits = 0;
    const many = 1 + Math.floor(3 * random());
    for (let n = 0; n < many; n++) bits |= 1 << Math.floor(14 * random());
    return bits >>> 0;
  });
  const names = [...new Set(needs)];
  const weights = Float64Array.from({ length: hypotheses }, () => random() ** 4);
  const tests = Array.from({ length: 8 }, () => {
    const given = new Float64Array(hypotheses * 8);
    for (let h = 0; h < hypotheses; h++) {
      const middle = 8 * random();
      const width = 0.3 + 2 * random();
      let sum = 0;
      for (let o = 0; o < 8; o++)
        sum += given[h * 8 + o] = 1e-4 + Math.exp(-0.5 * ((o - middle) / width) ** 2);
      for (let o = 0; o < 8; o++) given[h * 8 + o]! /= sum;
    }
    return {
      cost: 2 + 5 * random(),
      setUps: random() < 0.5 ? 1 << Math.floor(3 * random()) : 0,
      outcomes: 8,
      given,
    };
  });
  const doCost = Array.from({ length: 14 }, () => 20 + 80 * random());
  return {
    model: {
      hypotheses,
      tests,
      setUpCost: [6, 15, 20],
      stopLoss: separateRepairs(
        needs,
        doCost,
        doCost.map((cost) => 3 * cost),
      ),
      classes: Int32Array.from(needs, (bits) => names.indexOf(bits)),
      nClasses: names.length,
    },
    weights,
  };
}

/** What a policy loses against the exact one over many models, %. */
export interface Gap {
  readonly name: string;
  readonly mean: number;
  /** The gap that 95 % of models stay under. */
  readonly p95: number;
  readonly worst: number;
  readonly least: number;
  /** Mean against the avoidable cost alone: without the repairs that would be due whatever is known. */
  readonly avoidable: number;
}

/** Gaps of policies on `models` random models. */
export function gaps(
  models: number,
  tests: number,
  setUps: number,
  policies: Readonly<Record<string, (model: TestModel) => Policy>>,
): Gap[] {
  const lists = Object.fromEntries(
    Object.keys(policies).map((name) => [name, { whole: [] as number[], avoidable: [] as number[] }]),
  );
  for (let seed = 1; seed <= models; seed++) {
    const { model, weights } = randomModel(seed, tests, setUps);
    const exact = exactPolicy(model, weights).loss;
    const only = new Float64Array(model.hypotheses);
    let due = 0;
    for (let h = 0; h < only.length; h++) {
      only[h] = weights[h]!;
      due += model.stopLoss(only);
      only[h] = 0;
    }
    for (const [name, open] of Object.entries(policies)) {
      const { loss } = policyLoss(model, weights, open(model));
      lists[name]!.whole.push(100 * (loss / exact - 1));
      lists[name]!.avoidable.push((100 * (loss - exact)) / (exact - due));
    }
  }
  const mean = (list: readonly number[]) => list.reduce((sum, gap) => sum + gap, 0) / list.length;
  return Object.entries(lists).map(([name, { whole, avoidable }]) => {
    const sorted = [...whole].sort((a, b) => a - b);
    return {
      name,
      mean: mean(whole),
      p95: sorted[Math.floor(0.95 * whole.length)]!,
      worst: sorted.at(-1)!,
      least: sorted[0]!,
      avoidable: mean(avoidable),
    };
  });
}
