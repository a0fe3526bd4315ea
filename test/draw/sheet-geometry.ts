import { textWidth } from '../../src/draw/measure.ts';
import type { SvgNode } from '../../src/draw/svg.ts';

/** Reads a drawing back: where its letters and lines are. Knows only what the drawings write (no transforms). */

export interface Box {
  readonly what: string;
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

export function* walk(node: SvgNode): Generator<SvgNode> {
  yield node;
  for (const child of node.children) if (typeof child !== 'string') yield* walk(child);
}

export function textOf(node: SvgNode): string {
  return node.children.map((child) => (typeof child === 'string' ? child : textOf(child))).join('');
}

function runWidth(node: SvgNode, size: number, bold: boolean, figure: boolean): number {
  const isBold = node.attrs['font-weight'] === undefined ? bold : Number(node.attrs['font-weight']) >= 600;
  const isFigure =
    node.attrs['font-family'] === undefined ? figure : String(node.attrs['font-family']).includes('Mono');
  let width = Number(node.attrs.dx ?? 0);
  for (const child of node.children) {
    width +=
      typeof child === 'string'
        ? textWidth(child, { size, bold: isBold, figure: isFigure })
        : runWidth(child, size, isBold, isFigure);
  }
  return width;
}

/** Box of every line of text, from its baseline: 0.76 em up (capitals and ascenders), 0.2 em down. */
export function textBoxes(drawing: SvgNode): Box[] {
  const boxes: Box[] = [];
  for (const node of walk(drawing)) {
    if (node.tag !== 'text') continue;
    if (node.attrs.transform !== undefined) throw new Error('a turned text cannot be measured here');
    const size = Number(node.attrs['font-size']);
    const width = runWidth(node, size, false, false);
    const x = Number(node.attrs.x);
    const y = Number(node.attrs.y);
    const anchor = node.attrs['text-anchor'];
    const x0 = anchor === 'middle' ? x - width / 2 : anchor === 'end' ? x - width : x;
    boxes.push({ what: textOf(node), x0, y0: y - size * 0.76, x1: x0 + width, y1: y + size * 0.2 });
  }
  return boxes;
}

export function overlap(a: Box, b: Box, margin = 0): boolean {
  return a.x0 < b.x1 + margin && b.x0 < a.x1 + margin && a.y0 < b.y1 + margin && b.y0 < a.y1 + margin;
}

/** Points along a path of M, L, Q, C and Z, at most about 2 px apart. */
export function pointsAlong(d: string): [number, number][] {
  const points: [number, number][] = [];
  let at: [number, number] = [0, 0];
  let start: [number, number] = [0, 0];
  const straight = (to: [number, number]) => {
    const n = Math.max(1, Math.ceil(Math.hypot(to[0] - at[0], to[1] - at[1]) / 2));
    for (let i = 1; i <= n; i++)
      points.push([at[0] + ((to[0] - at[0]) * i) / n, at[1] + ((to[1] - at[1]) * i) / n]);
    at = to;
  };
  for (const [, letter, rest] of d.matchAll(/([MLQCAZ])([^MLQCAZ]*)/g)) {
    const n = (rest ?? '')
      .trim()
      .split(/[\s,]+/)
      .filter(Boolean)
      .map(Number);
    if (letter === 'M') {
      at = start = [n[0]!, n[1]!];
      points.push(at);
    } else if (letter === 'Z') straight(start);
    else straight([n.at(-2)!, n.at(-1)!]);
  }
  return points;
}

/** Whether any of the points lies in the box, or within `margin` px of it. */
export function hits(points: readonly (readonly [number, number])[], box: Box, margin: number): boolean {
  return points.some(
    ([x, y]) => x > box.x0 - margin && x < box.x1 + margin && y > box.y0 - margin && y < box.y1 + margin,
  );
}

export function viewBox(drawing: SvgNode): [number, number] {
  const [, , w, h] = String(drawing.attrs.viewBox).split(' ').map(Number);
  return [w!, h!];
}
