/** A run of wire as thick as its copper asks, the current in it, and the volts that are lost along it. */
import type { Picture } from '../sum/picture.ts';
import { MARGIN } from './captions.ts';
import { hatch } from './hatch.ts';
import { wrap } from './measure.ts';
import { ink, line, ringAt, WEIGHT } from './pen.ts';
import type { Room } from './sum-bench-pictures.ts';
import { el, letter, type SvgNode, sheet } from './svg.ts';

/** Pixels a millimetre of copper is thick, and what is still seen and still fits. */
const THICK = { perMillimetre: 3, least: 2, most: 26 } as const;

export function drawWireRun({ section, words }: Extract<Picture, { kind: 'wire-run' }>, room: Room): SvgNode {
  const { width, text: size, shape } = room;
  const millimetres = Math.sqrt((4 * section) / Math.PI) * 1000;
  const thick = Math.min(THICK.most, Math.max(THICK.least, millimetres * THICK.perMillimetre));
  const [left, right] = [MARGIN + 12, width - MARGIN - 12];
  const nodes: SvgNode[] = [];
  let y = 4;
  const say = (text: string, solved: boolean) => {
    for (const piece of wrap(text, width - 2 * MARGIN, { size, bold: solved })) {
      y += size + 4;
      nodes.push(letter(MARGIN, y, piece, { size, bold: solved }));
    }
  };
  const is = (id: string) => words.solved === id;
  say(words.wire, is('gauge'));
  say(words.current, is('current'));
  y += 12;
  const head = line([
    [right - 30, y],
    [right - 20, y + 6],
    [right - 30, y + 12],
  ]);
  const shaft = line([
    [left, y + 6],
    [right - 20, y + 6],
  ]);
  nodes.push(el('path', { d: shaft + head, stroke: 'var(--brass)', 'stroke-width': 3 }));
  y += 24 + thick / 2;
  nodes.push(
    el('path', {
      d: line([
        [left, y],
        [right, y],
      ]),
      stroke: 'var(--ink)',
      'stroke-width': thick,
      'stroke-linecap': 'butt',
    }),
    ringAt([left, y], Math.max(8, thick / 2 + 3), WEIGHT.outline),
    ringAt([right, y], Math.max(8, thick / 2 + 3), WEIGHT.outline),
  );
  y += thick / 2 + 18;
  nodes.push(
    ink(
      line([
        [left, y],
        [right, y],
      ]) +
        line([
          [left, y - 6],
          [left, y + 6],
        ]) +
        line([
          [right, y - 6],
          [right, y + 6],
        ]),
      WEIGHT.detail,
    ),
  );
  y += 8;
  say(words.length, is('length'));
  y += 16;
  const deep = 44;
  // From nothing lost at the left end to all of it at the right one.
  nodes.push(
    ink(
      line([
        [left, y],
        [right, y],
      ]),
      WEIGHT.detail,
      { 'stroke-dasharray': '5 5' },
    ),
    ...hatch(
      {
        kind: 'outline',
        corners: [
          [left, y],
          [right, y],
          [right, y + deep],
        ],
      },
      2,
    ),
    ink(
      line([
        [left, y],
        [right, y + deep],
        [right, y],
      ]),
      WEIGHT.outline,
    ),
  );
  y += deep + 4;
  say(words.drop, is('drop'));
  y += size + 4;
  nodes.push(letter(MARGIN, y, 'wedge: volts lost on the way', { size: size - 1, fill: 'var(--quiet)' }));
  return sheet(
    `wire-run ${shape}`,
    width,
    y + 12,
    'Run of wire',
    `${words.wire}; ${words.length}; ${words.current}; ${words.drop}.`,
    nodes,
  );
}
