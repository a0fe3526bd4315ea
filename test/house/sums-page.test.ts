/** docs/sums.md tells the truth: every sum, what it works out, and every test it leans on, which names its source too. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { SUMS } from '../../src/sum/catalogue.ts';
import { ROOT, read } from './source-files.ts';

const PAGE = read('docs/sums.md');
/** Rows of tables as cells; heads and rules are left out. */
const ROWS = PAGE.split('\n')
  .filter((line) => line.startsWith('| ') && !line.startsWith('|---'))
  .map((line) =>
    line
      .split('|')
      .slice(1, -1)
      .map((cell) => cell.trim()),
  );
const HELD = ROWS.filter((cells) => cells.length === 3 && cells[0] !== 'what');

describe('the page of the sums', () => {
  test('lists every sum once, in the order of the app', () => {
    const listed = ROWS.filter((cells) => cells.length === 4 && cells[0] !== 'sum').map(([id]) => id);
    expect(listed).toEqual(SUMS.map(({ id }) => `\`${id}\``));
  });

  test('says of a sum that something is worked out where a field of it can be, and of no other', () => {
    for (const [id, , solved] of ROWS.filter((cells) => cells.length === 4 && cells[0] !== 'sum')) {
      const sum = SUMS.find((one) => `\`${one.id}\`` === id)!;
      expect(solved !== '–', id).toBe(sum.fields.some(({ need }) => need === 'solve'));
    }
  });

  test('every row names tests that exist', () => {
    expect(HELD.length).toBeGreaterThan(40);
    for (const [what, source, tests] of HELD) {
      expect(source, what).not.toBe('');
      const paths = [...tests!.matchAll(/`([^`]+)`/g)].map(([, path]) => path!);
      expect(paths.length, what).toBeGreaterThan(0);
      for (const path of paths) expect(existsSync(join(ROOT, path)), path).toBe(true);
    }
  });

  // Numbers of standards and manuals stand in the test as they stand on the page.
  test('a published source is named by one of the tests of its row', () => {
    const published =
      /TM [\d-]+(?:&P)?|AC 43\.13-1B|SP 811|ISO \d+(?:-\d)?|ASME [A-Z]+[\d.-]+|VDI 2230|ANSI B29\.1|FED-STD-H28|NADCA|MIL-A-46106B|SAE J429|ASTM A574/g;
    let checked = 0;
    const unnamed: string[] = [];
    for (const [what, source, tests] of HELD) {
      const texts = [...tests!.matchAll(/`([^`]+)`/g)].map(([, path]) => read(path!)).join('\n');
      for (const [name] of source!.matchAll(published)) {
        checked += 1;
        if (!texts.includes(name)) unnamed.push(`${what}: ${name}`);
      }
    }
    expect(unnamed).toEqual([]);
    expect(checked).toBeGreaterThan(30);
  });
});
