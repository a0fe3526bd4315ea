import type { ProbePoint } from '../reading/kinds.ts';
import type { Point } from './hatch.ts';
import type { LoopPlan, ProbePlace, Probes } from './loop-plan.ts';
import { textWidth, wrap } from './measure.ts';
import { line, rounded, WEIGHT } from './pen.ts';
import { el, letter, num, type SvgNode } from './svg.ts';

type Lead = 'red' | 'black' | 'around';
const WORDS: Readonly<Record<Lead, string>> = { red: 'red +', black: 'black −', around: 'clamp' };

export interface MeterSize {
  readonly meterWidth: number;
  readonly meterLeast: number;
  readonly text: number;
  readonly leading: number;
}

/** Lines of text in the meter, and its height, px. */
export function meterText(probes: Probes, { meterWidth, meterLeast, text, leading }: MeterSize) {
  const room = meterWidth - 28;
  const what = wrap(probes.meter, room, { size: text }, 3);
  const sound = wrap(probes.sound, room, { size: text, bold: true }, 2);
  return { what, sound, height: Math.max((what.length + sound.length) * leading + 30, meterLeast) };
}

/** The meter in the hand: outline, what it is set to, and what a sound bike would show. */
export function drawMeter(plan: LoopPlan, probes: Probes): SvgNode {
  const { at, width, height } = plan.meter;
  const [x, y] = at;
  const {
    what,
    sound,
    height: needs,
  } = meterText(probes, {
    meterWidth: width,
    meterLeast: 0,
    text: plan.text,
    leading: plan.leading,
  });
  const slack = (height - needs) / 2;
  let base = y + slack + 10 + plan.leading * 0.8;
  const lines: SvgNode[] = [];
  for (const words of what) {
    lines.push(letter(x + 14, base, words, { size: plan.text }));
    base += plan.leading;
  }
  const split = base - plan.leading + 10;
  base += 8;
  for (const words of sound) {
    lines.push(letter(x + 14, base, words, { size: plan.text, bold: true }));
    base += plan.leading;
  }
  return el('g', { class: 'meter' }, [
    el('rect', {
      x,
      y,
      width,
      height,
      rx: 12,
      fill: 'var(--paper)',
      stroke: 'var(--ink)',
      'stroke-width': WEIGHT.outline,
    }),
    el('rect', {
      x: x + 4,
      y: y + 4,
      width: width - 8,
      height: height - 8,
      rx: 9,
      stroke: 'var(--ink)',
      'stroke-width': WEIGHT.hair,
    }),
    el('path', {
      d: line([
        [x + 14, split],
        [x + width - 14, split],
      ]),
      stroke: 'var(--brass)',
      'stroke-width': 2,
    }),
    ...lines,
  ]);
}

/** A cable: red is solid, black has a light core, the clamp's is a double hairline; each with paper round it. */
function cable(d: string, lead: Lead): SvgNode[] {
  const base = { d, 'stroke-linecap': 'butt' } as const;
  const colour = lead === 'red' ? 'var(--danger)' : 'var(--ink)';
  return [
    el('path', { ...base, stroke: 'var(--paper)', 'stroke-width': 11 }),
    el('path', {
      ...base,
      class: `cable ${lead}`,
      stroke: colour,
      'stroke-width': lead === 'around' ? 4.4 : 5.4,
    }),
    ...(lead === 'red'
      ? []
      : [el('path', { ...base, stroke: 'var(--paper)', 'stroke-width': lead === 'around' ? 2.4 : 1.6 })]),
  ];
}

/** The needle: a barrel that tapers to a point, with the guard a finger rests against. */
function needle(from: Point, tip: Point, lead: Lead): SvgNode[] {
  const length = Math.hypot(tip[0] - from[0], tip[1] - from[1]);
  const u: Point = [(tip[0] - from[0]) / length, (tip[1] - from[1]) / length];
  const at = (back: number, side: number): Point => [
    tip[0] - u[0] * back - u[1] * side,
    tip[1] - u[1] * back + u[0] * side,
  ];
  const metal = Math.min(17, length * 0.55);
  const barrel = Math.min(40, length);
  const colour = lead === 'red' ? 'var(--danger)' : 'var(--ink)';
  return [
    ...(length > barrel + 1 ? cable(line([from, at(barrel - 2, 0)]), lead) : []),
    el('path', {
      d: line(
        [
          at(0, 0),
          at(metal, 2.2),
          at(metal, 3.8),
          at(barrel, 3.8),
          at(barrel, -3.8),
          at(metal, -3.8),
          at(metal, -2.2),
        ],
        true,
      ),
      fill: colour,
      stroke: 'var(--paper)',
      'stroke-width': 2,
      'paint-order': 'stroke',
    }),
    el('path', { d: line([at(metal + 1, 7), at(metal + 1, -7)]), stroke: colour, 'stroke-width': 3.4 }),
  ];
}

