/** The kinds are held apart by the compiler: proved by running it. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, '..', '..');
const types = join(here, 'types');
mkdirSync(join(root, 'dist'), { recursive: true });
const scratch = mkdtempSync(join(root, 'dist', 'kind-types-'));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

function compile(project: string): string {
  try {
    execFileSync(process.execPath, [join(root, 'node_modules/typescript/bin/tsc'), '-p', project], {
      encoding: 'utf8',
    });
    return '';
  } catch (fault) {
    return String((fault as { stdout?: string }).stdout);
  }
}

test('torque and energy do not pass for each other', () => {
  expect(compile(types)).toBe('');
});

test('without the marks every marked line is an error', () => {
  const source = readFileSync(join(types, 'kinds-apart.ts'), 'utf8');
  const marks = source.split('\n').filter((line) => line.includes('// @ts-expect-error')).length;
  expect(marks).toBeGreaterThanOrEqual(9);
  const up = relative(scratch, root).replaceAll('\\', '/');
  const bare = source.replace(/^\/\/ @ts-expect-error.*\n/gm, '').replaceAll('../../../src/', `${up}/src/`);
  writeFileSync(join(scratch, 'kinds-apart.ts'), bare);
  const config = readFileSync(join(types, 'tsconfig.json'), 'utf8').replace('../../../', `${up}/`);
  writeFileSync(join(scratch, 'tsconfig.json'), config);
  const errors = compile(scratch).match(/kinds-apart\.ts.*error TS\d+/g) ?? [];
  expect(errors).toHaveLength(marks);
});
