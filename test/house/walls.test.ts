/** The walls of the house: a room imports only through its doors, and the compiler holds the same line. */
import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { CODE, doors, filesUnder, imports, mask, ROOT, read, rooms, target } from './source-files.ts';
import { breaches, EDGE_ROOMS, type HouseFacts, impurities } from './walls.ts';

const manifest = JSON.parse(read('package.json')) as { dependencies: Record<string, string> };
const facts: HouseFacts = { doors, dependencies: Object.keys(manifest.dependencies) };
const files = filesUnder('src', CODE);

describe('the walls', () => {
  test('there are rooms and files to look at', () => {
    expect(rooms()).toContain('units');
    expect(files.length).toBeGreaterThan(30);
    expect(files.flatMap((file) => imports(read(file))).length).toBeGreaterThan(50);
  });

  test('every import goes to its own room or through a door', () => {
    expect(files.flatMap((file) => breaches(file, read(file), facts))).toEqual([]);
  });

  test('every relative import leads to a file', () => {
    const missing = files.flatMap((file) =>
      imports(read(file))
        .filter(
          ({ specifier }) => specifier.startsWith('.') && !existsSync(join(ROOT, target(file, specifier))),
        )
        .map(({ specifier, line }) => `${file}:${line} imports "${specifier}", which is not there`),
    );
    expect(missing).toEqual([]);
  });

  test('the pure rooms know no clock, no random source, no browser, no node', () => {
    const pure = files.filter((file) => !EDGE_ROOMS.has(file.split('/')[1]!));
    expect(pure.flatMap((file) => impurities(file, read(file)))).toEqual([]);
  });

  test('pure rooms are compiled without the browser and without node', () => {
    for (const room of rooms().filter((each) => !EDGE_ROOMS.has(each))) {
      const { compilerOptions } = JSON.parse(read(`src/${room}/tsconfig.json`)) as {
        compilerOptions: object;
      };
      expect(compilerOptions, room).not.toHaveProperty('types');
      expect(compilerOptions, room).not.toHaveProperty('lib');
    }
  });

  test('no pure room has a door to a room that is not pure', () => {
    for (const room of rooms().filter((each) => !EDGE_ROOMS.has(each))) {
      expect(
        doors(room).filter((each) => EDGE_ROOMS.has(each)),
        room,
      ).toEqual([]);
    }
  });
});

