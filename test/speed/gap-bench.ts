/**
 * How much choosers of the next test lose against the exact policy, on random small models (5 faults, 1–3 at once,
 * 7 or 8 tests of three outcomes, without and with set-ups to be paid once), and how long one choice takes on a model
 * of the size that the verdict asks about: `node scripts/run-ts.mjs test/speed/gap-bench.ts [MODELS]`.
 */
import { chooseTest, type TestModel } from '../../src/verdict/lookahead.ts';
import { type Policy, twoStepPolicy } from '../../src/verdict/lookahead-exact.ts';
import { checklistPolicy, gaps, oneStepPolicy, wideModel } from './next-test-models.ts';

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
    for (const gap of gaps(models, tests, setUps, policies)) {
      const figure = (value: number) => value.toFixed(2).padStart(6);
      print(
        `  ${gap.name.padEnd(38)} mean ${figure(gap.mean)}  p95 ${figure(gap.p95)}  worst ${figure(gap.worst)}  mean of the avoidable ${figure(gap.avoidable)}`,
      );
    }
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

bench((line) => console.log(line), Number(process.argv[2] ?? 60));
