/**
 * How much choosers of the next test lose against the exact policy, on random small models (5 faults, 1–3 at once,
 * 7 or 8 tests of three outcomes, without and with set-ups to be paid once), and how long one choice takes on a model
 * of the size that the verdict asks about: `node scripts/run-ts.mjs test/bench/gap-bench.ts [MODELS]`.
 */
import {
  chooseTest,
  paidBy,
  separateRepairs,
  setUpToPay,
  type TestModel,
} from '../../src/verdict/lookahead.ts';
import { exactPolicy, type Policy, policyLoss, twoStepPolicy } from '../../src/verdict/lookahead-exact.ts';
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

/** Mean gap and the one that 95 % of models stay under, %. */
export function gaps(
  models: number,
  tests: number,
  setUps: number,
  policies: Readonly<Record<string, (model: TestModel) => Policy>>,
): { name: string; mean: number; p95: number; worst: number }[] {
  const lists = Object.fromEntries(Object.keys(policies).map((name) => [name, [] as number[]]));
  for (let seed = 1; seed <= models; seed++) {
    const { model, weights } = randomModel(seed, tests, setUps);
    const exact = exactPolicy(model, weights).loss;
    for (const [name, open] of Object.entries(policies))
      lists[name]!.push(100 * (policyLoss(model, weights, open(model)).loss / exact - 1));
  }
  return Object.entries(lists).map(([name, list]) => {
    const sorted = [...list].sort((a, b) => a - b);
    return {
      name,
      mean: list.reduce((sum, gap) => sum + gap, 0) / list.length,
      p95: sorted[Math.floor(0.95 * list.length)]!,
      worst: sorted.at(-1)!,
    };
  });
}

/** Prints the table for `models` models of each kind. */
function bench(print: (line: string) => void, models: number): void {
  const policies: Record<string, (model: TestModel) => Policy> = {
    'two tests ahead, greatest saving': (model) => twoStepPolicy(model, { by: 'saving' }),
    'information per minute, two-test stop': (model) => twoStepPolicy(model, { by: 'information' }),
    'one test ahead': oneStepPolicy,
    'checklist, cheapest first': checklistPolicy,
  };
  for (const [tests, setUps] of [
    [7, 0],
    [8, 0],
    [8, 2],
  ] as const) {
    print(`gap to the exact policy, % of its cost: ${models} models, ${tests} tests, ${setUps} set-ups`);
    for (const { name, mean, p95, worst } of gaps(models, tests, setUps, policies))
      print(
        `  ${name.padEnd(40)} mean ${mean.toFixed(2).padStart(6)}  p95 ${p95.toFixed(2).padStart(6)}  worst ${worst.toFixed(1).padStart(6)}`,
      );
  }
  const wide = Array.from({ length: 40 }, (_, n) => wideModel(n + 1));
  for (const by of ['saving', 'information'] as const) {
    // Processor time, not the clock: other programs on the machine would be counted too.
    for (const { model, weights } of wide) chooseTest(model, weights, 0, { by });
    const before = process.cpuUsage();
    const rounds = 5;
    for (let round = 0; round < rounds; round++)
      for (const { model, weights } of wide) chooseTest(model, weights, 0, { by });
    const used = process.cpuUsage(before);
    const each = (used.user + used.system) / 1000 / rounds / wide.length;
    print(`one choice, 60 sets, 8 tests of 8 outcomes, by ${by}: ${each.toFixed(2)} ms of processor time`);
  }
}

if (/gap-bench/.test(process.argv[1] ?? ''))
  bench((line) => console.log(line), Number(process.argv[2] ?? 60));