/** Jaw of a clamp meter round a wire, open a little on the far side, with the stalk towards its tag. */
function jaw(from: Point, at: Point, r: number): SvgNode[] {
  const angle = Math.atan2(from[1] - at[1], from[0] - at[0]);
  const on = (a: number, q = r): Point => [at[0] + q * Math.cos(a), at[1] + q * Math.sin(a)];
  const half = (side: 1 | -1) => {
    const [x0, y0] = on(angle);
    const [x1, y1] = on(angle + side * (Math.PI - 0.28));
    return `M${num(x0)} ${num(y0)}A${num(r)} ${num(r)} 0 0 ${side === 1 ? 1 : 0} ${num(x1)} ${num(y1)}`;
  };
  const d = half(1) + half(-1);
  return [
    ...cable(line([on(angle, r + 2), from]), 'around'),
    el('path', { d, stroke: 'var(--paper)', 'stroke-width': 10 }),
    el('path', { d, stroke: 'var(--ink)', 'stroke-width': 6, 'stroke-linecap': 'butt' }),
    el('path', { d, stroke: 'var(--paper)', 'stroke-width': 2.2, 'stroke-linecap': 'butt' }),
  ];
}

/** The tag a probe carries: rounded for red, square for black, six-cornered for the clamp. */
function tag(at: Point, lead: Lead, text: number): SvgNode[] {
  const words = WORDS[lead];
  const half = textWidth(words, { size: text, bold: true }) / 2 + 8;
  const tall = text * 0.74;
  const [x, y] = at;
  const shape =
    lead === 'around'
      ? el('path', {
          d: line(
            [
              [x - half - 5, y],
              [x - half + 2, y - tall],
              [x + half - 2, y - tall],
              [x + half + 5, y],
              [x + half - 2, y + tall],
              [x - half + 2, y + tall],
            ],
            true,
          ),
          fill: 'var(--paper)',
          stroke: 'var(--ink)',
          'stroke-width': WEIGHT.outline,
        })
      : el('rect', {
          x: x - half,
          y: y - tall,
          width: half * 2,
          height: tall * 2,
          rx: lead === 'red' ? tall : 0,
          fill: lead === 'red' ? 'var(--danger)' : 'var(--paper)',
          stroke: lead === 'red' ? 'var(--danger)' : 'var(--ink)',
          'stroke-width': lead === 'red' ? 1 : 3,
        });
  return [
    shape,
    letter(x, y + text * 0.34, words, {
      size: text,
      bold: true,
      anchor: 'middle',
      fill: lead === 'red' ? 'var(--paper)' : 'var(--ink)',
    }),
  ];
}

/** Probes, their cables and the meter. `jawSize` is the radius of the clamp's jaw, px. */
export function drawProbes(plan: LoopPlan, probes: Probes, jawSize: number): SvgNode {
  const used: { lead: Lead; place: ProbePlace; point: ProbePoint }[] = [];
  for (const lead of ['red', 'black', 'around'] as const) {
    const point = probes[lead];
    if (point === null) continue;
    const twins = probes.red === probes.black ? plan.backProbed.get(point) : undefined;
    const place =
      lead === 'around'
        ? plan.points.get(point)
        : (twins?.[lead === 'red' ? 0 : 1] ?? plan.points.get(point));
    if (place === undefined) {
      throw new RangeError(
        `probes.${lead}: this bike's loop has no "${point}"; use one of ${[...plan.points.keys()].join(', ')}`,
      );
    }
    used.push({ lead, place, point });
  }
  const cables = used.map(({ lead, place }) =>
    cable(
      rounded(
        way(
          plan,
          place,
          used.map((u) => u.place),
        ),
        12,
      ),
      lead,
    ),
  );
  const stalks = used.map(({ lead, place }) => cable(line([place.tag, place.from]), lead));
  return el('g', { class: 'probes', 'pointer-events': 'none' }, [
    ...cables.flat(),
    ...stalks.flat(),
    ...used.flatMap(({ lead, place, point }) =>
      lead === 'around' || point.startsWith('around-')
        ? jaw(place.from, place.tip, jawSize)
        : needle(place.from, place.tip, lead),
    ),
    ...used.flatMap(({ lead, place }) => tag(place.tag, lead, plan.text)),
    drawMeter(plan, probes),
  ]);
}

/** Cables in shared lanes are ranked by height, so that they lie beside each other and never cross. */
function way(plan: LoopPlan, place: ProbePlace, all: readonly ProbePlace[]): readonly Point[] {
  if (typeof place.route !== 'string') return place.route;
  const group = place.route;
  const heights = all.filter((p) => p.route === group).map((p) => p.exit[1]);
  const ranked = [...new Set(heights)].sort((a, b) => (group === 'below' ? b - a : a - b));
  return plan.lane(group, ranked.indexOf(place.exit[1]), place.exit);
}
