/** The dip as a thin strip: the line down and up, what is done drawn thick, now, and where it can be ridden. */

import type { DipInput } from './dip.ts';
import { layTime, profileOf } from './dip-plan.ts';
import { line } from './pen.ts';
import { el, type SvgNode, sheet } from './svg.ts';

const WIDTH = 480;
const HEIGHT = 56;
const EDGE = 9;

/** Draws the strip of a plan. Throws RangeError for a plan without steps. */
export function drawDipStrip({ steps, levels, now, done, ride }: DipInput, says: string): SvgNode {
  if (steps.length === 0) throw new RangeError('steps must hold at least one step, got none');
  const from = Math.min(0, ...steps.map(({ start }) => start));
  const end = Math.max(ride.at, ...steps.map((step) => step.end));
  // Laid out once at any scale, then pressed to the width: long waits are cut as in the large drawing.
  const scale = layTime(steps, from, end, 0, 1, 24);
  const x = (minutes: number) => EDGE + (scale.at(minutes) / Math.max(1, scale.width)) * (WIDTH - 2 * EDGE);
  const y = (depth: number) => EDGE + (depth / Math.max(1, levels.length - 1)) * (HEIGHT - 2 * EDGE);
  const flank = (strong: boolean, points: readonly (readonly [number, number])[]) =>
    el('path', {
      d: line(points.map(([a, b]) => [a, b])),
      fill: 'none',
      stroke: strong ? 'var(--ink)' : 'var(--quiet)',
      'stroke-width': strong ? 5 : 2,
      'stroke-linejoin': 'round',
    });
  const runs = profileOf(steps, from, ride.at).map(({ step, corners }) =>
    flank(
      step !== null && done.has(step.id),
      corners.map(({ at, depth }) => [x(at), y(depth)] as const),
    ),
  );
  const nowLine =
    now === null
      ? []
      : [
          el('path', {
            d: line([
              [x(now), 1],
              [x(now), HEIGHT - 1],
            ]),
            stroke: 'var(--danger)',
            'stroke-width': 3,
          }),
        ];
  const out = el('circle', {
    cx: x(ride.at),
    cy: y(0),
    r: 6,
    fill: 'var(--paper)',
    stroke: 'var(--teal)',
    'stroke-width': 3,
  });
  return sheet('dip-strip', WIDTH, HEIGHT, 'Where we are', says, [...runs, ...nowLine, out]);
}
