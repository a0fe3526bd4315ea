/** Drawings as pictures: the light theme, the product's own faces, nothing else. */
import { describe, expect, it } from 'vitest';
import { THEMES } from '../../src/draw/palette.ts';
import { el, letter, type SvgNode, sheet } from '../../src/draw/svg.ts';
import { drawPng } from '../../src/press/draw-png.ts';
import { faceFonts, faceRules } from '../../src/press/faces.ts';
import { ttfOfWoff } from '../../src/press/ttf-of-woff.ts';
import { type Pixels, readPng } from './read-png.ts';

const drawn = async (...nodes: readonly SvgNode[]): Promise<Pixels> =>
  readPng(await drawPng(sheet('x', 200, 60, 'x', 'x', nodes)));
/** Leftmost and rightmost column that is not paper, px. */
function inked({ width, height, at }: Pixels): readonly [number, number] {
  const columns = Array.from({ length: width }, (_, x) => x).filter((x) =>
    Array.from({ length: height }, (_, y) => at(x, y)).some((colour) => colour !== THEMES.paper.paper),
  );
  return [columns[0] ?? -1, columns.at(-1) ?? -1];
}

describe('a picture of a drawing', () => {
  it('is twice as large as the drawing, on paper, in the colours of the light theme', async () => {
    const picture = await drawn(
      el('rect', { x: 0, y: 20, width: 20, height: 20, fill: 'var(--teal)' }),
      el('rect', { x: 40, y: 20, width: 20, height: 20, fill: 'var(--rule, var(--danger))' }),
    );
    expect([picture.width, picture.height]).toEqual([400, 120]);
    expect([picture.at(399, 119), picture.at(20, 60), picture.at(100, 60)]).toEqual([
      THEMES.paper.paper,
      THEMES.paper.teal,
      THEMES.paper.danger,
    ]);
  });

  it('has letters in both faces and in bold: figures have one pitch, words have not', async () => {
    const widths: number[] = [];
    for (const how of [
      { size: 20 },
      { size: 20, bold: true },
      { size: 20, figure: true },
      { size: 20, figure: true, bold: true },
    ]) {
      const [a, b] = inked(await drawn(letter(4, 40, 'iiiiii', how)));
      const [c, d] = inked(await drawn(letter(4, 40, 'mmmmmm', how)));
      expect(a).toBeGreaterThan(0);
      widths.push((d - c) / (b - a));
    }
    for (const ratio of widths.slice(0, 2)) expect(ratio).toBeGreaterThan(2);
    for (const ratio of widths.slice(2)) expect(ratio).toBeLessThan(1.3);
  });

  it('has the signs that figures are written with', async () => {
    for (const sign of ['Ω', '·', '–', '×', '°', '%', '½', '−', '“', '’', '±']) {
      const [from, to] = inked(await drawn(letter(60, 40, sign, { size: 24 })));
      expect([sign, from > 0, to > from]).toEqual([sign, true, true]);
    }
  });

  it('is the same bytes each time', async () => {
    const drawing = sheet('x', 200, 60, 'x', 'x', [letter(4, 40, 'Stator 0.2 Ω', { size: 20 })]);
    expect(await drawPng(drawing)).toEqual(await drawPng(drawing));
  });

  it('stays within what programs take, and is refused without a size', async () => {
    const long = readPng(await drawPng(sheet('x', 20_000, 10, 'x', 'x', [])));
    expect(long.width).toBe(8192);
    await expect(drawPng(el('svg'))).rejects.toThrow(RangeError);
  });
});

describe('a face out of its file for the web', () => {
  it('has tables whose sums are those it tells, OpenType 1.9, "Calculating checksums"', async () => {
    const fonts = await faceFonts();
    expect(fonts).toHaveLength(4);
    for (const font of fonts) {
      const view = new DataView(font.buffer);
      const count = view.getUint16(4);
      expect(count).toBeGreaterThan(8);
      let last = '';
      for (let n = 0; n < count; n++) {
        const at = 12 + 16 * n;
        const tag = String.fromCharCode(...font.subarray(at, at + 4));
        // A reader looks a table up by halving the list.
        expect(tag > last).toBe(true);
        last = tag;
        const [sum, from, length] = [4, 8, 12].map((shift) => view.getUint32(at + shift)) as [
          number,
          number,
          number,
        ];
        let total = 0;
        for (let i = 0; i < Math.ceil(length / 4); i++)
          // The sum of `head` leaves its own third word out.
          if (!(tag === 'head' && i === 2)) total = (total + view.getUint32(from + 4 * i)) >>> 0;
        expect([tag, total]).toEqual([tag, sum]);
      }
    }
  });

  it('is refused where it is no such file', () => {
    expect(() => ttfOfWoff(new Uint8Array(100))).toThrow(RangeError);
  });

  it('stands in a page as it is', async () => {
    expect(
      (await faceRules()).match(/@font-face\{[^}]+url\(data:font\/woff2;base64,[A-Za-z0-9+/]+=*\)/g),
    ).toHaveLength(4);
  });
});
