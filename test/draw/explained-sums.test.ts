/**
 * The drawings that explain a sum by its own results: golden at both widths; letters large enough on a phone, clear of one
 * another and of every line; nothing outside the sheet.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawSumPicture } from '../../src/draw/sum-picture.ts';
import type { SvgNode } from '../../src/draw/svg.ts';
import { SUMS } from '../../src/sum/catalogue.ts';
import type { Texts } from '../../src/sum/sum.ts';
import { expectGolden } from './golden.ts';
import { type Box, hits, overlap, pointsAlong, textBoxes, viewBox, walk } from './sheet-geometry.ts';

/** Least letters on the narrow sheet, px: it fills the 328 px that a phone of 360 px leaves it. */
const LEAST_LETTERS = 13;

const exampleOf = (id: string): Texts => SUMS.find((sum) => sum.id === id)!.example;
const STAGES = exampleOf('book-stages');
const JOINT = exampleOf('joint');
const LENGTH = exampleOf('chain-length');
const WEAR = exampleOf('chain-wear');
const LOCKER = exampleOf('locker');
const OTHER = exampleOf('other-locker');
const BAR = exampleOf('lock-bar');
const TURN = exampleOf('tight-spot');
const WIRE = exampleOf('wire');
const BALANCE = exampleOf('load-balance');
const { torque: _, ...UNTURNED } = JOINT;
const { length: __, ...UNMEASURED } = WEAR;

/** Each sum at its example, and at its odd ends: nothing known, far too much, the other choice, many of it. */
const DRAWN: readonly (readonly [name: string, sum: string, texts: Texts])[] = [
  ['book-stages', 'book-stages', STAGES],
  ['book-stages-fall', 'book-stages', { stages: '5, 14, 10, 10, 90 lbf·ft' }],
  ['book-stages-ten', 'book-stages', { final: '165 lbf·ft', count: '10' }],
  ['joint', 'joint', JOINT],
  ['joint-nut', 'joint', { thread: 'M10x1.25', grade: '8.8', threads: 'oiled', torque: '45 N·m' }],
  ['joint-over', 'joint', { ...JOINT, torque: '35 lbf·ft' }],
  ['joint-wanted', 'joint', { ...UNTURNED, share: '75 %' }],
  ['chain-length', 'chain-length', LENGTH],
  ['chain-length-rear', 'chain-length', { pitch: '520', small: '15', large: '45', links: '112' }],
  ['chain-length-short', 'chain-length', { pitch: '#40', small: '60', large: '10', centre: '150 mm' }],
  ['chain-length-slack', 'chain-length', { ...LENGTH, centre: '335 mm', links: '83' }],
  ['chain-wear', 'chain-wear', WEAR],
  ['chain-wear-limits', 'chain-wear', UNMEASURED],
  ['chain-wear-new', 'chain-wear', { ...WEAR, over: '100', length: '1268 mm', adjustable: 'no' }],
  ['locker', 'locker', LOCKER],
  ['locker-hot', 'locker', { temperature: '95 °C' }],
  ['sealant', 'sealant', exampleOf('sealant')],
  ['sealant-late', 'sealant', { temperature: '6 °C', humidity: '20 %', depth: '12 mm', since: '300 days' }],
  ['other-locker', 'other-locker', OTHER],
  [
    'other-locker-safe',
    'other-locker',
    { ...OTHER, thread: 'M12', grade: '8.8', fitted: '50 N·m', used: 'none' },
  ],
  ['load-balance', 'load-balance', BALANCE],
  ['load-balance-never', 'load-balance', { ...BALANCE, loads: '60 A' }],
  ['lock-bar', 'lock-bar', BAR],
  ['lock-bar-over', 'lock-bar', { torque: '400 N·m', teeth: '15', chain: '#35', job: 'tightened' }],
  ['lock-bar-gear', 'lock-bar', { torque: '150 N·m', teeth: '73', outside: '120 mm' }],
  ['lock-bar-gear-on', 'lock-bar', { torque: '150 N·m', teeth: '32', outside: '80 mm', job: 'tightened' }],
  ['stack-up', 'stack-up', exampleOf('stack-up')],
  ['stack-up-wanted', 'stack-up', { parts: '10 ± 0.1, 2.0–2.2, -8.1 ± 0.05 mm', wanted: '3.9–4.3 mm' }],
  ['stack-up-many', 'stack-up', { parts: Array(30).fill('1.5 ± 0.02 mm').join(', ') }],
  ['stack-up-exact', 'stack-up', { parts: '10 mm, -10 mm' }],
  ['tight-spot', 'tight-spot', TURN],
  ['tight-spot-open', 'tight-spot', { ...TURN, readings: '22, 21, 12, 19.5, 21, 22 mm' }],
  ['tight-spot-uncounted', 'tight-spot', { readings: '0, 12, 14 mm' }],
  [
    'tight-spot-many',
    'tight-spot',
    {
      ...TURN,
      step: '4',
      readings: `${Array.from({ length: 45 }, (_, n) => 20 + (n % 7) / 2).join(', ')} mm`,
    },
  ],
  ['wire', 'wire', WIRE],
  ['wire-gauge', 'wire', { length: '3 m', current: '30 A', drop: '0.3 V' }],
  ['wire-thick', 'wire', { gauge: '95 mm²', current: '100 A', drop: '0.2 V' }],
  ['wire-thin', 'wire', { gauge: 'AWG 36', length: '1 m', drop: '1 V' }],
];

