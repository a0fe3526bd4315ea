/** The strip-down: golden at both widths, layers that keep the order, nothing on top of anything, 400 parts quickly. */
import { describe, expect, it } from 'vitest';
import { drawStrip, layStrip } from '../../src/draw/strip-down.ts';
import { layersOf, type StripPart } from '../../src/draw/strip-layers.ts';
import type { StripLayout } from '../../src/draw/strip-place.ts';
import { svgText } from '../../src/draw/svg.ts';
import { expectGolden } from './golden.ts';
import { overlap, textBoxes, viewBox, walk } from './sheet-geometry.ts';
import { bigStrip, SMALL_STRIP, stripPart } from './strip-parts.ts';

const WIDTH = { wide: 1216, narrow: 328 } as const;
const layerOf = (parts: readonly StripPart[]) => {
  const { layer } = layersOf(parts);
  return Object.fromEntries(parts.map(({ id }, n) => [id, layer[n]]));
};

describe('layers', () => {
  it('lie below the deepest of what is waited for, slackened things where they can be slackened', () => {
    expect(layerOf(SMALL_STRIP)).toEqual({
      seat: 0,
      'left-footrest-with-gear-lever': 0,
      'rear-brake': 0,
      'inspection-lid': 0,
      'outer-primary-cover': 1,
      'engine-sprocket': 2,
      'primary-chain': 3,
      'clutch-with-its-basket': 3,
      rotor: 3,
      'stator-plug': 1,
      stator: 4,
      'lost-bracket': 5,
    });
    expect([...layersOf(SMALL_STRIP).stuck]).toEqual([SMALL_STRIP.length - 1]);
  });

  it('say no line twice: the rotor’s wait for the cover follows from its wait for the sprocket', () => {
    const { links, all, parts } = layersOf(SMALL_STRIP);
    const to = (list: typeof links, id: string) =>
      list.filter((one) => parts[one.to]!.id === id).map(({ from }) => parts[from]!.id);
    expect(to(all, 'rotor')).toEqual(['engine-sprocket', 'outer-primary-cover']);
    expect(to(links, 'rotor')).toEqual(['engine-sprocket']);
    expect(to(links, 'clutch-with-its-basket')).toEqual(['engine-sprocket']);
  });

  it('put each part of a big strip-down below one whole way of it, and parts in a ring at no way', () => {
    const parts = bigStrip(300, 7);
    const { layer, stuck } = layersOf(parts);
    const at = new Map(parts.map(({ id }, n) => [id, n]));
    for (const [n, { ways }] of parts.entries())
      expect(
        ways.some((way) => way.every(({ of, slack }) => slack || layer[at.get(of)!]! < layer[n]!)),
        String(n),
      ).toBe(true);
    expect(stuck.size).toBe(0);
    const ring = [stripPart('a', [['b']]), stripPart('b', [['a']]), stripPart('c', [[]])];
    expect([...layersOf(ring).stuck]).toEqual([0, 1]);
    expect(layersOf(ring).links).toHaveLength(2);
  });

  it('have a part that is slackened by itself first wait for what that waits for', () => {
    const { links, parts, layer, count } = layersOf([
      stripPart('guard', [[]]),
      stripPart('cable', [[]], { slackens: [[]] }),
      stripPart('cover', [['~cover', 'cable']], { slackens: [['guard']] }),
    ]);
    expect(links.map(({ from, to }) => [parts[from]!.id, parts[to]!.id])).toEqual([
      ['guard', 'cover'],
      ['cable', 'cover'],
    ]);
    expect([layer, count]).toEqual([[0, 0, 1], 2]);
  });

  it('refuse one id twice, and a sheet that is too narrow', () => {
    expect(() => layersOf([stripPart('a', [[]]), stripPart('a', [[]])])).toThrow(/got "a" twice/);
    expect(() => layStrip(SMALL_STRIP, 'wide', 300)).toThrow(/width must be at least 520/);
    expect(svgText(drawStrip(layStrip([], 'narrow', 300), { chosen: null }))).toContain(
      '0 parts in 0 layers',
    );
  });
});

const boxesOf = ({ places, layers }: StripLayout) =>
  places.map(({ x, y, width, height }, n) => ({
    what: layers.parts[n]!.id,
    x0: x,
    y0: y,
    x1: x + width,
    y1: y + height,
  }));

