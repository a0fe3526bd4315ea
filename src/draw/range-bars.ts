/** Bars of ranges over one scale, with lines at what they are held against: filled is sure, hatched may be. */
import { block, type Drawn, MARGIN, upright } from './captions.ts';
import { textWidth, wrap } from './measure.ts';
import { ink, line, WEIGHT } from './pen.ts';
import { scale, ticks, tickWords } from './scale.ts';
import type { Room } from './sum-bench-pictures.ts';
import { letter, type SvgNode } from './svg.ts';

export interface RangeRow {
  readonly words: string;
  readonly sure: readonly [from: number, to: number] | null;
  readonly perhaps: readonly [from: number, to: number];
}

export interface RangeScale {
  /** Figure to px. */
  readonly x: (value: number) => number;
  readonly ticks: readonly { readonly at: number; readonly words: string }[];
  /** What the scale counts. */
  readonly words: string;
}

export interface RangeMark {
  readonly at: number;
  readonly look: 'brass-line' | 'danger-line' | 'ink-line';
}

/** An even scale from nought to a little above `most`, which must be above nought. */
export function evenScale(most: number, words: string, { width }: Room): RangeScale {
  const { at, step } = ticks(0, most * 1.04, 5);
  return {
    x: scale(0, most * 1.04, MARGIN, width - MARGIN),
    ticks: at.map((value) => ({ at: value, words: tickWords(value, step) })),
    words,
  };
}

/** Ticks whose words find room; one that would touch its neighbour is left out. */
function tickNodes(of: RangeScale, y: number, { width, text }: Room): SvgNode[] {
  const size = text - 2;
  const nodes: SvgNode[] = [];
  let free = 0;
  for (const { at, words } of of.ticks) {
    const wide = textWidth(words, { size, figure: true });
    const left = Math.max(2, Math.min(width - 2 - wide, of.x(at) - wide / 2));
    if (left < free) continue;
    free = left + wide + 10;
    const foot = line([
      [of.x(at), y],
      [of.x(at), y + 7],
    ]);
    nodes.push(ink(foot, WEIGHT.detail), letter(left, y + size + 9, words, { size, figure: true }));
  }
  return nodes;
}

/** The bars from `top` down, each under its words, then the scale. */
export function rangeBars(
  rows: readonly RangeRow[],
  marks: readonly RangeMark[],
  of: RangeScale,
  top: number,
  room: Room,
): Drawn {
  const { width, text: size } = room;
  const nodes: SvgNode[] = [];
  let y = top;
  for (const { words, sure, perhaps } of rows) {
    y += 4;
    for (const piece of wrap(words, width - 2 * MARGIN, { size })) {
      y += size + 4;
      nodes.push(letter(MARGIN, y, piece, { size }));
    }
    y += 11;
    // What is known to a hair is still to be seen.
    const end = Math.max(of.x(perhaps[1]), of.x(perhaps[0]) + 3);
    if (sure && of.x(sure[1]) - of.x(sure[0]) > 0.5)
      nodes.push(...block('sure', of.x(sure[0]), y, of.x(sure[1]), y + 18));
    if (perhaps[1] > perhaps[0] || !sure) nodes.push(...block('perhaps', of.x(perhaps[0]), y, end, y + 18));
    for (const { at, look } of marks) nodes.push(...upright(look, of.x(at), y - 3, y + 21));
    y += 24;
  }
  const axis = line([
    [MARGIN, y],
    [width - MARGIN, y],
  ]);
  nodes.push(ink(axis, WEIGHT.detail), ...tickNodes(of, y, room));
  y += size + 12;
  nodes.push(letter(MARGIN, y + size, of.words, { size: size - 1 }));
  return { nodes, bottom: y + size + 6 };
}