describe('the rules find what breaks them', () => {
  const sample: HouseFacts = {
    doors: (room) => (room === 'fault' ? ['circuit'] : []),
    dependencies: ['hono', '@preact/signals'],
  };
  test.each([
    ["import { a } from '../verdict/a.ts';", 'fault has no door to verdict'],
    ["import type { A } from '../verdict/a.ts';", 'fault has no door to verdict'],
    ["export { a } from '../verdict/a.ts';", 'fault has no door to verdict'],
    ["export * from '../verdict/a.ts';", 'fault has no door to verdict'],
    ["const a = await import('../verdict/a.ts');", 'fault has no door to verdict'],
    ["type A = import('../verdict/a.ts').A;", 'fault has no door to verdict'],
    ["import '../verdict/a.ts';", 'fault has no door to verdict'],
    ['import {\n  a,\n} from "../verdict/a.ts";', 'fault has no door to verdict'],
    ["const w = new URL('../verdict/a.ts', import.meta.url);", 'fault has no door to verdict'],
    ["import { a } from '../../test/a.ts';", 'outside src'],
    ["import { readFileSync } from 'node:fs';", 'fault is a pure room'],
    ["import { Hono } from 'hono';", 'fault is a pure room'],
    ["import { signal } from '@preact/signals';", 'fault is a pure room'],
    ["import fs from 'fs';", 'no dependency'],
    ["import left from 'left-out';", 'no dependency'],
    ["import x from '/abs.ts';", 'neither a file'],
  ])('%s', (source, sentence) => {
    const found = breaches('src/fault/a.ts', `const before = 1;\n${source}\n`, sample);
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(sentence);
    expect(found[0]).toMatch(/^src\/fault\/a\.ts:\d+ /);
  });

  test.each([
    "import { a } from './b.ts';",
    "import { a } from '../circuit/b.ts';",
    "// import { a } from '../verdict/a.ts';",
    "/* from '../verdict/a.ts' */",
    'const text = "import { a } from \'../verdict/a.ts\'";',
    "const text = `from '../verdict/a.ts'`;",
    "const folder = new URL('../../', import.meta.url);",
    "const pattern = /from '..\\/verdict\\/a.ts'/;",
  ])('%s is let through', (source) => {
    expect(breaches('src/fault/a.ts', source, sample)).toEqual([]);
  });

  test.each([
    ['const now = Date.now();', 'the clock'],
    ['const now = new Date();', 'the clock'],
    ['const now = new Date;', 'the clock'],
    ['setTimeout(() => {}, 1);', 'the clock'],
    ['const r = Math.random();', 'a random source'],
    ['document.title = "x";', 'the browser'],
    ['const home = process.env.HOME;', 'node'],
    // biome-ignore lint/suspicious/noTemplateCurlyInString: the text of a template is the sample
    ['const hole = `${Date.now()}`;', 'the clock'],
    ['console.log(1);', 'the world outside'],
  ])('%s', (source, what) => {
    const found = impurities('src/fault/a.ts', source);
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(what);
  });

  test('a date that is given is no clock, and words in comments and strings are none', () => {
    expect(
      impurities(
        'a.ts',
        // biome-ignore lint/suspicious/noTemplateCurlyInString: the text of a template is the sample
        'const d = new Date(ms); // Date.now()\nconst s = "Math.random()"; const t = `process.env ${s}`;',
      ),
    ).toEqual([]);
  });

  test('masking keeps every line and column', () => {
    for (const file of files) {
      const source = read(file);
      expect(mask(source)).toHaveLength(source.length);
    }
    expect(mask('a = "b//c"; // d')).toBe('a = "    ";     ');
    // biome-ignore lint/suspicious/noTemplateCurlyInString: the text of a template is the sample
    expect(mask('`x${`y${1}`}z`+1')).toBe('` ${` ${1}`} `+1');
    expect(mask("x = a / b; y = /'/.test(z)")).toBe('x = a / b; y = / /.test(z)');
    expect(mask("<p>don't</p>\nimport a from 'b'")).toContain("\nimport a from ' '");
  });
});

describe('the compiler holds the walls too', () => {
  const scratch = mkdtempSync(join(tmpdir(), 'house-walls-'));
  afterAll(() => rmSync(scratch, { recursive: true, force: true }));

  function build(references: readonly string[]): string {
    for (const file of ['tsconfig.base.json', 'package.json']) cpSync(join(ROOT, file), join(scratch, file));
    for (const room of ['numbers', 'units']) {
      mkdirSync(join(scratch, 'src', room), { recursive: true });
      const config = JSON.parse(readFileSync(join(ROOT, 'src', room, 'tsconfig.json'), 'utf8')) as Record<
        string,
        unknown
      >;
      const doorsHere = room === 'numbers' ? references.map((each) => ({ path: `../${each}` })) : [];
      writeFileSync(
        join(scratch, 'src', room, 'tsconfig.json'),
        JSON.stringify({ ...config, references: doorsHere }),
      );
    }
    writeFileSync(join(scratch, 'src/units/metre.ts'), 'export const METRE = 1;\n');
    writeFileSync(
      join(scratch, 'src/numbers/root.ts'),
      "import { METRE } from '../units/metre.ts';\nexport const ROOT = METRE;\n",
    );
    rmSync(join(scratch, 'dist'), { recursive: true, force: true });
    try {
      execFileSync(
        process.execPath,
        [join(ROOT, 'node_modules/typescript/bin/tsc'), '-b', join(scratch, 'src/numbers')],
        { encoding: 'utf8' },
      );
      return '';
    } catch (fault) {
      return String((fault as { stdout?: string }).stdout);
    }
  }

  test('an import with no door does not compile', () => {
    expect(build([])).toMatch(/root\.ts.*error TS(6059|6307)|error TS(6059|6307)/);
  });

  test('the same import through a door compiles', () => {
    expect(build(['units'])).toBe('');
  });
});
