/** Asks glpsol about strip-downs of every kind and writes its answers to test/fixtures/glpsol: see glpsol.ts. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { FAMILIES, randomStrip } from '../way/random-strip.ts';
import { askGlpsol, versionOfGlpsol } from './glpsol.ts';

const answers: { family: string; parts: number; seed: number; cost: number | null }[] = [];
for (const [parts, seeds] of [
  [6, 10],
  [10, 10],
  [20, 5],
  [30, 3],
] as const)
  for (const family of FAMILIES)
    for (let seed = 1; seed <= seeds; seed++) {
      const { cost, proved } = askGlpsol(randomStrip(family, parts, seed), 20);
      if (proved) answers.push({ family, parts, seed, cost });
      else console.log(`not proved in 20 s: ${family}, ${parts} parts, seed ${seed}`);
    }
mkdirSync('test/fixtures/glpsol', { recursive: true });
const lines = answers.map((answer) => `    ${JSON.stringify(answer)}`).join(',\n');
writeFileSync(
  'test/fixtures/glpsol/strips.json',
  `{\n  "version": ${JSON.stringify(versionOfGlpsol())},\n  "answers": [\n${lines}\n  ]\n}\n`,
);