describe.each(['wide', 'narrow'] as const)('the strip-down, %s', (shape) => {
  const layout = layStrip(SMALL_STRIP, shape, WIDTH[shape]);
  const drawing = drawStrip(layout, { chosen: 'engine-sprocket' });

  it('is the golden one, with a part in hand and without', () => {
    expectGolden(`strip-small-${shape}`, drawing, shape === 'wide' ? 'paper' : 'slate');
    expectGolden(`strip-plain-${shape}`, drawStrip(layout, { chosen: null }), 'paper');
  });

  it('keeps its letters inside the sheet and apart', () => {
    const [width, height] = viewBox(drawing);
    const boxes = textBoxes(drawing);
    for (const { what, x0, x1, y0, y1 } of boxes)
      expect(x0 >= 0 && x1 <= width && y0 >= 0 && y1 <= height, what).toBe(true);
    for (const [k, a] of boxes.entries())
      for (const b of boxes.slice(k + 1)) expect(overlap(a, b), `${a.what} on ${b.what}`).toBe(false);
  });

  it('gives every part 64 px, the words of its states and a name for those who hear it', () => {
    for (const { height } of layout.places) expect(height).toBeGreaterThanOrEqual(64);
    const labels = [...walk(drawing)].flatMap(({ attrs }) =>
      attrs['data-part'] === undefined ? [] : [String(attrs['aria-label'])],
    );
    expect(labels).toHaveLength(SMALL_STRIP.length);
    expect(labels).toContain('engine sprocket, 1 fastener, in hand');
    expect(labels).toContain('stator, 4 fasteners, to get to');
    expect(labels).toContain('lost bracket, no way takes it off');
    const text = svgText(drawing);
    for (const words of ['slack', 'get to', 'no way', 'in hand']) expect(text).toContain(words);
  });

  it('draws of 400 parts only what is in view, no part on another, no line through a part it is not for', () => {
    const big = layStrip(bigStrip(400, 3), shape, WIDTH[shape]);
    const boxes = boxesOf(big);
    for (const [k, a] of boxes.entries())
      for (const b of boxes.slice(k + 1)) expect(overlap(a, b), `${a.what} on ${b.what}`).toBe(false);
    const window = drawStrip(big, { chosen: null, from: 1000, to: 1800 });
    expect(viewBox(window)[1]).toBe(big.height);
    const drawn = [...walk(window)].filter(({ attrs }) => attrs['data-part'] !== undefined);
    expect(drawn.length).toBeGreaterThan(5);
    expect(drawn.length).toBeLessThan(60);
    for (const { what, x0, x1 } of textBoxes(drawStrip(big, { chosen: null })))
      expect(x0 >= 0 && x1 <= big.width, what).toBe(true);
    if (shape === 'narrow') return;
    // Every piece of a line is level or upright: it runs through a box where the two spans cross.
    const through = big.lines.flatMap(({ points, from, to }) =>
      points.slice(1).flatMap(([x, y], k) => {
        const [px, py] = points[k]!;
        const piece = {
          what: `${from} to ${to}`,
          x0: Math.min(x, px) + 1,
          x1: Math.max(x, px) - 1,
          y0: Math.min(y, py),
          y1: Math.max(y, py),
        };
        expect(x === px || y === py).toBe(true);
        return boxes
          .filter((box, n) => n !== from && n !== to && overlap(piece, box))
          .map(({ what }) => what);
      }),
    );
    expect(through).toEqual([]);
  });
});

it('lays 400 parts out in little more than what four times 100 take', () => {
  const sizes = [
    { parts: bigStrip(100, 5), times: 4 },
    { parts: bigStrip(400, 5), times: 1 },
  ];
  const best = sizes.map(() => Number.POSITIVE_INFINITY);
  // By turns and many times: the least of them is the layout, the rest is whatever else the computer does. Both take about
  // as long, so that neither slips through where the other is held up.
  for (let run = 0; run < 80; run++)
    for (const [k, { parts, times }] of sizes.entries()) {
      const start = performance.now();
      for (let n = 0; n < times; n++) layStrip(parts, 'wide', 1216);
      best[k] = Math.min(best[k]!, performance.now() - start);
    }
  const [few, many] = best as [number, number];
  // What grows with the square of the parts would be 4.
  expect(many / few).toBeLessThan(3);
  expect(many).toBeLessThan(50);
});
