/** Drawings that explain two sums of the tool wall: the ranges of the wrenches at hand, and a screw in its hole. */
import type { Picture } from '../sum/picture.ts';
import { printNumber } from '../units/print.ts';
import type { Point } from './hatch.ts';
import { textWidth } from './measure.ts';
import { ink, line, WEIGHT } from './pen.ts';
import type { Room } from './sum-bench-pictures.ts';
import { el, letter, type SvgNode, sheet } from './svg.ts';

type Of<K extends Picture['kind']> = Extract<Picture, { kind: K }>;

function bar(x0: number, y0: number, x1: number, y1: number, fill: string, outline: number): SvgNode {
  return el('rect', {
    x: x0,
    y: y0,
    width: Math.max(1, x1 - x0),
    height: Math.max(1, y1 - y0),
    fill,
    stroke: 'var(--ink)',
    'stroke-width': outline,
  });
}

/** Round figures of a scale that doubles: 1, 2, 5, 10 … within its ends. */
function roundFigures(low: number, high: number): readonly number[] {
  const figures: number[] = [];
  for (let decade = Math.floor(Math.log10(low)); decade <= Math.log10(high); decade++)
    for (const step of [1, 2, 5]) {
      const figure = step * 10 ** decade;
      if (figure >= low && figure <= high) figures.push(Number(figure.toPrecision(1)));
    }
  return figures;
}

/** One bar for each wrench over a scale of torque, its best part filled, and a line where the wanted torque is. */
export function drawWrenchRanges(
  { rows, target, words }: Of<'wrench-ranges'>,
  { width, text: size, shape }: Room,
): SvgNode {
  const margin = 14;
  const low = Math.min(target, ...rows.map((row) => row.low)) * 0.8;
  const high = Math.max(target, ...rows.map((row) => row.high)) * 1.15;
  // Torque doubles from wrench to wrench: on an even scale the small one would be a dot.
  const x = (torque: number) =>
    margin + ((width - 2 * margin) * Math.log(torque / low)) / Math.log(high / low);
  const top = 2 * size + 22;
  const each = size + 40;
  const bottom = top + rows.length * each + 4;
  const ticks: SvgNode[] = [];
  let free = 0;
  for (const figure of roundFigures(low, high)) {
    const label = printNumber(figure);
    const wide = textWidth(label, { size: size - 2, figure: true });
    const left = x(figure) - wide / 2;
    if (left < free || left + wide > width - 2) continue;
    free = left + wide + 12;
    ticks.push(
      ink(
        line([
          [x(figure), bottom],
          [x(figure), bottom + 7],
        ]),
        WEIGHT.detail,
      ),
      letter(x(figure), bottom + size + 8, label, { size: size - 2, anchor: 'middle', figure: true }),
    );
  }
  const taken = rows.find((row) => row.taken);
  return sheet(
    `wrench-ranges ${shape}`,
    width,
    bottom + 4 * size + 24,
    'Ranges of the wrenches',
    `Wanted ${words}; ${taken ? `${taken.name} is the one to take` : 'none fits'}.`,
    [
      letter(10, size + 4, `wanted ${words}`, { size, bold: true }),
      ...rows.flatMap((row, n) => {
        const y = top + n * each + size + 8;
        return [
          letter(margin, y - 7, row.taken ? `${row.name}: take this one` : row.name, {
            size,
            bold: row.taken,
          }),
          bar(x(row.low), y, x(row.high), y + 18, 'var(--paper)', WEIGHT.outline),
          ...(row.best ? [bar(x(row.best.low), y, x(row.best.high), y + 18, 'var(--ink)', 0)] : []),
          // Paper beside the line, so that it is seen on the ink as well.
          el('path', {
            d: line([
              [x(target), y - 2],
              [x(target), y + 20],
            ]),
            stroke: 'var(--paper)',
            'stroke-width': 9,
            'stroke-linecap': 'butt',
          }),
          el('path', {
            d: line([
              [x(target), y - 2],
              [x(target), y + 24],
            ]),
            stroke: 'var(--brass)',
            'stroke-width': 5,
            'stroke-linecap': 'butt',
          }),
        ];
      }),
      ink(
        line([
          [margin, bottom],
          [width - margin, bottom],
        ]),
        WEIGHT.detail,
      ),
      ...ticks,
      letter(10, bottom + 2 * size + 16, 'N·m at the screw', { size: size - 1 }),
      letter(10, bottom + 3 * size + 20, 'line: wanted; frame: usable; filled: best', {
        size: size - 1,
        fill: 'var(--quiet)',
      }),
    ],
  );
}

