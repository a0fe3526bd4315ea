import type { Drawn } from './alternator.ts';
import { box, type Point } from './hatch.ts';
import { dot, type Frame, ink, line, over, ringAt, ruledBox, WEIGHT } from './pen.ts';
import { el, num, type SvgNode } from './svg.ts';

/** A bullet joint in the run: a sleeve over a bullet, with the place where they touch left open. */
export function drawJoint(at: Point, frame: Frame): Drawn {
  const shell = (from: number, to: number, w: number) =>
    line([frame(from, -w), frame(to, -w), frame(to, w), frame(from, w)], true);
  return {
    shape: { kind: 'disc', at, r: 17 },
    nodes: [
      el('path', {
        d: shell(-17, 1, 10),
        fill: 'var(--paper)',
        stroke: 'var(--ink)',
        'stroke-width': WEIGHT.outline,
      }),
      el('path', {
        d: shell(5, 17, 6.5),
        fill: 'var(--paper)',
        stroke: 'var(--ink)',
        'stroke-width': WEIGHT.outline,
      }),
      ink(line([frame(-9, 0), frame(5, 0)]), 4.5),
    ],
  };
}

/** Breaker or main fuse: two contacts and the bridge between them. `over` is the side it arches to. */
export function drawBreaker(frame: Frame, half: number): Drawn {
  const [x0, y0] = frame(-half, 0);
  const [x1, y1] = frame(half, 0);
  const [cx, cy] = frame(0, -half * 1.15);
  const wide = half + 9;
  const corners = [frame(-wide, -12), frame(wide, -12), frame(wide, 10), frame(-wide, 10)];
  return {
    shape: { kind: 'outline', corners },
    nodes: [
      el('path', {
        d: line([frame(-half, 0), frame(half, 0)]),
        stroke: 'var(--paper)',
        'stroke-width': 7,
        'stroke-linecap': 'butt',
      }),
      ink(`M${num(x0)} ${num(y0)}Q${num(cx)} ${num(cy)} ${num(x1)} ${num(y1)}`, WEIGHT.outline),
      ringAt([x0, y0], 4.5, WEIGHT.outline),
      ringAt([x1, y1], 4.5, WEIGHT.outline),
    ],
  };
}

/** Lamp for all the loads together. */
export function drawLamp(at: Point, r: number): Drawn {
  const k = r * Math.SQRT1_2;
  const [x, y] = at;
  return {
    shape: { kind: 'disc', at, r },
    nodes: [
      ink(
        line([
          [x - k, y - k],
          [x + k, y + k],
        ]) +
          line([
            [x + k, y - k],
            [x - k, y + k],
          ]),
        WEIGHT.detail,
      ),
      el('circle', { cx: x, cy: y, r, stroke: 'var(--ink)', 'stroke-width': WEIGHT.outline }),
    ],
  };
}

/** A drop: current that leaves while the key is off. `at` is its point. */
export function drawDrop(at: Point, size: number): Drawn {
  const [x, y] = at;
  const w = size * 0.62;
  const d =
    `M${num(x)} ${num(y)}C${num(x + w * 0.35)} ${num(y + size * 0.55)} ${num(x + w)} ${num(y + size * 0.8)} ${num(x + w)} ${num(y + size * 1.15)}` +
    `A${num(w)} ${num(w)} 0 0 1 ${num(x - w)} ${num(y + size * 1.15)}` +
    `C${num(x - w)} ${num(y + size * 0.8)} ${num(x - w * 0.35)} ${num(y + size * 0.55)} ${num(x)} ${num(y)}Z`;
  return {
    shape: { kind: 'disc', at: [x, y + size * 1.1], r: w + 5 },
    nodes: [
      el('path', { d, fill: 'var(--paper)', stroke: 'var(--ink)', 'stroke-width': WEIGHT.outline }),
      ink(
        `M${num(x - w * 0.5)} ${num(y + size * 1.2)}Q${num(x - w * 0.4)} ${num(y + size * 1.5)} ${num(x)} ${num(y + size * 1.55)}`,
        WEIGHT.hair,
      ),
    ],
  };
}

/** A switch that stands open, from `from` to `to` along a straight wire. */
export function drawOpenSwitch(from: Point, to: Point, lean: 1 | -1 = 1): SvgNode[] {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const cos = Math.cos(0.5);
  const sin = Math.sin(0.5) * lean;
  const blade: Point = [from[0] + dx * cos - dy * sin, from[1] + dx * sin + dy * cos];
  return [
    el('path', { d: line([from, to]), stroke: 'var(--paper)', 'stroke-width': 7, 'stroke-linecap': 'butt' }),
    ink(line([from, blade]), WEIGHT.outline),
    ringAt(from, 3.6, WEIGHT.detail),
    ringAt(to, 3.6, WEIGHT.detail),
  ];
}

