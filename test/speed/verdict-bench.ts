/**
 * Times the verdict: the first answer for a bike nobody has asked about (what it works out ahead for the later ones
 * counted in), every answer after it in whole practice cases with nothing worked out between, and the answers on a drawn
 * bike's 20th to 25th reading, where it works ahead between readings as it does in the app while the mechanic is at the bike.
 */
import { readFileSync } from 'node:fs';
import { drawBike } from '../../src/cases/drawn-bike.ts';
import { openLineMode } from '../../src/cases/lines.ts';
import { playCase } from '../../src/cases/play.ts';
import { readCases } from '../../src/cases/read-cases.ts';
import { openStream } from '../../src/numbers/random.ts';
import type { Value } from '../../src/reading/key.ts';
import { offeredKeys } from '../../src/reading/offers.ts';
import { openAssessor } from '../../src/verdict/assess.ts';

/** Value at a share of a sorted list, in the list's unit. */
function quantile(sorted: readonly number[], share: number): number {
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
}

/** Times of the answers on a drawn bike's 20th to 25th reading, in an order that has nothing to do with their worth, ms. */
function lateAnswers(seed: number): number[] {
  const bike = drawBike(seed);
  const { phases } = bike.spec.alternator;
  const flooded = bike.spec.battery.chemistry === 'flooded';
  const keys = offeredKeys({ phases, senses: bike.spec.regulator.senses, flooded });
  const stream = openStream(seed);
  const picked = keys.map((key) => ({ key, at: stream() })).sort((a, b) => a.at - b.at);
  const assessor = openAssessor(bike.spec);
  while (assessor.warm());
  const readings: Record<string, Value> = {};
  const times: number[] = [];
  const tools = { clamp: true, loadTester: true, hydrometer: true, supply: true };
  for (const { key } of picked.slice(0, 25)) {
    readings[key] = bike.read(key);
    const start = performance.now();
    assessor.assess({ symptoms: bike.symptoms, readings: { ...readings }, again: [], tools });
    times.push(performance.now() - start);
    while (assessor.warm());
  }
  return times.slice(19);
}

/** Prints the table. `count` cases are played, taken evenly from the open ones. */
async function bench(print: (line: string) => void, count: number): Promise<void> {
  const all = readCases(readFileSync('test/cases/open.jsonl', 'utf8'));
  const picked = all.filter((_, n) => n % Math.ceil(all.length / count) === 0);
  const mode = openLineMode();
  const first: number[] = [];
  const every: number[] = [];
  const run = async (cases: typeof all, keep: boolean) => {
    for (const practice of cases) {
      let fresh = true;
      await playCase(practice, (line) => {
        const start = performance.now();
        const answer = mode.answer(line);
        const took = performance.now() - start;
        if (keep) (fresh ? first : every).push(took);
        fresh = false;
        return answer;
      });
    }
  };
  // One case beforehand: the compiler of the engine warms up.
  await run(all.slice(1, 2), false);
  await run(picked, true);
  const late: number[] = [];
  for (let seed = 1; seed <= count; seed++) late.push(...lateAnswers(seed));
  first.sort((a, b) => a - b);
  late.sort((a, b) => a - b);
  every.sort((a, b) => a - b);
  const row = (name: string, list: readonly number[]) =>
    print(
      `${name.padEnd(44)} ${quantile(list, 0.5).toFixed(0).padStart(6)} ${quantile(list, 0.95).toFixed(0).padStart(6)} ${list.at(-1)!.toFixed(0).padStart(6)}  (${list.length})`,
    );
  print(
    `${'verdict, ms on one core'.padEnd(44)} ${'p50'.padStart(6)} ${'p95'.padStart(6)} ${'max'.padStart(6)}`,
  );
  row('first answer for a new bike', first);
  row('every answer after it, of whole cases', every);
  row('from the 20th to the 25th of any readings', late);
}

await bench((line) => console.log(line), 12);
