import { describe, expect, it } from 'vitest';
import { against, drawBand } from '../../src/draw/band.ts';
import { curveTable } from '../../src/draw/curve-table.ts';
import { type CurvesInput, drawCurves, spread } from '../../src/draw/curves.ts';
import { drawReliability, wilson } from '../../src/draw/reliability.ts';
import { thin, ticks, tickWords } from '../../src/draw/scale.ts';
import { drawSets } from '../../src/draw/sets.ts';
import type { SvgNode } from '../../src/draw/svg.ts';
import { overlap, textBoxes, textOf, viewBox, walk } from './sheet-geometry.ts';

function expectTidy(drawing: SvgNode): void {
  const [w, h] = viewBox(drawing);
  const boxes = textBoxes(drawing);
  const found: string[] = [];
  for (const [i, a] of boxes.entries()) {
    if (a.x0 < 0 || a.y0 < 0 || a.x1 > w || a.y1 > h) found.push(`cut: ${a.what}`);
    for (const b of boxes.slice(i + 1)) if (overlap(a, b)) found.push(`overlap: ${a.what} / ${b.what}`);
  }
  expect(found).toEqual([]);
}
const texts = (drawing: SvgNode) =>
  [...walk(drawing)].filter((n) => n.tag === 'text').map((n) => textOf(n).replaceAll('\u00a0', ' '));

const input = (over: Partial<CurvesInput> = {}): CurvesInput => ({
  title: 'Volts',
  x: { label: 'engine speed', unit: 'rpm' },
  y: { label: 'battery volts', unit: 'V' },
  curves: [
    {
      name: 'sound',
      points: [
        [900, 12.4],
        [2000, 14.2],
        [5000, 14.4],
      ],
    },
    {
      name: 'lead open, "hot"',
      points: [
        [900, 12.1],
        [3000, 12.9],
        [5000, 13.1],
      ],
    },
  ],
  bands: [
    {
      name: 'a sound bike',
      points: [
        [2000, 13.8, 14.6],
        [5000, 13.9, 14.7],
      ],
    },
  ],
  shape: 'wide',
  ...over,
});

describe('axes', () => {
  it('ticks at 1, 2 or 5 times a power of ten, inside the range', () => {
    expect(ticks(0, 10, 5)).toEqual({ at: [0, 2, 4, 6, 8, 10], step: 2 });
    expect(ticks(900, 5900, 4).at).toEqual([2000, 4000]);
    expect(ticks(12.13, 14.71, 6).at.map((v) => tickWords(v, 0.5))).toEqual([
      '12.5',
      '13.0',
      '13.5',
      '14.0',
      '14.5',
    ]);
    expect(tickWords(-20, 10)).toBe('−20');
    expect(tickWords(-0, 10)).toBe('0');
    expect(() => ticks(3, 3, 5)).toThrow(/low must be below high/);
  });
  it('thins a long series to its extremes in every pixel column and loses no peak', () => {
    const points = Array.from({ length: 100_000 }, (_, i) => [i, i === 54_321 ? 99 : Math.sin(i)] as const);
    const thinned = thin(points, (x) => (x / 100_000) * 300);
    expect(thinned.length).toBeLessThanOrEqual(4 * 300);
    expect(Math.max(...thinned.map((p) => p[1]))).toBe(99);
    expect(thinned.every((p, i) => i === 0 || p[0] > thinned[i - 1]![0])).toBe(true);
    expect(thin(points.slice(0, 3), (x) => x * 10)).toEqual(points.slice(0, 3));
  });
  it('spreads labels until they clear each other', () => {
    expect(spread([100, 101, 102], 20, 0, 300)).toEqual([100, 120, 140]);
    expect(spread([290, 291], 20, 0, 300)).toEqual([280, 300]);
  });
});

