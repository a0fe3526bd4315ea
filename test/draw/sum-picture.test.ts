/** Drawings of the sums: golden at both widths, letters inside the sheet and clear of one another. */
import { describe, expect, it } from 'vitest';
import { drawSumPicture } from '../../src/draw/sum-picture.ts';
import type { SvgNode } from '../../src/draw/svg.ts';
import { SUMS } from '../../src/sum/catalogue.ts';
import type { Texts } from '../../src/sum/sum.ts';
import { expectGolden } from './golden.ts';
import { overlap, textBoxes } from './sheet-geometry.ts';

const WRENCHES = SUMS.find(({ id }) => id === 'wrench-choice')!.example;
const SCREW = SUMS.find(({ id }) => id === 'engagement')!.example;
const DRAWN: readonly (readonly [name: string, sum: string, texts: Texts])[] = [
  ['shim-stack', 'shims', { stack: '155–165 thou', stock: '60 thou x2, 30 thou x2, 10 thou' }],
  ['lever', 'wrench', { torque: '35 lbf·in', length: '10 in', adapter: '4 in', angle: '45°' }],
  [
    'slack',
    'chain-slack',
    { pitch: '#40', small: '24', large: '36', centre: '330 mm', slack: '1 in', wanted: '5/8–7/8 in' },
  ],
  ...(['up', 'down', 'sideways', 'along'] as const).map(
    (way) =>
      [
        `lift-${way}`,
        'break-loose',
        {
          fitted: '150 N·m',
          thread: 'right',
          bar: '600 mm',
          way,
          mass: '300 kg',
          width: '250 mm',
          support: '600 mm',
          offset: '300 mm',
          height: '700 mm',
        },
      ] as const,
  ),
  ['bolt-map-ring', 'stages', { ring: '8' }],
  ['wrench-ranges', 'wrench-choice', WRENCHES],
  ['wrench-ranges-none', 'wrench-choice', { ...WRENCHES, torque: '2 N·m' }],
  ['screw-hole', 'engagement', SCREW],
  ['screw-hole-bottoms', 'engagement', { ...SCREW, length: '35 mm' }],
  ['screw-hole-through', 'engagement', { ...SCREW, hole: '', tapped: '', grip: '40 mm', length: '' }],
  [
    'bolt-map-cover',
    'stages',
    { places: '0,40 40,0 110,0 180,10 250,0 300,45 300,90 230,120 130,115 40,100' },
  ],
];

/** Letters are inside the sheet and clear of one another. */
function expectClear(drawing: SvgNode): void {
  const boxes = textBoxes(drawing);
  const [, , width, height] = String(drawing.attrs.viewBox).split(' ').map(Number);
  for (const [i, box] of boxes.entries()) {
    expect(box.x0 >= 0 && box.x1 <= width! && box.y0 >= 0 && box.y1 <= height!, box.what).toBe(true);
    for (const other of boxes.slice(i + 1))
      expect(overlap(box, other), `${box.what} on ${other.what}`).toBe(false);
  }
}

it.each(['wide', 'narrow'] as const)('the way of a wire, %s', (shape) => {
  const points = [
    'under the tensioner',
    'two clips',
    'a sleeve at the edge of the case, where the cover would cut it',
  ];
  const drawing = drawSumPicture({ kind: 'wire-way', points, words: 'The wire, as it was found' }, shape);
  expectClear(drawing);
  expectGolden(`wire-way-${shape}`, drawing, shape === 'wide' ? 'paper' : 'slate');
});

describe.each(['wide', 'narrow'] as const)('sums, %s', (shape) => {
  it.each(DRAWN)('%s', (name, id, texts) => {
    const found = SUMS.find((sum) => sum.id === id)!.reckon(texts);
    if (!found.ok || !found.picture) throw new Error('no picture');
    const drawing = drawSumPicture(found.picture, shape);
    expectClear(drawing);
    expectGolden(`sum-${name}-${shape}`, drawing, shape === 'wide' ? 'paper' : 'slate');
  });
});