/** Screw, what it clamps and the hole, cut open and to scale; the thread that holds is set off in brass. */
export function drawScrewHole(picture: Of<'screw-hole'>, { width, text: size, shape }: Room): SvgNode {
  const { diameter, pitch, clamped, reach, chamfer, threadDepth, holeDepth, bottoms, words } = picture;
  const head = 0.7 * diameter;
  const blind = holeDepth !== null || threadDepth !== null;
  const bottom =
    holeDepth ?? (threadDepth === null ? Math.max(reach, 0) + diameter : threadDepth + 2 * pitch);
  const deep = Math.max(bottom + (blind ? 0.8 * diameter : 0), reach + 0.4 * diameter);
  const scale = Math.min(260 / (head + clamped + deep), (width * 0.16) / diameter);
  const top = (size + 8) * words.length + 24;
  const middle = width * 0.34;
  const face = top + (head + clamped) * scale;
  const at = (across: number, down: number): Point => [middle + across * scale, face + down * scale];
  const r = diameter / 2;
  const wide = Math.max(2.2 * diameter, 60 / scale);
  const box = (x0: number, y0: number, x1: number, y1: number, fill: string, outline: number) => {
    const [[left, up], [right, down]] = [at(x0, y0), at(x1, y1)];
    return bar(left, up, right, down, fill, outline);
  };
  const hatch = (x0: number, x1: number) => {
    const [left, right] = [at(x0, 0)[0], at(x1, 0)[0]];
    const [up, down] = [face, face + deep * scale];
    const lines: string[] = [];
    for (let y = up + 8; y < down + (right - left); y += 11) {
      // From the left edge down-left to up-right, cut at the edges of the part.
      const [from, to] = [Math.min(right, left + Math.max(0, y - up)), left + Math.max(0, y - down)];
      if (from > to)
        lines.push(
          line([
            [to, y - (to - left)],
            [from, y - (from - left)],
          ]),
        );
    }
    return ink(lines.join(''), WEIGHT.hair);
  };
  const holds: readonly [number, number] = [
    Math.max(0, chamfer),
    Math.min(reach - pitch, threadDepth ?? (holeDepth === null ? reach : Math.min(reach, holeDepth))),
  ];
  const low = face + deep * scale;
  const beside = (down: number, text: string) =>
    letter(at(wide, 0)[0] + 12, at(0, down)[1] + size * 0.33, text, { size: size - 1 });
  return sheet(
    `screw-hole ${shape}`,
    width,
    low + 2 * size + 22,
    'Screw in its hole',
    `${words.join('; ')}.`,
    [
      ...words.map((each, n) => letter(10, (size + 8) * (n + 1), each, { size, bold: n === 0 })),
      box(-wide, 0, wide, deep, 'var(--paper)', WEIGHT.outline),
      hatch(-wide, wide),
      box(-wide, -clamped, wide, 0, 'var(--paper)', WEIGHT.outline),
      box(-r * 1.12, -clamped, r * 1.12, 0, 'var(--paper)', WEIGHT.hair),
      // The hole: open below where it goes through, with the point of the drill where it is blind.
      box(-r, 0, r, blind ? bottom : deep, 'var(--paper)', blind ? 0 : WEIGHT.detail),
      ...(blind
        ? [
            el('path', {
              d: line([at(-r, 0), at(-r, bottom), at(0, bottom + 0.6 * r), at(r, bottom), at(r, 0)]),
              fill: 'var(--paper)',
              stroke: 'var(--ink)',
              'stroke-width': WEIGHT.detail,
            }),
          ]
        : []),
      box(-r * 0.86, -clamped, r * 0.86, Math.max(reach, -clamped), 'var(--paper)', WEIGHT.outline),
      box(-1.6 * r, -clamped - head, 1.6 * r, -clamped, 'var(--ink)', WEIGHT.outline),
      ...(holds[1] > holds[0]
        ? [-r, r].map((side) =>
            el('path', {
              d: line([at(side, holds[0]), at(side, holds[1])]),
              stroke: 'var(--brass)',
              'stroke-width': 7,
              'stroke-linecap': 'butt',
            }),
          )
        : []),
      ...(bottoms
        ? [
            el('path', {
              d: line([at(-1.5 * r, bottom), at(1.5 * r, bottom)]),
              stroke: 'var(--danger)',
              'stroke-width': 5,
            }),
          ]
        : []),
      beside(-clamped / 2, 'clamped'),
      beside(Math.max((holds[0] + holds[1]) / 2, (size * 1.4) / scale - clamped / 2), 'tapped part'),
      letter(10, low + size + 10, 'brass: thread that holds', { size: size - 1, fill: 'var(--quiet)' }),
    ],
  );
}
