/** Drawings that explain two sums at the bike: the slack of a chain, and the push on a bar against the bike's stand. */
import type { Picture } from '../sum/picture.ts';
import { strands } from './chain-loop.ts';
import type { Point } from './hatch.ts';
import { dot, ink, line, ringAt, WEIGHT } from './pen.ts';
import { el, letter, type SvgNode, sheet } from './svg.ts';

type Of<K extends Picture['kind']> = Extract<Picture, { kind: K }>;
export interface Room {
  readonly width: number;
  readonly text: number;
  readonly shape: 'wide' | 'narrow';
}

/** Least height at which two positions of a strand are told apart, px. */
const LEAST_SAG = 9;

/** Two sprockets and their chain to scale; the slack strand pushed up and down at mid-span, with its whole movement. */
export function drawSlack(picture: Of<'slack'>, { width, text: size, shape }: Room): SvgNode {
  const { centre, radii, now, words } = picture;
  const margin = 20;
  const scale = (width - 2 * margin) / (centre + radii[0] + radii[1]);
  const [r1, r2] = [radii[0] * scale, radii[1] * scale];
  const middle = 3 * size + 34 + Math.max(r1, r2);
  const [x1, x2] = [margin + r1, margin + r1 + centre * scale];
  const { upper, lower } = strands(middle, [x1, r1], [x2, r2]);
  const [upLeft, upRight] = upper;
  const [lowLeft, lowRight] = lower;
  const sag = Math.max(LEAST_SAG, (now * scale) / 2);
  const midway: Point = [(upLeft[0] + upRight[0]) / 2, (upLeft[1] + upRight[1]) / 2];
  const strand = (by: number) => line([upLeft, [midway[0], midway[1] + by], upRight]);
  const top = midway[1] - sag;
  const low = midway[1] + sag;
  const arrow = (y: number, way: 1 | -1) =>
    line([
      [midway[0] - 5, y + way * 7],
      [midway[0], y],
      [midway[0] + 5, y + way * 7],
    ]);
  const bottom = middle + Math.max(r1, r2) + 14;
  return sheet(
    `slack ${shape}`,
    width,
    bottom + size * 2 + 12,
    'Slack of the chain',
    `${words.join('; ')}. Measured at mid-span of the slack strand, up and down together, the other strand taut.`,
    [
      ...words.map((line, n) => letter(10, (size + 8) * (n + 1), line, { size, bold: n === 0 })),
      ringAt([x1, middle], r1, WEIGHT.outline),
      ringAt([x2, middle], r2, WEIGHT.outline),
      dot([x1, middle], 4),
      dot([x2, middle], 4),
      ink(line([lowLeft, lowRight]), WEIGHT.wire),
      ink(strand(-sag), WEIGHT.detail, { 'stroke-dasharray': '6 5' }),
      ink(strand(sag), WEIGHT.wire),
      el('path', {
        d: `${line([
          [midway[0], top],
          [midway[0], low],
        ])}${arrow(top, 1)}${arrow(low, -1)}`,
        stroke: 'var(--brass)',
        'stroke-width': 3,
      }),
      letter(10, bottom + size, 'arrow: the whole movement at mid-span', { size: size - 1 }),
      letter(10, bottom + 2 * size + 5, 'lower strand: taut', { size: size - 1, fill: 'var(--quiet)' }),
    ],
  );
}

/** How the push is drawn: from where to where, in deviations of the arrow's length. */
const PUSHES = { down: [0, 1], up: [0, -1], sideways: [-1, 0], along: [0, 0] } as const;

/** The bike from behind on its support, the bar beside it, the push, and the edge it would tip over. */
export function drawLift(picture: Of<'lift'>, { width, text: size, shape }: Room): SvgNode {
  const { halfWidth, offset, height, way, words } = picture;
  const top = (size + 8) * words.length + 20;
  const bikeHigh = 0.9;
  const scale = Math.min(
    (width - 60) / (2 * Math.max(halfWidth, 0.3) + Math.max(0, offset) + 0.25),
    190 / bikeHigh,
  );
  const ground = top + bikeHigh * scale + 30;
  const centre = 30 + Math.max(halfWidth, 0.3) * scale;
  const at = (x: number, up: number): Point => [centre + x * scale, ground - up * scale];
  const nut = at(offset, Math.min(height, bikeHigh));
  const [across, down] = PUSHES[way];
  const long = 52;
  const tail: Point = [nut[0] - across * long, nut[1] - down * long];
  const head = (tip: Point): string => {
    const side: Point = [-down * 7, across * 7];
    const back: Point = [tip[0] - across * 13, tip[1] - down * 13];
    return line([[back[0] + side[0], back[1] + side[1]], tip, [back[0] - side[0], back[1] - side[1]]]);
  };
  // Pushed down outside the support it tips over the near edge, pulled up or pushed sideways over the far one.
  const edge = at(way === 'down' ? halfWidth : -halfWidth, 0);
  return sheet(
    `lift ${shape}`,
    width,
    ground + 2 * size + 38,
    'Push on the bar',
    `${words.join('; ')}. The bike is seen from behind.`,
    [
      ...words.map((line, n) => letter(10, (size + 8) * (n + 1), line, { size, bold: n === 0 })),
      // Tyre, body and bar ends of any motorcycle, as one outline.
      ink(
        line(
          [
            at(-0.07, 0.03),
            at(-0.07, 0.45),
            at(-0.16, 0.55),
            at(-0.13, 0.8),
            at(-0.3, bikeHigh),
            at(0.3, bikeHigh),
            at(0.13, 0.8),
            at(0.16, 0.55),
            at(0.07, 0.45),
            at(0.07, 0.03),
          ],
          true,
        ),
        WEIGHT.outline,
        { 'stroke-linejoin': 'round' },
      ),
      ink(line([at(-halfWidth, 0), at(halfWidth, 0)]), 8),
      ink(
        line([
          [8, ground + 5],
          [width - 8, ground + 5],
        ]),
        WEIGHT.hair,
      ),
      ink(line([at(0.1, Math.min(height, bikeHigh)), nut]), WEIGHT.wire),
      ringAt(nut, 7, WEIGHT.outline),
      ...(way === 'along'
        ? [ringAt(nut, 14, WEIGHT.outline), dot(nut, 4)]
        : [
            el('path', {
              d: `${line([tail, nut])}${head(nut)}`,
              stroke: 'var(--brass)',
              'stroke-width': 5,
            }),
          ]),
      el('path', {
        d: line(
          [
            [edge[0], edge[1] + 6],
            [edge[0] - 8, edge[1] + 20],
            [edge[0] + 8, edge[1] + 20],
          ],
          true,
        ),
        fill: 'var(--danger)',
      }),
      letter(10, ground + size + 22, 'triangle: the edge it would tip over', { size: size - 1 }),
      letter(10, ground + 2 * size + 27, 'ring: the hand; arrow: its push', {
        size: size - 1,
        fill: 'var(--quiet)',
      }),
    ],
  );
}
