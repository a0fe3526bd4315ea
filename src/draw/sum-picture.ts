/** Drawings that explain a sum: the wrench as a lever with its adapter, the map of screws with their order, the stack of shims. */
import type { Picture } from '../sum/picture.ts';
import { drawChainLoop } from './chain-loop.ts';
import { drawClock } from './clock-bars.ts';
import type { Point } from './hatch.ts';
import { drawPowerBalance, drawUndoOrBreak } from './held-against.ts';
import { drawLockedWheel } from './locked-wheel.ts';
import { textWidth } from './measure.ts';
import { dot, ink, line, ringAt, WEIGHT } from './pen.ts';
import { drawPulledBolt } from './pulled-bolt.ts';
import { drawSlackTurn } from './slack-turn.ts';
import { drawStackedParts } from './stacked-parts.ts';
import { drawLift, drawSlack } from './sum-bench-pictures.ts';
import { drawScrewHole, drawWrenchRanges } from './sum-tool-pictures.ts';
import { el, letter, type SvgNode, sheet } from './svg.ts';
import { drawTorqueSteps } from './torque-steps.ts';
import { drawWireRun } from './wire-run.ts';
import { drawWireWay } from './wire-way.ts';
import { drawWornChain } from './worn-chain.ts';

type Of<K extends Picture['kind']> = Extract<Picture, { kind: K }>;
export type PictureShape = 'wide' | 'narrow';

const WIDTH = { wide: 520, narrow: 328 } as const;
const TEXT = { wide: 17, narrow: 15 } as const;
/** The least letters of any of them, px. */
const SMALL = 13;

/** Draws what a sum hands over. Throws RangeError for a figure that is not finite. */
export function drawSumPicture(picture: Picture, shape: PictureShape): SvgNode {
  const room = { width: WIDTH[shape], text: TEXT[shape], shape };
  if (picture.kind === 'lever') return drawLever(picture, shape);
  if (picture.kind === 'slack') return drawSlack(picture, room);
  if (picture.kind === 'lift') return drawLift(picture, room);
  if (picture.kind === 'wrench-ranges') return drawWrenchRanges(picture, room);
  if (picture.kind === 'screw-hole') return drawScrewHole(picture, room);
  if (picture.kind === 'torque-steps') return drawTorqueSteps(picture, room);
  if (picture.kind === 'pulled-bolt') return drawPulledBolt(picture, room);
  if (picture.kind === 'chain-loop') return drawChainLoop(picture, room);
  if (picture.kind === 'worn-chain') return drawWornChain(picture, room);
  if (picture.kind === 'clock') return drawClock(picture, room);
  if (picture.kind === 'undo-or-break') return drawUndoOrBreak(picture, room);
  if (picture.kind === 'power-balance') return drawPowerBalance(picture, room);
  if (picture.kind === 'lock-bar') return drawLockedWheel(picture, room);
  if (picture.kind === 'stack-up') return drawStackedParts(picture, room);
  if (picture.kind === 'slack-turn') return drawSlackTurn(picture, room);
  if (picture.kind === 'wire-run') return drawWireRun(picture, room);
  if (picture.kind === 'wire-way') return drawWireWay(picture, room);
  return picture.kind === 'bolt-map' ? drawBoltMap(picture, shape) : drawShimStack(picture, shape);
}

/** Grip, drive and screw to scale, seen from above, with what to set and what the screw gets. */
function drawLever({ length, adapter, angle, set, torque }: Of<'lever'>, shape: PictureShape): SvgNode {
  const [width, size] = [WIDTH[shape], TEXT[shape]];
  const margin = 34;
  const [endX, endY] = [length + adapter * Math.cos(angle), adapter * Math.sin(angle)];
  const scale = Math.min((width - 2 * margin) / Math.max(length, endX), adapter > 0 ? 150 / adapter : 1e9);
  const top = size * 3 + 30 + Math.max(0, endY * scale);
  const at = (x: number, y: number): Point => [margin + x * scale, top - y * scale];
  const [grip, drive, screw] = [at(0, 0), at(length, 0), at(endX, endY)];
  const low = top + Math.max(0, -endY * scale) + 34;
  const how = { size };
  const words = (y: number, text: string, bold = false) => letter(10, y, text, { ...how, bold });
  return sheet(
    `lever ${shape}`,
    width,
    low + 3 * (size + 8),
    'Wrench and adapter',
    `Set the wrench to ${set}; the screw then gets ${torque}. The hand pulls at the middle of the grip.`,
    [
      words(size + 4, `set ${set}`, true),
      words(2 * size + 12, `screw gets ${torque}`),
      ink(line([grip, drive]), 9),
      ink(
        line([
          [grip[0] - 22, grip[1]],
          [grip[0] + 22, grip[1]],
        ]),
        17,
      ),
      el('path', {
        d: line([
          [grip[0], grip[1] - 7],
          [grip[0], grip[1] + 7],
        ]),
        stroke: 'var(--paper)',
        'stroke-width': 3,
      }),
      ...(adapter > 0
        ? [el('path', { d: line([drive, screw]), stroke: 'var(--brass)', 'stroke-width': 6 })]
        : []),
      el('path', {
        d: line(
          [
            [drive[0] - 8, drive[1] - 8],
            [drive[0] + 8, drive[1] - 8],
            [drive[0] + 8, drive[1] + 8],
            [drive[0] - 8, drive[1] + 8],
          ],
          true,
        ),
        fill: 'var(--paper)',
        stroke: 'var(--ink)',
        'stroke-width': WEIGHT.outline,
      }),
      ...(adapter > 0 ? [ringAt(screw, 11, WEIGHT.outline), dot(screw, 4)] : [dot(drive, 4)]),
      words(low + size, '| on the grip: pull here'),
      words(low + 2 * size + 7, adapter > 0 ? 'square: drive; ring: screw' : 'square: drive, on the screw'),
    ],
  );
}

