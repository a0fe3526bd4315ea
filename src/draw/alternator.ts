import type { Point, Shape } from './hatch.ts';
import { coil, dot, type Frame, ink, line, over, WEIGHT } from './pen.ts';
import { el, letter, type SvgNode } from './svg.ts';

/** Sizes of the alternator and its plug on one sheet, px. */
export interface AlternatorSize {
  /** Outer and inner radius of the rotor's ring of magnets. */
  readonly rotor: readonly [outer: number, inner: number];
  readonly stator: number;
  /** From the star point to the end of a winding. */
  readonly winding: number;
  readonly text: number;
}

export interface Drawn {
  readonly shape: Shape;
  readonly nodes: readonly SvgNode[];
}

/** Distance of each lead from the axis of the alternator, px; a first. */
export function leadOffsets(phases: 1 | 3, winding: number): readonly number[] {
  const side = winding * Math.sin(Math.PI / 3);
  return phases === 3 ? [-side, 0, side] : [-winding * 0.62, winding * 0.62];
}

export function drawRotor(centre: Point, frame: Frame, size: AlternatorSize): Drawn {
  const [outer, inner] = size.rotor;
  const circle = (r: number, width: number) =>
    el('circle', { cx: centre[0], cy: centre[1], r, stroke: 'var(--ink)', 'stroke-width': width });
  const blocks: SvgNode[] = [];
  const magnets = 12;
  for (let i = 0; i < magnets; i++) {
    const mid = ((i + 0.5) / magnets) * 2 * Math.PI;
    const half = (Math.PI / magnets) * 0.82;
    const at = (r: number, angle: number) => frame(r * Math.cos(angle), r * Math.sin(angle));
    const arc = (r: number, from: number, to: number) =>
      Array.from({ length: 7 }, (_, k) => at(r, from + ((to - from) * k) / 6));
    const corners = [...arc(outer - 4, mid - half, mid + half), ...arc(inner + 3, mid + half, mid - half)];
    blocks.push(ink(line(corners, true), WEIGHT.hair));
    // Every other magnet is a north: one stroke along its face, so that the poles can be counted.
    if (i % 2 === 0)
      blocks.push(ink(line(arc(inner + 7, mid - half * 0.72, mid + half * 0.72)), WEIGHT.outline));
  }
  return {
    shape: { kind: 'ring', at: centre, inner, outer },
    nodes: [circle(outer, WEIGHT.outline), circle(inner, WEIGHT.detail), ...blocks],
  };
}

/** Ends of the windings in the alternator's frame, a first; then the star point, or null for one winding. */
function windingEnds(phases: 1 | 3, r: number): { ends: Point[]; star: Point | null } {
  if (phases === 1) {
    const [a, b] = leadOffsets(1, r);
    return {
      ends: [
        [-r * 0.2, a!],
        [-r * 0.2, b!],
      ],
      star: null,
    };
  }
  const end = (degrees: number): Point => [
    r * Math.cos((degrees * Math.PI) / 180),
    r * Math.sin((degrees * Math.PI) / 180),
  ];
  return { ends: [end(-120), end(0), end(120)], star: [0, 0] };
}

export function drawStator(centre: Point, frame: Frame, size: AlternatorSize, phases: 1 | 3): Drawn {
  const r = size.stator;
  const teeth = Array.from({ length: 36 }, (_, i) => {
    const angle = (i / 36) * 2 * Math.PI;
    const at = (q: number) => frame(q * Math.cos(angle), q * Math.sin(angle));
    return line([at(r), at(r - (i % 3 === 0 ? 8 : 4))]);
  }).join('');
  const { ends, star } = windingEnds(phases, size.winding);
  const windings =
    star === null
      ? [coil(frame(...ends[0]!), frame(...ends[1]!), 6, 9)]
      : ends.map((end) => {
          const at = (k: number) => frame(star[0] + (end[0] - star[0]) * k, star[1] + (end[1] - star[1]) * k);
          return `${line([at(0), at(0.22)])}${coil(at(0.22), at(0.88), 4, 8)}${line([at(0.88), at(1)])}`;
        });
  return {
    shape: { kind: 'disc', at: centre, r },
    nodes: [
      el('circle', { cx: centre[0], cy: centre[1], r, stroke: 'var(--ink)', 'stroke-width': WEIGHT.detail }),
      ink(teeth, WEIGHT.hair),
      ...windings.flatMap((d) => over(d, WEIGHT.wire)),
      ...(star === null ? [] : [dot(frame(...star), 4.5)]),
      ...ends.map((end) => dot(frame(...end), 3.2)),
    ],
  };
}

/** Leads from the ends of the windings, over stator and rotor, to `reach` px along. */
export function drawLeads(
  frame: Frame,
  size: AlternatorSize,
  phases: 1 | 3,
  reach: readonly number[],
): SvgNode[] {
  return windingEnds(phases, size.winding).ends.flatMap(([l, c], i) =>
    over(line([frame(l + 4, c), frame(reach[i] ?? reach[0]!, c)]), WEIGHT.wire),
  );
}

/** Where plug and letters sit: `stagger` px along from one pin to the next, so that every pin can be reached. */
export interface PlugSize {
  readonly stagger: number;
  readonly half: number;
  readonly wall: number;
}

/** Where pin `i` of `pins` sits along the plug, counted from its middle, px. */
export function pinAlong(i: number, pins: number, stagger: number): number {
  return (i - (pins - 1) / 2) * stagger;
}

/** The plug between stator and regulator: a socket half and a pin half, each in its shell. */
export function drawPlug(frame: Frame, offsets: readonly number[], size: PlugSize): Drawn {
  const { stagger, half, wall } = size;
  const n = offsets.length;
  const first = offsets[0]!;
  const last = offsets[n - 1]!;
  const slope = n > 1 ? (stagger * (n - 1)) / (last - first) : 0;
  const mid = (first + last) / 2;
  const lean = (across: number) => (across - mid) * slope;
  const top = first - wall;
  const bottom = last + wall;
  const quad = (from: number, to: number): Point[] => [
    frame(lean(top) + from, top),
    frame(lean(top) + to, top),
    frame(lean(bottom) + to, bottom),
    frame(lean(bottom) + from, bottom),
  ];
  const pins = offsets.flatMap((c, i) => {
    const s = pinAlong(i, n, stagger);
    const rect = (a: number, b: number, w: number) =>
      line([frame(a, c - w), frame(b, c - w), frame(b, c + w), frame(a, c + w)], true);
    return [
      el('path', {
        d: rect(s - half + 4, s - 5, 7),
        fill: 'var(--paper)',
        stroke: 'var(--ink)',
        'stroke-width': WEIGHT.detail,
      }),
      el('path', {
        d: rect(s + 9, s + half - 4, 5),
        fill: 'var(--paper)',
        stroke: 'var(--ink)',
        'stroke-width': WEIGHT.detail,
      }),
      ink(line([frame(s - 5, c), frame(s + 9, c)]), 4, { 'stroke-linecap': 'butt' }),
    ];
  });
  return {
    shape: { kind: 'outline', corners: quad(-half, half) },
    nodes: [
      ink(line(quad(-half, -3), true), WEIGHT.outline),
      ink(line(quad(4, half), true), WEIGHT.outline),
      ...pins,
    ],
  };
}

export function letterLeads(places: readonly Point[], size: number): SvgNode[] {
  return places.map(([x, y], i) => letter(x, y, 'abc'[i]!, { size, bold: true, anchor: 'middle' }));
}
