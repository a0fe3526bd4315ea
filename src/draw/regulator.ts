import type { Drawn } from './alternator.ts';
import { dot, type Frame, haloed, ink, line, over, ruledBox, WEIGHT } from './pen.ts';
import { el, type SvgNode } from './svg.ts';

/** Sizes of the regulator, px: half its box, where its two buses lie across it, where its legs stand along it. */
export interface RegulatorSize {
  readonly half: readonly [along: number, across: number];
  readonly bus: number;
  readonly legs: readonly number[];
  /** Across, where each phase meets its leg; a first. */
  readonly taps: readonly number[];
  /** Along, from a lower diode to the thyristor beside it. */
  readonly side: number;
}

/** A rectifying device: `flow` −1 lets current through towards the positive bus, +1 away from it. */
function device(
  frame: Frame,
  along: number,
  across: number,
  flow: -1 | 1,
  gated: boolean,
  w: number,
): SvgNode[] {
  const h = 9;
  const tip = across + flow * h;
  const base = across - flow * h;
  const gate = gated ? line([frame(along + 2, tip), frame(along + w + 1, tip + flow * 7)]) : '';
  return [
    el('path', {
      d: line([frame(along - w, base), frame(along + w, base), frame(along, tip)], true),
      fill: 'var(--paper)',
      stroke: 'var(--ink)',
      'stroke-width': WEIGHT.detail,
    }),
    ink(line([frame(along - w, tip), frame(along + w, tip)]) + gate, WEIGHT.outline),
  ];
}

/**
 * The regulator opened up: three-phase or single-phase bridge. A shunt has a thyristor across each lower
 * diode that puts the phase to ground; a series one has thyristors in place of the upper diodes.
 */
export function drawRegulator(
  frame: Frame,
  size: RegulatorSize,
  offsets: readonly number[],
  kind: 'shunt' | 'series',
): Drawn {
  const [l, c] = size.half;
  const { bus, legs, taps } = size;
  const inner: SvgNode[] = [
    ink(line([frame(legs[0]! - 8, -bus), frame(legs.at(-1)! + 8, -bus)]), WEIGHT.outline),
    ink(line([frame(legs[0]! - 8, bus), frame(legs.at(-1)! + 8, bus)]), WEIGHT.outline),
  ];
  const upper = -(bus + Math.abs(taps[0]!)) / 2;
  const lower = (bus + Math.abs(taps.at(-1)!)) / 2;
  for (const leg of legs) inner.push(ink(line([frame(leg, -bus), frame(leg, bus)]), WEIGHT.detail));
  for (const [i, leg] of legs.entries()) {
    const enter = offsets[i]!;
    const tap = taps[i]!;
    const bend = Math.abs(enter - tap);
    inner.push(
      ...over(
        line([frame(-l + 1.5, enter), frame(-l + 1.5 + bend * 0.6, tap), frame(leg, tap)]),
        WEIGHT.detail,
      ),
    );
    inner.push(dot(frame(leg, tap), 3.4));
  }
  for (const leg of legs) {
    inner.push(...device(frame, leg, upper, -1, kind === 'series', 8));
    if (kind === 'series') {
      inner.push(...device(frame, leg, lower, -1, false, 8));
    } else {
      const side = leg + size.side;
      const [a, b] = [lower - 15, lower + 15];
      inner.push(ink(line([frame(leg, a), frame(side, a), frame(side, b), frame(leg, b)]), WEIGHT.detail));
      inner.push(...device(frame, leg, lower, -1, false, 6.5));
      inner.push(...device(frame, side, lower, 1, true, 6.5));
    }
  }
  for (const leg of legs) inner.push(dot(frame(leg, -bus), 2.6), dot(frame(leg, bus), 2.6));
  return {
    shape: {
      kind: 'outline',
      corners: [frame(-l, -c), frame(l, -c), frame(l, c), frame(-l, c)],
    },
    nodes: [...ruledBox(frame, size.half, WEIGHT.outline), ...haloed(inner)],
  };
}