/** Screws where they sit, each with its turn in the order; its own number small beside it. */
function drawBoltMap({ places, order, labels }: Of<'bolt-map'>, shape: PictureShape): SvgNode {
  const [width, size] = [WIDTH[shape], TEXT[shape]];
  const margin = 44;
  const xs = places.map(({ x }) => x);
  const ys = places.map(({ y }) => y);
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  const [across, down] = [Math.max(...xs) - left, Math.max(...ys) - top];
  const scale = Math.min(
    (width - 2 * margin) / Math.max(across, 1e-9),
    (width * 0.8 - 2 * margin) / Math.max(down, 1e-9),
  );
  const shift = (width - across * scale) / 2;
  const at = (i: number): Point => [
    shift + (places[i]!.x - left) * scale,
    margin + (places[i]!.y - top) * scale,
  ];
  const walk = order.map((screw) => at(screw - 1));
  const bottom = margin * 2 + down * scale;
  const radius = places.length > 16 ? size * 0.75 : size;
  return sheet(
    `bolt-map ${shape}`,
    width,
    bottom + 2 * size + 12,
    'Tightening order',
    `Screws in the order of tightening: ${order.join(', ')}.`,
    [
      el('path', {
        d: line(walk),
        stroke: 'var(--brass)',
        'stroke-width': WEIGHT.detail,
        'stroke-dasharray': '5 6',
      }),
      ...order.flatMap((screw, i) => {
        const [x, y] = at(screw - 1);
        const turn = String(i + 1);
        return [
          ringAt([x, y], radius, i === 0 ? 4 : WEIGHT.outline),
          letter(x, y + size * 0.36, turn, { size, bold: true, anchor: 'middle', figure: true }),
          // The dashes pass under the number.
          el('rect', {
            x: x + radius + 2,
            y: y - radius * 0.6 - 11,
            width: textWidth(`n${screw}`, { size: SMALL }) + 2,
            height: 14,
            fill: 'var(--paper)',
          }),
          letter(x + radius + 3, y - radius * 0.6, `n${screw}`, { size: SMALL, fill: 'var(--quiet)' }),
          ...(!labels?.[screw - 1]
            ? []
            : [letter(x, y + radius + 13, labels[screw - 1]!, { size: SMALL, anchor: 'middle' })]),
        ];
      }),
      letter(
        Math.max(
          8,
          (width - textWidth('in the ring: its turn, the first one thick', { size: size - 2 })) / 2,
        ),
        bottom + size,
        'in the ring: its turn, the first one thick',
        { size: size - 2 },
      ),
      letter(
        Math.max(8, (width - textWidth('n: number of the screw as entered', { size: size - 2 })) / 2),
        bottom + 2 * size + 4,
        'n: number of the screw as entered',
        { size: size - 2, fill: 'var(--quiet)' },
      ),
    ],
  );
}

/** Shims one on another, thick ones at the bottom, heights in proportion; what is wanted above them. */
function drawShimStack({ shims, total, wanted, fits }: Of<'shim-stack'>, shape: PictureShape): SvgNode {
  const [width, size] = [WIDTH[shape], TEXT[shape]];
  const thick = shims.reduce((sum, { thickness }) => sum + thickness, 0);
  const top = 3 * size + 36;
  const least = size + 6;
  const right = width * 0.36;
  const nodes: SvgNode[] = [
    letter(10, size + 4, `wanted ${wanted}`, { size }),
    letter(10, 2 * size + 12, `${fits ? 'fits' : 'does not fit'}: ${total}`, { size, bold: true }),
  ];
  let y = top;
  for (const { thickness, words } of shims.toReversed()) {
    const height = least + (thickness / thick) * 90;
    nodes.push(
      el('rect', {
        x: 14,
        y,
        width: right - 14,
        height: height - 3,
        fill: 'var(--paper)',
        stroke: 'var(--ink)',
        'stroke-width': WEIGHT.outline,
      }),
      ink(
        line([
          [right, y + height / 2],
          [right + 14, y + height / 2],
        ]),
        WEIGHT.hair,
      ),
      letter(right + 20, y + height / 2 + size * 0.33, words, { size }),
    );
    y += height;
  }
  if (shims.length === 0) nodes.push(letter(14, y + size, 'no shim', { size }));
  nodes.push(
    ink(
      line([
        [6, y + 4],
        [right + 8, y + 4],
      ]),
      5,
    ),
  );
  return sheet(
    `shim-stack ${shape}`,
    width,
    y + 16 + (shims.length === 0 ? size : 0),
    'Shim stack',
    `Wanted ${wanted}; ${fits ? 'the stack fits' : 'the nearest does not fit'}, ${total}: ${shims.map(({ words }) => words).join(', ') || 'no shim'}.`,
    nodes,
  );
}
