/** The way of a wire as it was found: what it passes, one below the other, in the order in which it was written down. */
import type { Picture } from '../sum/picture.ts';
import { MARGIN } from './captions.ts';
import { wrap } from './measure.ts';
import { line, ringAt, WEIGHT } from './pen.ts';
import type { Room } from './sum-bench-pictures.ts';
import { el, letter, type SvgNode, sheet } from './svg.ts';

/** How thick the wire is drawn, and the rings on it, px. */
const WIRE = 7;
const RING = 9;

export function drawWireWay({ points, words }: Extract<Picture, { kind: 'wire-way' }>, room: Room): SvgNode {
  const { width, text: size, shape } = room;
  const at = MARGIN + RING + 2;
  const left = at + RING + 14;
  const head = size + 10;
  const gap = 14;
  const end = 22;
  const letters: SvgNode[] = [letter(MARGIN, size + 2, words, { size })];
  const rings: SvgNode[] = [];
  let y = head + end;
  for (const [n, point] of points.entries()) {
    const pieces = wrap(`${n + 1}  ${point}`, width - left - MARGIN, { size, bold: true });
    rings.push(ringAt([at, y + 0.65 * size], RING, WEIGHT.outline));
    for (const piece of pieces) {
      y += size + 4;
      letters.push(letter(left, y - 4, piece, { size, bold: true }));
    }
    y += gap;
  }
  const bottom = y - gap + end;
  const run = line([
    [at, head],
    [at, bottom],
  ]);
  return sheet(
    `wire-way ${shape}`,
    width,
    bottom + 8,
    'Way of the wire',
    `${words}: ${points.join(', then ')}.`,
    [
      el('path', { d: run, stroke: 'var(--ink)', 'stroke-width': WIRE, 'stroke-linecap': 'butt' }),
      ...rings,
      ...letters,
    ],
  );
}
