/** A chain round its two sprockets, to scale, pin by pin: what its number of pitches and the distance of the shafts mean. */
import type { Picture } from '../sum/picture.ts';
import { captions, MARGIN } from './captions.ts';
import type { Point } from './hatch.ts';
import { dot, ink, line, ringAt, WEIGHT } from './pen.ts';
import type { Room } from './sum-bench-pictures.ts';
import { letter, type SvgNode, sheet } from './svg.ts';

export interface Strands {
  /** Angle by which the straight strands lean, rad: positive where the second sprocket is the larger. */
  readonly lean: number;
  readonly upper: readonly [Point, Point];
  readonly lower: readonly [Point, Point];
}

/** The straight strands touch both circles: they lean by the difference of the radii over the distance. All px. */
export function strands(middle: number, [x1, r1]: Point, [x2, r2]: Point): Strands {
  const lean = Math.asin(Math.max(-1, Math.min(1, (r2 - r1) / (x2 - x1))));
  const touch = (x: number, r: number, up: 1 | -1): Point => [
    x - r * Math.sin(lean),
    middle - up * r * Math.cos(lean),
  ];
  return {
    lean,
    upper: [touch(x1, r1, 1), touch(x2, r2, 1)],
    lower: [touch(x1, r1, -1), touch(x2, r2, -1)],
  };
}

function arc(centre: Point, r: number, from: number, sweep: number): Point[] {
  const steps = Math.max(8, Math.ceil(sweep / 0.1));
  return Array.from({ length: steps + 1 }, (_, n) => {
    const angle = from + (sweep * n) / steps;
    return [centre[0] + r * Math.cos(angle), centre[1] + r * Math.sin(angle)];
  });
}

/** `count` points at even distances along a closed way. */
function evenly(way: readonly Point[], count: number): Point[] {
  const legs = way.map((p, i) => {
    const q = way[(i + 1) % way.length]!;
    return { p, q, long: Math.hypot(q[0] - p[0], q[1] - p[1]) };
  });
  const each = legs.reduce((sum, { long }) => sum + long, 0) / count;
  const points: Point[] = [];
  let passed = 0;
  for (const { p, q, long } of legs) {
    while (points.length < count && points.length * each < passed + long) {
      const share = (points.length * each - passed) / long;
      points.push([p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share]);
    }
    passed += long;
  }
  return points;
}

/** Pins closer than this run together on paper, px; the chain is then drawn as a line alone. */
const LEAST_PITCH = 3;

export function drawChainLoop(picture: Extract<Picture, { kind: 'chain-loop' }>, room: Room): SvgNode {
  const { centre, radii, teeth, links, pitch, words } = picture;
  const { width, text: size, shape } = room;
  const head = captions(words, 4, room);
  const edge = MARGIN + 8;
  // Sprockets of any size keep their height within a phone's width.
  const scale = Math.min(
    (width - 2 * edge) / (centre + radii[0] + radii[1]),
    (width * 0.7) / (2 * Math.max(...radii)),
  );
  const [r1, r2] = [radii[0] * scale, radii[1] * scale];
  const x1 = (width - (centre + radii[0] + radii[1]) * scale) / 2 + r1;
  const x2 = x1 + centre * scale;
  const middle = head.bottom + 16 + Math.max(r1, r2);
  const { lean, upper, lower } = strands(middle, [x1, r1], [x2, r2]);
  const way = [
    upper[0],
    upper[1],
    ...arc([x2, middle], r2, -Math.PI / 2 - lean, Math.PI + 2 * lean),
    lower[0],
    ...arc([x1, middle], r1, Math.PI / 2 + lean, Math.PI - 2 * lean),
  ];
  const low = middle + Math.max(r1, r2) + 18;
  const small = size - 1;
  const pins = pitch * scale >= LEAST_PITCH ? evenly(way, links) : [];
  const [first, second] = [`${teeth[0]} teeth`, `${teeth[1]} teeth`];
  return sheet(
    `chain-loop ${shape}`,
    width,
    low + 3 * small + 34,
    'Chain round its sprockets',
    `${words.join('; ')}. Sprockets of ${teeth[0]} and ${teeth[1]} teeth.`,
    [
      ...head.nodes,
      ringAt([x1, middle], r1, WEIGHT.hair),
      ringAt([x2, middle], r2, WEIGHT.hair),
      dot([x1, middle], 4),
      dot([x2, middle], 4),
      ink(line(way, true), WEIGHT.outline),
      ...pins.map((at) => dot(at, Math.min(3.4, pitch * scale * 0.34), 'var(--brass)')),
      ink(
        line([
          [x1, low],
          [x2, low],
        ]),
        WEIGHT.detail,
      ),
      ...[x1, x2].map((x) =>
        ink(
          line([
            [x, low - 6],
            [x, low + 6],
          ]),
          WEIGHT.detail,
        ),
      ),
      letter(MARGIN, low + small + 12, first, { size: small }),
      letter(width - MARGIN, low + small + 12, second, { size: small, anchor: 'end' }),
      letter(MARGIN, low + 2 * small + 18, 'line below: distance of the shafts', {
        size: small,
        fill: 'var(--quiet)',
      }),
      ...(pins.length > 0
        ? [
            letter(MARGIN, low + 3 * small + 24, `brass: a pin for each of ${links} pitches`, {
              size: small,
              fill: 'var(--quiet)',
            }),
          ]
        : []),
    ],
  );
}
