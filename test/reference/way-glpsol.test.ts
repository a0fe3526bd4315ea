/**
 * The cheapest way against an integer program solved by glpsol. Its answers are kept in test/fixtures/glpsol and always
 * compared; where the program is on the PATH it is asked again. In a CI system it must be there.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cheapestWay } from '../../src/way/cheapest-way.ts';
import { FAMILIES, type Family, randomStrip } from '../way/random-strip.ts';
import { unitStrip } from '../way/strip-unit.ts';
import { askGlpsol, versionOfGlpsol } from './glpsol.ts';

const kept = JSON.parse(readFileSync(new URL('../fixtures/glpsol/strips.json', import.meta.url), 'utf8')) as {
  version: string;
  answers: { family: Family; parts: number; seed: number; cost: number | null }[];
};
const here = versionOfGlpsol();

const costOf = (family: Family, parts: number, seed: number) => {
  const way = cheapestWay(randomStrip(family, parts, seed));
  return way.ok ? [way.cost, way.proved] : [null, true];
};

describe('glpsol finds the same least cost', () => {
  for (const family of FAMILIES) {
    it(`${family}, answers kept`, () => {
      const answers = kept.answers.filter((answer) => answer.family === family);
      expect(answers.length).toBeGreaterThan(15);
      for (const { parts, seed, cost } of answers)
        expect([parts, seed, ...costOf(family, parts, seed)]).toEqual([parts, seed, cost, true]);
    });
  }

  it.skipIf(here === null && !process.env.CI)(
    here === null ? 'asked again: not run, glpsol is not installed' : 'asked again',
    { timeout: 120_000 },
    () => {
      expect(here, 'glpsol is not installed: Debian package glpk-utils').not.toBeNull();
      expect(askGlpsol(unitStrip(), 10)).toMatchObject({ cost: 17, proved: true });
      expect(askGlpsol(unitStrip(40), 10)).toMatchObject({ cost: 20, proved: true });
      for (const family of FAMILIES)
        for (let seed = 51; seed <= 54; seed++) {
          const { cost, proved } = askGlpsol(randomStrip(family, 8, seed), 20);
          if (proved) expect([family, seed, ...costOf(family, 8, seed)]).toEqual([family, seed, cost, true]);
        }
    },
  );
});
