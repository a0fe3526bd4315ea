import { polyline } from './scale.ts';
import { el, type SvgNode } from './svg.ts';

/** How the curves differ without colour: dash and marker; ink, teal and brass only repeat it. At most six. */
export const STROKES = [
  { colour: 'var(--ink)', dash: '', marker: 'disc' },
  { colour: 'var(--teal)', dash: '10 5', marker: 'square' },
  { colour: 'var(--brass)', dash: '2 5', marker: 'kite' },
  { colour: 'var(--ink)', dash: '14 4 2 4', marker: 'ring' },
  { colour: 'var(--teal)', dash: '4 4', marker: 'cross' },
  { colour: 'var(--danger)', dash: '18 6', marker: 'wedge' },
] as const;

/** One marker, centred. */
export function marker(
  kind: (typeof STROKES)[number]['marker'],
  x: number,
  y: number,
  colour: string,
): SvgNode {
  const r = 5;
  const solid = { fill: colour, stroke: 'var(--paper)', 'stroke-width': 1.2 };
  const open = { fill: 'var(--paper)', stroke: colour, 'stroke-width': 2 };
  const poly = (d: readonly (readonly [number, number])[]) =>
    `${polyline(d.map(([a, b]) => [x + a, y + b]))}Z`;
  if (kind === 'disc') return el('circle', { cx: x, cy: y, r, ...solid });
  if (kind === 'ring') return el('circle', { cx: x, cy: y, r, ...open });
  if (kind === 'square')
    return el('path', {
      d: poly([
        [-r, -r],
        [r, -r],
        [r, r],
        [-r, r],
      ]),
      ...solid,
    });
  if (kind === 'kite')
    return el('path', {
      d: poly([
        [0, -r - 2],
        [r + 1, 0],
        [0, r + 2],
        [-r - 1, 0],
      ]),
      ...solid,
    });
  if (kind === 'wedge')
    return el('path', {
      d: poly([
        [-r - 1, r],
        [r + 1, r],
        [0, -r - 1],
      ]),
      ...open,
    });
  return el('path', {
    d: `${polyline([
      [x - r, y - r],
      [x + r, y + r],
    ])}${polyline([
      [x + r, y - r],
      [x - r, y + r],
    ])}`,
    stroke: colour,
    'stroke-width': 2.6,
  });
}
