/** The short form of `npm run spoilt-files`: a hundred seeded mutants of the shipped machine files. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import type { Json } from '../../src/machine/json-value.ts';
import { holdMutant, type Outcome } from './hold-mutant.ts';
import { mutantOf } from './mutate.ts';
import { SHIPPED } from './shipped.ts';

const FILES = SHIPPED.map((id) => JSON.parse(readFileSync(`machines/${id}.json`, 'utf8')) as Json);

it('a spoilt file is read or refused with the place of every fault, compared and made one with the sound one', () => {
  const counts: Record<Outcome, number> = { read: 0, refused: 0, 'no file': 0 };
  for (let seed = 0; seed < 100; seed++) {
    const file = FILES[seed % FILES.length]!;
    const { text, did } = mutantOf(file, seed);
    try {
      counts[holdMutant(text, file)]++;
    } catch (error) {
      throw new Error(`seed ${seed}, ${did.join('; ')}: ${(error as Error).stack}`);
    }
  }
  // Both sides of the door were tried.
  expect(counts.read).toBeGreaterThan(5);
  expect(counts.refused).toBeGreaterThan(30);
}, 240_000);

it('a seed makes the same mutant again', () => {
  expect(mutantOf(FILES[0]!, 4)).toEqual(mutantOf(FILES[0]!, 4));
  expect(mutantOf(FILES[0]!, 4).text).not.toBe(mutantOf(FILES[0]!, 5).text);
});