/** The edges of everything that is drawn, as points, half of its weight out; what is paper covers and is no line. */
function linesOf(node: SvgNode): readonly (readonly [number, number])[] {
  const at = (name: string) => Number(node.attrs[name]);
  if (node.tag === 'path') return pointsAlong(String(node.attrs.d));
  if (node.tag === 'rect') {
    const [x0, y0, x1, y1] = [at('x'), at('y'), at('x') + at('width'), at('y') + at('height')];
    return pointsAlong(`M${x0} ${y0}L${x1} ${y0}L${x1} ${y1}L${x0} ${y1}Z`);
  }
  if (node.tag === 'circle')
    return Array.from({ length: 48 }, (_, n) => {
      const angle = (n / 48) * 2 * Math.PI;
      return [at('cx') + at('r') * Math.cos(angle), at('cy') + at('r') * Math.sin(angle)] as const;
    });
  return [];
}

function inside({ x0, y0, x1, y1 }: Box, [width, height]: readonly [number, number]): boolean {
  return x0 >= 0 && y0 >= 0 && x1 <= width && y1 <= height;
}

/** What stands in the way: letters too small or cut, on one another or on a line, and whatever leaves the sheet. */
function flaws(drawing: SvgNode): readonly string[] {
  const frame = viewBox(drawing);
  const boxes = textBoxes(drawing);
  const wrong: string[] = [];
  for (const node of walk(drawing)) {
    const what = JSON.stringify(node.attrs).slice(0, 160);
    if (node.tag === 'text' && Number(node.attrs['font-size']) < LEAST_LETTERS) wrong.push(`small: ${what}`);
    const half = Number(node.attrs['stroke-width'] ?? 0) / 2;
    const points = linesOf(node);
    if (
      points.some(
        ([x, y]) => !inside({ what, x0: x - half, y0: y - half, x1: x + half, y1: y + half }, frame),
      )
    )
      wrong.push(`outside: ${what}`);
    if (node.attrs.stroke === 'var(--paper)') continue;
    for (const box of boxes) if (hits(points, box, half)) wrong.push(`${box.what} on ${what}`);
  }
  for (const [i, box] of boxes.entries()) {
    if (!inside(box, frame)) wrong.push(`outside: ${box.what}`);
    if (box.what.includes('…')) wrong.push(`cut: ${box.what}`);
    for (const other of boxes.slice(i + 1))
      if (overlap(box, other)) wrong.push(`${box.what} on ${other.what}`);
  }
  return wrong;
}

describe('every sum has a drawing that explains its example', () => {
  it.each(SUMS.map((sum) => [sum.id, sum] as const))('%s', (_, sum) => {
    const found = sum.reckon(sum.example);
    expect(found.ok && found.picture).toBeTruthy();
  });
});

describe.each(['wide', 'narrow'] as const)('sums explained, %s', (shape) => {
  it.each(DRAWN)('%s', (name, id, texts) => {
    const found = SUMS.find((sum) => sum.id === id)!.reckon(texts);
    if (!found.ok || !found.picture) throw new Error(JSON.stringify(found));
    const drawing = drawSumPicture(found.picture, shape);
    expect(flaws(drawing)).toEqual([]);
    expectGolden(`sum-${name}-${shape}`, drawing, shape === 'wide' ? 'paper' : 'slate');
  });
});

/** Figures from a hair to far beyond any bike, as one writes them; each sum refuses what it cannot use. */
const SIZES = ['0', '0.01', '0.3', '2', '7', '19.5', '44', '120', '333', '1500', '12–13', '5 ± 4'];
const UNITS: Readonly<Partial<Record<string, readonly string[]>>> = {
  length: ['mm', 'in', 'm'],
  torque: ['N·m', 'lbf·in', 'lbf·ft'],
  force: ['N', 'kN', 'lbf'],
  ratio: ['%'],
  temperature: ['°C'],
  time: ['min', 'h'],
  current: ['A'],
  voltage: ['V'],
  resistance: ['Ω'],
  rotation: ['rpm'],
};

describe('whatever is entered', () => {
  const figure = (kind: string) =>
    fc
      .tuple(fc.constantFrom(...SIZES), fc.constantFrom(...(UNITS[kind] ?? [''])))
      .map((parts) => parts.join(' ').trim());
  const drawn = [...new Set(DRAWN.map(([, id]) => id))];
  it.each(drawn)(
    '%s stays clear',
    (id) => {
      const sum = SUMS.find((one) => one.id === id)!;
      let seen = 0;
      const texts = fc.record(
        Object.fromEntries(
          sum.fields.map((field) => [
            field.id,
            fc.oneof(
              { weight: 9, arbitrary: fc.constant(sum.example[field.id] ?? field.initial) },
              {
                weight: 2,
                arbitrary: field.choices
                  ? fc.constantFrom(...field.choices.map((choice) => choice.id))
                  : field.kind === 'list'
                    ? fc
                        .array(fc.oneof(figure('length'), figure('torque')), { minLength: 1, maxLength: 12 })
                        .map((all) => all.join(', '))
                    : figure(field.kind),
              },
            ),
          ]),
        ),
      );
      fc.assert(
        fc.property(texts, fc.constantFrom('wide' as const, 'narrow' as const), (said, shape) => {
          const found = sum.reckon(said);
          if (!found.ok || !found.picture) return;
          seen += 1;
          expect(flaws(drawSumPicture(found.picture, shape))).toEqual([]);
        }),
        { numRuns: Number(process.env.FUZZ ?? 200) },
      );
      // Else nothing but refusals was seen.
      expect(seen).toBeGreaterThan(20);
    },
    60_000,
  );
});
