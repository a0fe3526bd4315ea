/** A wheel locked at its teeth: the torque at the nut, the bar, and how far from the middle it bears. */
import type { Picture } from '../sum/picture.ts';
import { captions, keyTo, MARGIN } from './captions.ts';
import type { Point } from './hatch.ts';
import { dot, ink, line, ringAt, WEIGHT } from './pen.ts';
import { evenScale, rangeBars } from './range-bars.ts';
import type { Room } from './sum-bench-pictures.ts';
import { el, letter, type SvgNode, sheet } from './svg.ts';

const RADIUS = 66;
/** Teeth run together on paper beyond this number: then fewer are drawn, and it is said. */
const MOST_TEETH = 48;

/** Outline of a wheel: between two teeth at angle 0, where the bar goes in. */
function wheel([x, y]: Point, r: number, teeth: number): string {
  const points: Point[] = [];
  for (let n = 0; n < teeth; n++)
    for (const [share, out] of [
      [0.2, -5],
      [0.38, 5],
      [0.62, 5],
      [0.8, -5],
    ] as const) {
      const angle = ((n + share) / teeth) * 2 * Math.PI;
      points.push([x + (r + out) * Math.cos(angle), y + (r + out) * Math.sin(angle)]);
    }
  return line(points, true);
}

/** Turning arrow round the nut; loosening a right-hand thread turns to the left. */
function turn([x, y]: Point, r: number, left: boolean): string {
  const at = (angle: number, out = 0): Point => [
    x + (r + out) * Math.cos(angle),
    y + (r + out) * Math.sin(angle),
  ];
  const way = left ? -1 : 1;
  const start = Math.PI / 2 - way * 0.9;
  const end = start + way * 3.6;
  const points = Array.from({ length: 33 }, (_, n) => at(start + (n / 32) * (end - start)));
  const back = end - way * 0.34;
  return line(points) + line([at(back, 7), at(end), at(back, -7)]);
}

/** The bar for a sprocket goes straight into a gap; between two gears it lies where their teeth run together. */
function hold(at: Point, gear: boolean, loosen: boolean): SvgNode[] {
  const [x, y] = at;
  const up = loosen ? -1 : 1;
  if (!gear)
    return [
      el('path', {
        d: line([
          [x + RADIUS - 2, y],
          [x + RADIUS + 66, y],
        ]),
        stroke: 'var(--ink)',
        'stroke-width': 9,
        'stroke-linecap': 'butt',
      }),
    ];
  const other: Point = [x + RADIUS + 46, y];
  return [
    el('path', {
      d: wheel(other, 40, 15),
      fill: 'var(--paper)',
      stroke: 'var(--ink)',
      'stroke-width': WEIGHT.detail,
    }),
    dot(other, 4),
    // The wheel's right side moves up while loosening, so the teeth run together from below.
    el('path', {
      d: line(
        [
          [x + RADIUS - 6, y - up * 16],
          [x + RADIUS + 16, y - up * 16],
          [x + RADIUS + 16, y - up * 30],
          [x + RADIUS - 6, y - up * 30],
        ],
        true,
      ),
      fill: 'var(--brass)',
      stroke: 'var(--ink)',
      'stroke-width': WEIGHT.detail,
    }),
  ];
}

export function drawLockedWheel(picture: Extract<Picture, { kind: 'lock-bar' }>, room: Room): SvgNode {
  const { teeth, gear, loosen, share, words } = picture;
  const { width, text: size, shape } = room;
  const small = size - 1;
  const head = captions(words, 4, room);
  const at: Point = [MARGIN + RADIUS + 14, head.bottom + RADIUS + 16];
  const up = loosen ? -1 : 1;
  const push: Point = [at[0] + RADIUS + 34, at[1] + up * 12];
  const low = at[1] + RADIUS + 18;
  const notes = [
    'arc: torque at the nut, right-hand thread',
    gear ? 'brass: what locks the teeth' : 'bar between the teeth; arrow: what it bears',
    ...(teeth > MOST_TEETH ? [`${MOST_TEETH} of ${teeth} teeth are drawn`] : []),
  ];
  const noted = low + notes.length * (small + 6);
  const bars = share
    ? rangeBars(
        [
          {
            words: 'share of the chain’s strength',
            sure: [0, share.value * 100],
            perhaps: [share.value * 100, share.value * 100],
          },
        ],
        [{ at: share.most * 100, look: 'danger-line' }],
        evenScale(Math.max(share.value, share.most * 1.2) * 100, '% of its least strength, new', room),
        noted,
        room,
      )
    : { nodes: [], bottom: noted };
  const key = share
    ? keyTo([['danger-line', 'the most it may be']], bars.bottom, room)
    : { nodes: [], bottom: bars.bottom + 10 };
  return sheet(`locked-wheel ${shape}`, width, key.bottom, 'Locked wheel', `${words.join('; ')}.`, [
    ...head.nodes,
    ...hold(at, gear, loosen),
    el('path', {
      d: wheel(at, RADIUS, Math.min(teeth, MOST_TEETH)),
      fill: 'var(--paper)',
      stroke: 'var(--ink)',
      'stroke-width': WEIGHT.outline,
    }),
    ink(line([at, [at[0] + RADIUS - 5, at[1]]]), WEIGHT.detail, { 'stroke-dasharray': '5 4' }),
    ringAt(at, 13, WEIGHT.outline),
    el('path', { d: turn(at, 30, loosen), stroke: 'var(--brass)', 'stroke-width': 4 }),
    ...(gear
      ? []
      : [
          el('path', {
            d:
              line([push, [push[0], push[1] + up * 36]]) +
              line([
                [push[0] - 6, push[1] + up * 26],
                [push[0], push[1] + up * 36],
                [push[0] + 6, push[1] + up * 26],
              ]),
            stroke: 'var(--brass)',
            'stroke-width': 4,
          }),
        ]),
    ...notes.map((each, n) =>
      letter(MARGIN, low + (n + 1) * (small + 6) - 6, each, { size: small, fill: 'var(--quiet)' }),
    ),
    ...bars.nodes,
    ...key.nodes,
  ]);
}
