/** `npm run spoilt-files`: a thousand seeded mutants of the shipped machine files, or as many as are named, every fifth packed as well; fails at the first that throws. */
import { readFileSync } from 'node:fs';
import type { Json } from '../../src/machine/json-value.ts';
import { holdMutant, type Outcome } from '../machine/hold-mutant.ts';
import { mutantOf } from '../machine/mutate.ts';
import { SHIPPED } from '../machine/shipped.ts';

const count = Number(process.argv[2] ?? 1000);
const from = Number(process.argv[3] ?? 0);
const files = SHIPPED.map((id) => JSON.parse(readFileSync(`machines/${id}.json`, 'utf8')) as Json);
const counts: Record<Outcome, number> = { read: 0, refused: 0, 'no file': 0 };
let failed = 0;
for (let seed = from; seed < from + count; seed++) {
  const file = files[seed % files.length]!;
  const { text, did } = mutantOf(file, seed);
  try {
    counts[holdMutant(text, file, seed % 5 === 0)]++;
  } catch (error) {
    failed++;
    console.log(`seed ${seed}, ${did.join('; ')}: ${(error as Error).message}`);
  }
}
console.log(
  `${count} files: ${counts.read} read, ${counts.refused} refused, ${counts['no file']} no file at all; ${failed} failed`,
);
if (failed > 0) process.exitCode = 1;
