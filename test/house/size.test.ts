/** No source file passes 400 lines, and files are named so that one can find them. */
import { describe, expect, test } from 'vitest';
import { filesUnder, mask, read } from './source-files.ts';

const MOST_LINES = 400;
const SOURCE = /\.(ts|tsx|mts|mjs|cjs|js|css|html)$/;
const files = ['src', 'test', 'scripts'].flatMap((folder) => filesUnder(folder, SOURCE));

function lines(source: string): number {
  return source.split('\n').length - (source.endsWith('\n') ? 1 : 0);
}

function tooLong(path: string, source: string): string | null {
  const count = lines(source);
  return count > MOST_LINES ? `${path} has ${count} lines, at most ${MOST_LINES} are allowed` : null;
}

const VAGUE = /(^|[-.])(utils?|helpers?|common|managers?|misc|stuff)([-.]|$)/;

function badName(path: string): string | null {
  const name = path.split('/').at(-1)!;
  if (!/^[a-z0-9]+(-[a-z0-9]+)*(\.[a-z0-9]+)+$/.test(name)) return `${path} is not named in kebab-case`;
  return VAGUE.test(name) ? `${path} has a name that says nothing of what is in it` : null;
}

/** Default exports, re-exports of everything, and what erasable syntax leaves out. */
function badExport(path: string, source: string): string | null {
  const masked = mask(source);
  if (/\bexport\s+default\b/.test(masked)) return `${path} has a default export`;
  if (/\bexport\s*\*/.test(masked)) return `${path} re-exports everything`;
  if (/^\s*(export\s+)?(const\s+)?enum\s/m.test(masked)) return `${path} has an enum`;
  return null;
}

describe('size', () => {
  test('there are files to measure', () => expect(files.length).toBeGreaterThan(60));

  test('every file is short enough', () => {
    expect(files.map((file) => tooLong(file, read(file))).filter(Boolean)).toEqual([]);
  });

  test('the rule finds a file one line too long', () => {
    expect(tooLong('a.ts', 'x\n'.repeat(400))).toBeNull();
    expect(tooLong('a.ts', 'x\n'.repeat(401))).toBe('a.ts has 401 lines, at most 400 are allowed');
    expect(tooLong('a.ts', `${'x\n'.repeat(400)}x`)).toContain('401');
  });
});

describe('names', () => {
  test('files are kebab-case and say what is in them', () => {
    expect(files.map(badName).filter(Boolean)).toEqual([]);
  });

  test('exports are named, one by one', () => {
    const own = files.filter((file) => file.startsWith('src/') && /\.tsx?$/.test(file));
    expect(own.map((file) => badExport(file, read(file))).filter(Boolean)).toEqual([]);
  });

  test.each([
    'src/a/utils.ts',
    'src/a/string-helpers.ts',
    'src/a/common.ts',
    'src/a/job-manager.ts',
    'src/a/Bolt.ts',
    'src/a/bolt_map.ts',
  ])('%s is refused', (path) => expect(badName(path)).not.toBeNull());

  test.each(['src/a/bolt-map.ts', 'src/a/a.d.ts', 'test/a/commonplace.test.ts'])(
    '%s is let through',
    (path) => expect(badName(path)).toBeNull(),
  );

  test.each(['export default 1;', "export * from './b.ts';", 'export enum A { B }', 'const enum A { B }'])(
    '%s is refused',
    (source) => expect(badExport('a.ts', source)).not.toBeNull(),
  );
});
