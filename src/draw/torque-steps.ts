/** The stages of a torque as steps that rise to the last one; a step that falls is told by its colour, shape and word. */
import type { Picture } from '../sum/picture.ts';
import { MARGIN } from './captions.ts';
import { box, hatch } from './hatch.ts';
import { shorten } from './measure.ts';
import { line, WEIGHT } from './pen.ts';
import type { Room } from './sum-bench-pictures.ts';
import { el, letter, type SvgNode, sheet } from './svg.ts';

/** Longest and shortest step, px: the words stand above each, so only its length tells the torque. */
const LEAST = 6;

/** One bar a stage, growing to the right, from the first at the top: words in both systems find no room on upright ones. */
export function drawTorqueSteps({ steps }: Extract<Picture, { kind: 'torque-steps' }>, room: Room): SvgNode {
  const { width, text: size, shape } = room;
  const most = Math.max(...steps.map(({ torque }) => torque));
  const wide = width - 2 * MARGIN;
  const nodes: SvgNode[] = [];
  let y = 8;
  let before = 0;
  for (const { torque, words, falls } of steps) {
    const end = MARGIN + Math.max(LEAST, (torque / most) * wide);
    const how = { size, bold: true };
    y += size + 2;
    nodes.push(letter(MARGIN, y, shorten(falls ? `▼ ${words[0]}` : words[0], wide, how), how));
    y += size + 4;
    nodes.push(letter(MARGIN, y, shorten(words[1], wide, { size: size - 1 }), { size: size - 1 }));
    y += 13;
    nodes.push(
      el('rect', {
        x: MARGIN,
        y,
        width: end - MARGIN,
        height: 16,
        fill: 'var(--paper)',
        stroke: falls ? 'var(--danger)' : 'var(--ink)',
        'stroke-width': falls ? 4 : WEIGHT.outline,
        'stroke-dasharray': falls ? '7 5' : undefined,
      }),
    );
    // What this stage adds to the one before it.
    const from = MARGIN + Math.max(LEAST, (before / most) * wide);
    if (!falls && before > 0 && end - from > 4) nodes.push(...hatch(box(from, y, end, y + 16), 3));
    if (before > 0)
      nodes.push(
        el('path', {
          d: line([
            [from, y - 4],
            [from, y + 20],
          ]),
          stroke: 'var(--brass)',
          'stroke-width': 3,
        }),
      );
    y += 28;
    before = torque;
  }
  const small = size - 1;
  nodes.push(
    letter(MARGIN, y + small, 'line: the stage before; hatched: what is added', {
      size: small,
      fill: 'var(--quiet)',
    }),
  );
  if (steps.some(({ falls }) => falls)) {
    y += small + 6;
    nodes.push(
      letter(MARGIN, y + small, '▼ dashed: falls below the stage before', {
        size: small,
        fill: 'var(--danger)',
      }),
    );
  }
  return sheet(
    `torque-steps ${shape}`,
    width,
    y + small + 12,
    'Stages of the torque',
    `${steps.map(({ words, falls }) => `${words.join(', ')}${falls ? ', falls' : ''}`).join('; ')}.`,
    nodes,
  );
}
