import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';
import { standalone, type ThemeName } from '../../src/draw/palette.ts';
import { type SvgNode, svgText } from '../../src/draw/svg.ts';

const FOLDER = fileURLToPath(new URL('../golden/', import.meta.url));

/**
 * Compares a drawing with the one in `test/golden`. When they differ, what was drawn is written beside it as
 * `<name>.actual.svg`, to be looked at; `UPDATE_GOLDEN=1` makes it the golden one.
 */
export function expectGolden(name: string, drawing: SvgNode, theme: ThemeName): void {
  const path = `${FOLDER}${name}.svg`;
  const actualPath = `${FOLDER}${name}.actual.svg`;
  const actual = `${svgText(standalone(drawing, theme))}\n`;
  if (process.env.UPDATE_GOLDEN === '1') {
    writeFileSync(path, actual);
    rmSync(actualPath, { force: true });
    return;
  }
  const golden = existsSync(path) ? readFileSync(path, 'utf8') : null;
  if (golden === actual) {
    rmSync(actualPath, { force: true });
    return;
  }
  writeFileSync(actualPath, actual);
  const lines = actual.split('\n');
  const old = (golden ?? '').split('\n');
  const at = lines.findIndex((line, i) => line !== old[i]);
  expect.fail(
    `${golden === null ? `test/golden/${name}.svg does not exist` : `test/golden/${name}.svg differs from line ${at + 1}`}: ` +
      `look at test/golden/${name}.actual.svg, then run with UPDATE_GOLDEN=1 if it is right.\n` +
      `golden: ${old[at] ?? '(end)'}\nactual: ${lines[at] ?? '(end)'}`,
  );
}