describe('curves', () => {
  for (const shape of ['wide', 'narrow'] as const) {
    it(`letters keep clear of each other, ${shape}`, () => {
      expectTidy(drawCurves(input({ shape })));
      const six = Array.from({ length: 6 }, (_, k) => ({
        name: `bike number ${k}`,
        points: [
          [0, 14 + k / 1000],
          [9000, 14 + k / 1000],
        ] as const,
      }));
      expectTidy(drawCurves(input({ shape, curves: six })));
      expectTidy(drawCurves(input({ shape, y: { label: 'current', unit: 'A', min: -1000, max: 1000 } })));
      expectTidy(drawCurves(input({ shape, x: { label: 'time', unit: 's', min: 0, max: 123456 } })));
    });
  }
  it('tells every line apart by dash and marker, and names it', () => {
    const drawing = drawCurves(input());
    const lines = [...walk(drawing)].filter((n) => n.attrs.class === 'line');
    expect(new Set(lines.map((n) => n.attrs['stroke-dasharray'] ?? 'solid')).size).toBe(2);
    expect(texts(drawing)).toEqual(
      expect.arrayContaining([
        'sound',
        'lead open, "hot"',
        'a sound bike',
        'battery volts, V',
        'engine speed, rpm',
      ]),
    );
    expect(textOf([...walk(drawing)].find((n) => n.tag === 'desc')!)).toContain(
      'sound: 12.4 V at 900 rpm, 14.4 V at 5000 rpm.',
    );
  });
  it('leaves a gap where there is no value, and survives a curve with none', () => {
    const d = (points: CurvesInput['curves'][number]['points']) =>
      String(
        [...walk(drawCurves(input({ curves: [{ name: 'x', points }] })))].find(
          (n) => n.attrs.class === 'line',
        )!.attrs.d,
      );
    expect(
      d([
        [900, 12],
        [1000, 13],
        [1100, Number.NaN],
        [1200, 13],
        [1300, 12],
      ]).match(/M/g),
    ).toHaveLength(2);
    expect(() => drawCurves(input({ curves: [{ name: 'x', points: [] }] }))).not.toThrow();
  });
  it('refuses what cannot be drawn', () => {
    expect(() => drawCurves(input({ curves: [], bands: [] }))).toThrow(/no finite value/);
    const seven = Array.from({ length: 7 }, (_, k) => ({ name: `${k}`, points: [[0, 1]] as const }));
    expect(() => drawCurves(input({ curves: seven }))).toThrow(/at most 6 can be told apart, got 7/);
  });
  it('writes the same data as CSV', () => {
    // RFC 4180 §2: CRLF after every line, fields with commas or quotes in quotes, quotes doubled.
    expect(curveTable(input())).toBe(
      '"engine speed, rpm","sound, V","lead open, ""hot"", V","a sound bike low, V","a sound bike high, V"\r\n' +
        '900,12.4,12.1,,\r\n2000,14.2,,13.8,14.6\r\n3000,,12.9,,\r\n5000,14.4,13.1,13.9,14.7\r\n',
    );
  });
});

describe('the band beside an entry', () => {
  const sound = { low: 14.1, high: 16.3 };
  for (const shape of ['wide', 'narrow'] as const) {
    it(`letters keep clear of each other wherever the value lies, ${shape}`, () => {
      for (const unit of ['V', 'mV', 'Ω', 'SG'])
        for (const value of [null, -5, 0, 3.1, 14.1, 15.2, 16.3, 29.99, 44, 123456.789])
          for (const band of [sound, null, { low: 0, high: 0 }, { low: 29, high: 60 }])
            expectTidy(drawBand({ unit, sound: band, value, min: 0, max: 30, label: 'x', shape }));
      expectTidy(drawBand({ unit: 'mV', sound, value: 1200, min: -2000, max: 12000, label: 'x', shape }));
    });
  }
  it('says where the value lies, by word and by shape', () => {
    const drawn = (value: number | null) =>
      drawBand({ unit: 'V', sound, value, min: 0, max: 30, label: 'AC volts', shape: 'wide' });
    expect(texts(drawn(15))).toEqual(expect.arrayContaining(['15 V', 'as a sound bike']));
    expect(texts(drawn(3.1))).toEqual(expect.arrayContaining(['3.1 V', 'below a sound bike']));
    expect(texts(drawn(44))).toEqual(expect.arrayContaining(['44 V', 'above a sound bike']));
    expect(texts(drawn(null))).toContain('a sound bike');
    const shapeOf = (value: number) =>
      [...walk(drawn(value))]
        .filter(
          (n) => ['circle', 'path'].includes(n.tag) && n.attrs.fill !== undefined && n.attrs.fill !== 'none',
        )
        .map((n) => `${n.tag} ${n.attrs.fill}`)
        .join();
    expect(new Set([15, 3.1, 44].map(shapeOf)).size).toBe(3);
    expect([14.1, 16.3, 14.0999, 16.301].map((v) => against(v, sound))).toEqual([
      'sound',
      'sound',
      'below',
      'above',
    ]);
  });
  it('refuses an empty scale and a band upside down', () => {
    const bad = { unit: 'V', value: null, label: 'x', shape: 'wide' } as const;
    expect(() => drawBand({ ...bad, sound: null, min: 3, max: 3 })).toThrow(/min must be below max/);
    expect(() => drawBand({ ...bad, sound: { low: 2, high: 1 }, min: 0, max: 3 })).toThrow(
      /upside|must not be above/,
    );
  });
});

