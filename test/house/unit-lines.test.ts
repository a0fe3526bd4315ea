/** Every exported quantity names its unit in the first line of its doc comment; the rule itself is in unit-lines.ts. */
import { describe, expect, test } from 'vitest';
import { filesUnder, read } from './source-files.ts';
import { carriesUnit, exportedQuantities, withoutUnit } from './unit-lines.ts';

const files = filesUnder('src', /\.tsx?$/);

test('there are quantities to look at', () => {
  expect(files.flatMap((file) => exportedQuantities(read(file))).length).toBeGreaterThan(30);
});

test('every exported quantity carries its unit', () => {
  expect(files.flatMap((file) => withoutUnit(file, read(file)))).toEqual([]);
});

describe('a doc line', () => {
  test.each([
    'Load conductance in a state, S.',
    'Preload, N.',
    'Tightening torque, N·m.',
    'Resistivity of copper at 20 °C, Ω·m. From a handbook.',
    'Open-circuit EMF, V/rpm.',
    'Open-circuit EMF, V peak per rpm.',
    'Copper section, mm²',
    'Battery amps, A, + charging, when the regulator works.',
    'Error function, dimensionless, from −1 to 1.',
    'Copper: resistance at T over resistance at 25 °C, 1.',
    'Chance that a thing is seen, 0–1.',
    'Contrast ratio of two colours, 1–21. As published.',
    "A fault's figure, in the grade's unit.",
    'Cost of set-ups, in the unit of the tests.',
    'Mutual information, bits; the table need not add up.',
    'Temperature, °C.',
    'Ohmic resistance, Ω: what cranking sees.',
  ])('%s carries a unit', (line) => expect(carriesUnit(line)).toBe(true));

  test.each([
    'Preload.',
    'Preload in newtons.',
    'Preload, big.',
    'Preload, Newtonish.',
    'Voltage, Volkswagen.',
    'First, then second.',
    'Largest number of actions that the exact search takes.',
    '',
  ])('%j does not', (line) => expect(carriesUnit(line)).toBe(false));
});

describe('the rule finds', () => {
  test.each([
    ['export function a(): number {\n  return 1;\n}', 'has no doc comment'],
    ['/** Preload. */\nexport function a(b: number): number {\n}', 'has no unit'],
    [
      '/** Preload. */\nexport async function a<K extends A<B>>(b: (c: number) => number, d = f(1)): number | null {\n}',
      'has no unit',
    ],
    ['/**\n * Preload.\n * Of a bolt, N.\n */\nexport function a(): number {\n}', 'has no unit'],
    ['/** Preload. */\nexport const A = 5;', 'has no unit'],
    ['/** Preload. */\nexport const A = -5e3;', 'has no unit'],
    ['/** Preload. */\nexport const A = Math.PI / 4;', 'has no unit'],
    ['/** Preload. */\nexport const A: number = b();', 'has no unit'],
    ['/** Preload. */\nexport const a = (b: string): number => 1;', 'has no unit'],
    ['// Preload, N.\nexport const A = 5;', 'has no doc comment'],
    ['/** Preload, N. */\nconst b = 1;\nexport const A = 5;', 'has no doc comment'],
  ])('%j', (source, sentence) => {
    const found = withoutUnit('src/a/b.ts', source);
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(sentence);
  });

  test.each([
    '/** Preload, N. */\nexport function a(): number {\n}',
    '/**\n * Preload, N.\n * Of a bolt.\n */\nexport function a(): number {\n}',
    'export function a(): string {\n}',
    'export function a(b: number): boolean {\n}',
    'export function a(): { b: number } {\n}',
    'export const A = [1, 2];',
    "export const A = 'x';",
    'export const a = (b: number): string => f;',
    'export const A: readonly number[] = [];',
    'const A = 5;',
    '/* export const A = 5; */',
  ])('nothing in %j', (source) => {
    expect(withoutUnit('src/a/b.ts', source)).toEqual([]);
  });
});