/** Battery seen as its six cells, plates across the current; signs are drawn, not lettered. */
export function drawBattery(at: Point, half: Point): Drawn {
  const [x, y] = at;
  const [w, h] = half;
  const frame: Frame = (l, c) => [x + l, y + c];
  const plates: string[] = [];
  const pitch = (h * 2 - 26) / 5.6;
  for (let i = 0; i < 6; i++) {
    const at = y - h + 13 + i * pitch;
    plates.push(
      line([
        [x - w * 0.5, at],
        [x + w * 0.5, at],
      ]),
    );
    plates.push(
      line([
        [x - w * 0.26, at + pitch * 0.5],
        [x + w * 0.26, at + pitch * 0.5],
      ]),
    );
  }
  const sign = (sx: number, sy: number, plus: boolean) =>
    line([
      [sx - 6, sy],
      [sx + 6, sy],
    ]) +
    (plus
      ? line([
          [sx, sy - 6],
          [sx, sy + 6],
        ])
      : '');
  return {
    shape: box(x - w, y - h, x + w, y + h),
    nodes: [
      ...ruledBox(frame, half, WEIGHT.outline),
      ...over(plates.join(''), WEIGHT.detail, { 'stroke-linecap': 'butt' }),
      ...over(sign(x - w + 13, y - h + 15, true), WEIGHT.outline),
      ...over(sign(x - w + 13, y + h - 15, false), WEIGHT.outline),
    ],
  };
}

/** Post and clamp, one above the other: `post` grows out of the battery, `clamp` holds the cable to it. */
export function drawPost(clamp: Point, post: Point): Drawn {
  const [x, yc] = clamp;
  const yp = post[1];
  const top = Math.min(yc, yp) - 14;
  const bottom = Math.max(yc, yp) + 14;
  const w = 9;
  const foot = yp + Math.sign(yp - yc) * 14;
  return {
    shape: box(x - 21, top, x + 21, bottom),
    nodes: [
      el('path', {
        d: line(
          [
            [x - w, yc],
            [x + w, yc],
            [x + w, foot],
            [x - w, foot],
          ],
          true,
        ),
        fill: 'var(--paper)',
        stroke: 'var(--ink)',
        'stroke-width': WEIGHT.outline,
      }),
      el('path', {
        d: line(
          [
            [x - 14, yc - 8],
            [x + 14, yc - 8],
            [x + 14, yc + 8],
            [x - 14, yc + 8],
          ],
          true,
        ),
        fill: 'var(--paper)',
        stroke: 'var(--ink)',
        'stroke-width': WEIGHT.outline,
      }),
      ink(
        line([
          [x + 14, yc - 4],
          [x + 20, yc - 4],
        ]) +
          line([
            [x + 14, yc + 4],
            [x + 20, yc + 4],
          ]),
        WEIGHT.detail,
      ),
      dot(clamp, 3.2),
    ],
  };
}

/** The frame: a tube that carries the current home, open at both ends of the sheet. */
export function drawTube(from: Point, to: Point, half: number): Drawn {
  const upright = from[0] === to[0];
  const [x0, y0] = from;
  const [x1, y1] = to;
  const walls = upright
    ? line([
        [x0 - half, y0],
        [x0 - half, y1],
      ]) +
      line([
        [x0 + half, y0],
        [x0 + half, y1],
      ])
    : line([
        [x0, y0 - half],
        [x1, y0 - half],
      ]) +
      line([
        [x0, y0 + half],
        [x1, y0 + half],
      ]);
  /** Break line: how a draughtsman says "and so on". */
  const torn = ([x, y]: Point) =>
    upright
      ? `M${num(x - half)} ${num(y)}C${num(x - half * 0.3)} ${num(y - 6)} ${num(x + half * 0.3)} ${num(y + 6)} ${num(x + half)} ${num(y)}`
      : `M${num(x)} ${num(y - half)}C${num(x - 6)} ${num(y - half * 0.3)} ${num(x + 6)} ${num(y + half * 0.3)} ${num(x)} ${num(y + half)}`;
  const shape = upright ? box(x0 - half, y0, x0 + half, y1) : box(x0, y0 - half, x1, y0 + half);
  return { shape, nodes: [ink(walls, WEIGHT.outline), ink(torn(from) + torn(to), WEIGHT.detail)] };
}

/** A bolted ring terminal. */
export function drawTerminal(at: Point): SvgNode[] {
  return [ringAt(at, 7, WEIGHT.outline), dot(at, 2.6)];
}

/** A short piece of frame under a load's own return wire. */
export function drawStub(at: Point): SvgNode[] {
  const [x, y] = at;
  return [...drawTube([x - 17, y], [x + 17, y], 5).nodes, dot(at, 3)];
}
