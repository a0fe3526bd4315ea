import type { Point } from './hatch.ts';
import { el, num, type SvgNode } from './svg.ts';

/**
 * Parts are drawn in their own frame: `along` the way the current goes through them, `across` it. The wide
 * sheet turns along to the right, the narrow one downwards, so each part is drawn once.
 */
export type Frame = (along: number, across: number) => Point;

export function frameAt(at: Point, run: 'right' | 'down'): Frame {
  return run === 'right' ? (l, c) => [at[0] + l, at[1] + c] : (l, c) => [at[0] + c, at[1] + l];
}

/** Line weights, px: the run of the current, outlines, details, and the thinnest line that still prints. */
export const WEIGHT = { wire: 2.6, outline: 2.2, detail: 1.5, hair: 0.9 } as const;

export function line(points: readonly Point[], closed = false): string {
  return (
    points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${num(x)} ${num(y)}`).join('') + (closed ? 'Z' : '')
  );
}

/** A polyline with its corners rounded to `radius` px, or to half the shorter leg. */
export function rounded(points: readonly Point[], radius: number): string {
  const kept = points.filter(
    (p, i) => i === 0 || Math.hypot(p[0] - points[i - 1]![0], p[1] - points[i - 1]![1]) > 0.01,
  );
  let d = '';
  for (const [i, p] of kept.entries()) {
    const before = kept[i - 1];
    const after = kept[i + 1];
    if (before === undefined) {
      d = `M${num(p[0])} ${num(p[1])}`;
      continue;
    }
    if (after === undefined) {
      d += `L${num(p[0])} ${num(p[1])}`;
      continue;
    }
    const lb = Math.hypot(before[0] - p[0], before[1] - p[1]);
    const la = Math.hypot(after[0] - p[0], after[1] - p[1]);
    const r = Math.min(radius, lb / 2, la / 2);
    const a: Point = [p[0] + ((before[0] - p[0]) / lb) * r, p[1] + ((before[1] - p[1]) / lb) * r];
    const b: Point = [p[0] + ((after[0] - p[0]) / la) * r, p[1] + ((after[1] - p[1]) / la) * r];
    d += `L${num(a[0])} ${num(a[1])}Q${num(p[0])} ${num(p[1])} ${num(b[0])} ${num(b[1])}`;
  }
  return d;
}

export function ink(d: string, width: number, more: Readonly<Record<string, string | number>> = {}): SvgNode {
  return el('path', { d, stroke: 'var(--ink)', 'stroke-width': width, ...more });
}

/** A wire that passes over others: a margin of paper is knocked out underneath, as on an engraving. */
export function over(
  d: string,
  width: number,
  more: Readonly<Record<string, string | number>> = {},
): SvgNode[] {
  return [
    el('path', { d, stroke: 'var(--paper)', 'stroke-width': width + 5, 'stroke-linecap': 'butt' }),
    ink(d, width, more),
  ];
}

/** The same lines with a margin of paper round each, so that they stay legible on hatching. */
export function haloed(nodes: readonly SvgNode[]): SvgNode[] {
  const margins = nodes
    .filter((node) => 'stroke' in node.attrs || 'fill' in node.attrs)
    .map((node) => ({
      ...node,
      attrs: {
        ...node.attrs,
        ...(node.attrs.fill === undefined ? {} : { fill: 'var(--paper)' }),
        stroke: 'var(--paper)',
        'stroke-width': Number(node.attrs['stroke-width'] ?? 0) + 5,
      },
    }));
  return [...margins, ...nodes];
}

export function dot(at: Point, r: number, fill = 'var(--ink)'): SvgNode {
  return el('circle', { cx: at[0], cy: at[1], r, fill });
}

export function ringAt(at: Point, r: number, width: number, fill = 'var(--paper)'): SvgNode {
  return el('circle', { cx: at[0], cy: at[1], r, fill, stroke: 'var(--ink)', 'stroke-width': width });
}

/** Box whose edges run a little past its corners, the way a draughtsman rules them. */
export function ruledBox(frame: Frame, half: Point, width: number): SvgNode[] {
  const [l, c] = half;
  const past = 6;
  const sides = [
    [frame(-l - past, -c), frame(l + past, -c)],
    [frame(-l - past, c), frame(l + past, c)],
    [frame(-l, -c - past), frame(-l, c + past)],
    [frame(l, -c - past), frame(l, c + past)],
  ] as const;
  const corners = [frame(-l, -c), frame(l, -c), frame(l, c), frame(-l, c)];
  return [ink(sides.map((s) => line(s)).join(''), WEIGHT.hair), ink(line(corners, true), width)];
}

/** A winding between two points: round bumps to the left of the way. */
export function coil(from: Point, to: Point, turns: number, height: number): string {
  const dx = (to[0] - from[0]) / turns;
  const dy = (to[1] - from[1]) / turns;
  const length = Math.hypot(dx, dy);
  const nx = (dy / length) * height;
  const ny = (-dx / length) * height;
  let d = `M${num(from[0])} ${num(from[1])}`;
  for (let i = 0; i < turns; i++) {
    const [x0, y0] = [from[0] + dx * i, from[1] + dy * i];
    const [x1, y1] = [x0 + dx, y0 + dy];
    // Control points a little outside the chord make the bump rounder than a half circle would be.
    d += `C${num(x0 + nx * 1.3 - dx * 0.12)} ${num(y0 + ny * 1.3 - dy * 0.12)} ${num(x1 + nx * 1.3 + dx * 0.12)} ${num(y1 + ny * 1.3 + dy * 0.12)} ${num(x1)} ${num(y1)}`;
  }
  return d;
}
