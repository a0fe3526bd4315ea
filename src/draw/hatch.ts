import { el, num, type SvgNode } from './svg.ts';

export type Point = readonly [x: number, y: number];

/** The outline of a member: a disc, a ring, or a polygon. */
export type Shape =
  | { readonly kind: 'disc'; readonly at: Point; readonly r: number }
  | { readonly kind: 'ring'; readonly at: Point; readonly inner: number; readonly outer: number }
  | { readonly kind: 'outline'; readonly corners: readonly Point[] };

/** How strongly a member is suspected, in the four densities the eye can tell apart; 0 leaves it blank. */
export type Step = 0 | 1 | 2 | 3 | 4;

/** Step of a probability 0–1: blank under 4 %, then from 4, 15, 35 and 65 %. */
export function stepOf(probability: number): Step {
  if (!(probability >= 0 && probability <= 1)) {
    throw new RangeError(`suspicion: must be a probability from 0 to 1, got ${probability}`);
  }
  if (probability < 0.04) return 0;
  if (probability < 0.15) return 1;
  if (probability < 0.35) return 2;
  return probability < 0.65 ? 3 : 4;
}

/** Spacing of the lines, px, and whether a second set crosses them: the engraver's way to a darker tone. */
const TONES: Readonly<Record<Exclude<Step, 0>, { gap: number; crossed: boolean }>> = {
  1: { gap: 11, crossed: false },
  2: { gap: 6.5, crossed: false },
  3: { gap: 8.5, crossed: true },
  4: { gap: 5.2, crossed: true },
};

export function box(x0: number, y0: number, x1: number, y1: number): Shape {
  return {
    kind: 'outline',
    corners: [
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ],
  };
}

function circle(at: Point, r: number): Point[] {
  return Array.from({ length: 64 }, (_, i) => {
    const angle = (i / 64) * 2 * Math.PI;
    return [at[0] + r * Math.cos(angle), at[1] + r * Math.sin(angle)];
  });
}

function contours(shape: Shape): readonly (readonly Point[])[] {
  if (shape.kind === 'disc') return [circle(shape.at, shape.r)];
  if (shape.kind === 'ring') return [circle(shape.at, shape.outer), circle(shape.at, shape.inner)];
  return [shape.corners];
}

/** [left, top, right, bottom] of a shape, px. */
export function extent(shape: Shape): [number, number, number, number] {
  const points = contours(shape).flat();
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

/** A small fixed unevenness, −1…1, so that the lines look drawn and the file stays the same every time. */
function unevenness(i: number): number {
  const n = Math.imul(i ^ 0x9e3779b9, 0x85ebca6b);
  return ((n ^ (n >>> 13)) & 255) / 127.5 - 1;
}

/** Lines of one direction: u = x·cos + y·sin is constant along each, v runs along it. */
function rule(shape: Shape, gap: number, rising: boolean): string {
  const h = Math.SQRT1_2;
  const turn = ([x, y]: Point): Point => (rising ? [(x + y) * h, (x - y) * h] : [(x - y) * h, (x + y) * h]);
  const back = (u: number, v: number): Point =>
    rising ? [(u + v) * h, (u - v) * h] : [(u + v) * h, (v - u) * h];
  const turned = contours(shape).map((c) => c.map(turn));
  const us = turned.flat().map((p) => p[0]);
  const first = Math.ceil(Math.min(...us) / gap);
  const last = Math.floor(Math.max(...us) / gap);
  let path = '';
  for (let i = first; i <= last; i++) {
    const u = i * gap + 0.13;
    const crossings: number[] = [];
    for (const contour of turned) {
      for (const [k, p] of contour.entries()) {
        const q = contour[(k + 1) % contour.length]!;
        if (p[0] < u !== q[0] < u) crossings.push(p[1] + ((u - p[0]) / (q[0] - p[0])) * (q[1] - p[1]));
      }
    }
    crossings.sort((a, b) => a - b);
    for (let k = 0; k + 1 < crossings.length; k += 2) {
      const from = crossings[k]! + 1.2 + unevenness(i * 7 + k);
      const to = crossings[k + 1]! - 1.2 + unevenness(i * 13 + k + 1);
      if (to - from < 1.5) continue;
      const [x0, y0] = back(u, from);
      const [x1, y1] = back(u, to);
      path += `M${num(x0)} ${num(y0)}L${num(x1)} ${num(y1)}`;
    }
  }
  return path;
}

/** Brass hatching of a shape; nothing for step 0. Explicit lines: no ids to clash when a page has two drawings. */
export function hatch(shape: Shape, step: Step): SvgNode[] {
  if (step === 0) return [];
  const { gap, crossed } = TONES[step];
  const d = rule(shape, gap, true) + (crossed ? rule(shape, gap, false) : '');
  if (d === '') return [];
  return [
    el('path', {
      class: `hatch step-${step}`,
      d,
      stroke: 'var(--brass)',
      'stroke-width': 1.3,
    }),
  ];
}

/** The shape's outline moved outwards by `grow` px; polygons must be convex. */
export function outline(
  shape: Shape,
  grow: number,
  attrs: Readonly<Record<string, string | number>>,
): SvgNode[] {
  if (shape.kind === 'disc') {
    return [el('circle', { cx: shape.at[0], cy: shape.at[1], r: shape.r + grow, ...attrs })];
  }
  if (shape.kind === 'ring') {
    return [shape.outer + grow].map((r) => el('circle', { cx: shape.at[0], cy: shape.at[1], r, ...attrs }));
  }
  // Each corner moves to where its two edges, both shifted outwards, meet.
  const c = shape.corners;
  const area = c.reduce(
    (sum, p, i) => sum + p[0] * c[(i + 1) % c.length]![1] - c[(i + 1) % c.length]![0] * p[1],
    0,
  );
  const out = Math.sign(area) * grow;
  const normal = (p: Point, q: Point): Point => {
    const length = Math.hypot(q[0] - p[0], q[1] - p[1]);
    return [(q[1] - p[1]) / length, (p[0] - q[0]) / length];
  };
  const d = c
    .map((p, i) => {
      const a = normal(c[(i + c.length - 1) % c.length]!, p);
      const b = normal(p, c[(i + 1) % c.length]!);
      const k = out / (1 + a[0] * b[0] + a[1] * b[1]);
      return `${i === 0 ? 'M' : 'L'}${num(p[0] + (a[0] + b[0]) * k)} ${num(p[1] + (a[1] + b[1]) * k)}`;
    })
    .join('');
  return [el('path', { d: `${d}Z`, ...attrs })];
}
