/** Lines of words over and under the drawing of a sum, broken to its width, and the key to its lines and fills. */
import { box, hatch } from './hatch.ts';
import { wrap } from './measure.ts';
import { line, WEIGHT } from './pen.ts';
import type { Room } from './sum-bench-pictures.ts';
import { el, letter, type SvgNode } from './svg.ts';

/** Room left and right of everything, px. */
export const MARGIN = 14;

export interface Drawn {
  readonly nodes: readonly SvgNode[];
  /** Where the next thing may begin, px from the top. */
  readonly bottom: number;
}

/** Lines from `top` down, the first one bold where `bold` says so. */
export function captions(
  words: readonly string[],
  top: number,
  { width, text: size }: Room,
  bold = true,
): Drawn {
  const nodes: SvgNode[] = [];
  let y = top;
  for (const [n, each] of words.entries()) {
    const how = { size, bold: bold && n === 0 };
    for (const piece of wrap(each, width - 2 * MARGIN, how)) {
      y += size + 4;
      nodes.push(letter(MARGIN, y, piece, how));
    }
    y += 4;
  }
  return { nodes, bottom: y };
}

/** How a line or fill looks, to be drawn small in the key as it is in the picture. */
export type Look = 'sure' | 'perhaps' | 'brass-line' | 'danger-line' | 'ink-line' | 'dashed-frame';

const LINES = {
  'brass-line': { stroke: 'var(--brass)', 'stroke-width': 5 },
  'danger-line': { stroke: 'var(--danger)', 'stroke-width': 4 },
  'ink-line': { stroke: 'var(--ink)', 'stroke-width': 3 },
} as const;

/** A vertical line of a look, from `top` to `low`, px; with paper beside it, so that it is seen on ink as well. */
export function upright(look: keyof typeof LINES, x: number, top: number, low: number): SvgNode[] {
  const d = line([
    [x, top],
    [x, low],
  ]);
  const wide = LINES[look]['stroke-width'];
  const butt = { 'stroke-linecap': 'butt' } as const;
  return [
    el('path', { d, stroke: 'var(--paper)', 'stroke-width': wide + 4, ...butt }),
    el('path', { d, ...LINES[look], ...butt }),
  ];
}

/** A block from `x0` to `x1`: filled for what is sure, hatched for what may be. */
export function block(look: 'sure' | 'perhaps', x0: number, y0: number, x1: number, y1: number): SvgNode[] {
  const frame = el('rect', {
    x: x0,
    y: y0,
    width: Math.max(1, x1 - x0),
    height: Math.max(1, y1 - y0),
    fill: look === 'sure' ? 'var(--ink)' : 'var(--paper)',
    stroke: 'var(--ink)',
    'stroke-width': WEIGHT.detail,
  });
  return look === 'sure' || x1 - x0 < 4 ? [frame] : [frame, ...hatch(box(x0, y0, x1, y1), 2)];
}

/** The key: each look small at the left, its words beside it. */
export function keyTo(looks: readonly (readonly [Look, string])[], top: number, room: Room): Drawn {
  const size = room.text - 1;
  const left = MARGIN + 34;
  const nodes: SvgNode[] = [];
  let y = top + 6;
  for (const [look, words] of looks) {
    const middle = y + size * 0.62;
    if (look === 'sure' || look === 'perhaps')
      nodes.push(...block(look, MARGIN, middle - 7, MARGIN + 24, middle + 7));
    else if (look === 'dashed-frame')
      nodes.push(
        el('rect', {
          x: MARGIN,
          y: middle - 7,
          width: 24,
          height: 14,
          fill: 'var(--paper)',
          stroke: 'var(--ink)',
          'stroke-width': WEIGHT.outline,
          'stroke-dasharray': '5 4',
        }),
      );
    else nodes.push(...upright(look, MARGIN + 12, middle - 9, middle + 9));
    for (const piece of wrap(words, room.width - left - MARGIN, { size })) {
      nodes.push(letter(left, y + size, piece, { size }));
      y += size + 5;
    }
    y += 3;
  }
  return { nodes, bottom: y + 8 };
}
