/** Times the verdict: the first answer for a bike nobody has asked about, and every answer of whole practice cases. */
import { readFileSync } from 'node:fs';
import { openLineMode } from '../../src/cases/lines.ts';
import { playCase } from '../../src/cases/play.ts';
import { readCases } from '../../src/cases/read-cases.ts';

/** Value at a share of a sorted list, in the list's unit. */
function quantile(sorted: readonly number[], share: number): number {
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
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
        if (keep) {
          every.push(took);
          if (fresh) first.push(took);
        }
        fresh = false;
        return answer;
      });
    }
  };
  // One case beforehand: the compiler of the engine warms up.
  await run(all.slice(1, 2), false);
  await run(picked, true);
  first.sort((a, b) => a - b);
  every.sort((a, b) => a - b);
  const row = (name: string, list: readonly number[]) =>
    print(
      `${name.padEnd(44)} ${quantile(list, 0.5).toFixed(0).padStart(6)} ${quantile(list, 0.95).toFixed(0).padStart(6)} ${list.at(-1)!.toFixed(0).padStart(6)}  (${list.length})`,
    );
  print(
    `${'verdict, ms on one core'.padEnd(44)} ${'p50'.padStart(6)} ${'p95'.padStart(6)} ${'max'.padStart(6)}`,
  );
  row('first answer for a new bike', first);
  row('every answer of whole cases', every);
}

await bench((line) => console.log(line), 12);