describe('sets of faults', () => {
  const sets = Array.from({ length: 9 }, (_, i) => ({
    faults: [`fault ${i}`, 'stator shorted to the core midway', 'burnt pins in the stator plug'],
    probability: 2 ** -(i + 1),
  }));
  it('ranks them, gathers the rest, and gives each bar its length', () => {
    const drawing = drawSets({ title: 'x', sets: [...sets].reverse(), most: 3, shape: 'wide' });
    const items = [...walk(drawing)].filter((n) => n.attrs.role === 'listitem');
    expect(items.map((n) => String(n.attrs['aria-label']).replace('\u00a0', ' '))).toEqual([
      'fault 0 + stator shorted to the core midway + burnt pins in the stator plug, 50 %',
      'fault 1 + stator shorted to the core midway + burnt pins in the stator plug, 25 %',
      'fault 2 + stator shorted to the core midway + burnt pins in the stator plug, 13 %',
      '6 other sets, 12 %',
    ]);
    const widths = items.map((n) => Number([...walk(n)].find((m) => m.tag === 'rect')!.attrs.width));
    expect(widths[0]! / widths[1]!).toBeCloseTo(2, 6);
    for (const shape of ['wide', 'narrow'] as const) expectTidy(drawSets({ title: 'x', sets, shape }));
  });
  it('calls the empty set by its name and draws nothing for no sets', () => {
    expect(texts(drawSets({ title: 'x', sets: [{ faults: [], probability: 1 }], shape: 'wide' }))).toEqual([
      'nothing is wrong',
      '>99 %',
    ]);
    expect(texts(drawSets({ title: 'x', sets: [], shape: 'narrow' }))).toEqual([]);
    expect(() => drawSets({ title: 'x', sets: [{ faults: [], probability: 2 }], shape: 'wide' })).toThrow(
      RangeError,
    );
  });
});

describe('reliability', () => {
  it('gives the Wilson interval', () => {
    // Worked by hand from Wilson's formula, 8 of 10 at 90 %: centre 0.7361, half width 0.1953.
    const [low, high] = wilson(0.8, 10);
    expect(low).toBeCloseTo(0.541, 2);
    expect(high).toBeCloseTo(0.9314, 2);
    expect(wilson(0, 5)[0]).toBe(0);
    expect(wilson(1, 5)[1]).toBe(1);
    expect(() => wilson(0.5, 0)).toThrow(RangeError);
  });
  it('draws a disc for every bin that has answers, and keeps its figures apart', () => {
    const bins = Array.from({ length: 20 }, (_, i) => ({
      predicted: (i + 0.5) / 20,
      observed: (i + 0.5) / 20,
      count: i === 7 ? 0 : 3 + 97 * i,
    }));
    for (const shape of ['wide', 'narrow'] as const) {
      const drawing = drawReliability({ title: 'x', bins, shape });
      expect([...walk(drawing)].filter((n) => n.tag === 'circle')).toHaveLength(19);
      expectTidy(drawing);
    }
    expect(
      textOf([...walk(drawReliability({ title: 'x', bins, shape: 'wide' }))].find((n) => n.tag === 'desc')!),
    ).toContain('said 3 %, came true 3 % of 3');
  });
});
