/** The page loads the first questions, the templates and the estimates before anything is known: they stay free of the verdict. */
import { statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { imports, ROOT, read, target } from '../house/source-files.ts';

/** Every file that a file brings along. */
function brings(file: string, seen = new Set<string>()): Set<string> {
  if (seen.has(file)) return seen;
  seen.add(file);
  for (const { specifier } of imports(read(file))) brings(target(file, specifier), seen);
  return seen;
}

describe('what the page loads first', () => {
  test.each([
    'questions',
    'template',
    'file-from-answers',
    'estimate',
    'estimate-alternator',
    'estimate-wiring',
    'estimate-kinds',
  ])('%s brings no verdict, no reading and no room of the sciences behind it', (name) => {
    const all = [...brings(`src/start/${name}.ts`)];
    expect(all.filter((file) => /^src\/(?:verdict|reading|fault|joint|drive|way)\//.test(file))).toEqual([]);
  });

  test('sharpen does bring the verdict: it is a file of its own', () => {
    expect([...brings('src/start/sharpen.ts')].some((file) => file.startsWith('src/verdict/'))).toBe(true);
  });

  test('the templates are at most 25 kB of source each', () => {
    for (const name of ['primary-way', 'cover-way', 'shared-way'])
      expect(statSync(join(ROOT, `src/start/${name}.ts`)).size).toBeLessThan(25_000);
  });
});
