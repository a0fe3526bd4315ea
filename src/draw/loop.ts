import { MEMBERS, type Member } from '../fault/catalogue.ts';
import type { ProbePoint } from '../reading/kinds.ts';
import { box, extent, hatch, outline, stepOf } from './hatch.ts';
import { NARROW, planNarrow } from './loop-narrow.ts';
import type { LabelPlace, LoopInput, LoopPlan, Placed, PlanInput } from './loop-plan.ts';
import { planWide, WIDE } from './loop-wide.ts';
import { shorten, textWidth } from './measure.ts';
import { MEMBER_NAMES } from './member-names.ts';
import { line, WEIGHT } from './pen.ts';
import { drawProbes, meterText } from './probe.ts';
import { el, letter, type SvgNode, sheet, span } from './svg.ts';

/** A probability 0–1 as a mechanic reads it: whole per cent, never 0 and never 100. */
export function percent(probability: number): string {
  if (probability < 0.005) return '<1\u00a0%';
  if (probability > 0.995) return '>99\u00a0%';
  return `${Math.round(probability * 100)}\u00a0%`;
}

/** Where probes can be put on this bike's loop. */
export function probePointsOf(
  input: Pick<LoopInput, 'phases' | 'regulator' | 'senses' | 'loadsFedFrom'>,
): ProbePoint[] {
  return [...planWide({ ...input, meterHeight: 0 }).points.keys()];
}

/**
 * The loop: the one drawing of the charging circuit that stays the same through the whole job. Suspicion is
 * hatching in four densities and a figure in words; a proven member has a second outline and the word. Throws
 * RangeError for a suspicion outside 0–1 or a probe where this circuit has no such place.
 */
export function drawLoop(input: LoopInput): SvgNode {
  const size = input.shape === 'wide' ? WIDE : NARROW;
  const probes = input.probes ?? null;
  const meterHeight = probes === null ? 0 : meterText(probes, size).height;
  const planned: PlanInput = {
    phases: input.phases,
    regulator: input.regulator,
    senses: input.senses,
    loadsFedFrom: input.loadsFedFrom,
    meterHeight,
  };
  const plan = input.shape === 'wide' ? planWide(planned) : planNarrow(planned);
  const groups: SvgNode[] = [];
  const ground: SvgNode[] = [];
  for (const member of MEMBERS) {
    const placed = plan.members.get(member);
    const suspicion = input.suspicion[member];
    const step = stepOf(suspicion);
    if (placed === undefined) continue;
    const proven = input.proven.includes(member);
    // Hatching lies under every line of the drawing, so that a member's neighbours stay crisp.
    ground.push(
      el('g', { class: 'tone', 'data-tone': member }, proven ? [] : hatch(placed.tone ?? placed.shape, step)),
    );
    groups.push(drawMember(member, placed, plan, input, proven, suspicion));
  }
  const children = [
    ...ground,
    el('g', { class: 'wires' }, plan.wires),
    ...groups,
    el('g', { class: 'marks' }, plan.marks),
    ...(probes === null ? [] : [drawProbes(plan, probes, input.shape === 'wide' ? 12 : 11)]),
  ];
  return sheet(
    `loop ${input.shape}`,
    plan.width,
    plan.height,
    'The loop: the charging circuit',
    describe(input),
    children,
  );
}

function describe(input: LoopInput): string {
  const kind = input.phases === 3 ? 'three windings in a star' : 'one winding';
  const ranked = MEMBERS.filter((m) => input.suspicion[m] >= 0.04 && !input.proven.includes(m)).sort(
    (a, b) => input.suspicion[b] - input.suspicion[a],
  );
  const suspects = input.plain
    ? 'What is likely was not reckoned.'
    : ranked.length === 0
      ? 'Nothing is suspected.'
      : `Suspected: ${ranked.map((m) => `${MEMBER_NAMES[m]} ${percent(input.suspicion[m])}`).join(', ')}.`;
  const proven =
    input.proven.length === 0 ? '' : ` Proven: ${input.proven.map((m) => MEMBER_NAMES[m]).join(', ')}.`;
  const p = input.probes;
  const tips = p
    ? [p.red && `red at ${p.red}`, p.black && `black at ${p.black}`, p.around && `clamp ${p.around}`]
        .filter(Boolean)
        .join(', ')
    : '';
  const meter = p ? ` Meter: ${p.meter}; ${p.sound}${tips === '' ? '' : `; ${tips}`}.` : '';
  return `Rotor with magnets, stator of ${kind}, plug, ${input.regulator} regulator, output run with joint, wire and breaker, battery, ground through the frame. ${suspects}${proven}${meter}`.replaceAll(
    '\u00a0',
    ' ',
  );
}

function drawMember(
  member: Member,
  placed: Placed,
  plan: LoopPlan,
  input: LoopInput,
  proven: boolean,
  suspicion: number,
): SvgNode {
  const reading = input.readings?.[member];
  const state = proven
    ? 'proven'
    : percent(suspicion).replace('<', 'under ').replace('>', 'over ').replace('\u00a0', ' ');
  const teal = { stroke: 'var(--teal)', 'stroke-width': 1.8 };
  const label = input.plain
    ? [letter(...placed.label.at, MEMBER_NAMES[member], { size: plan.text, anchor: placed.label.anchor })]
    : drawLabel(MEMBER_NAMES[member], proven ? null : suspicion, reading, placed.label, plan);
  const [x0, y0, x1, y1] = extent(placed.shape);
  const ring = box(x0 - 8, y0 - 8, x1 + 8, y1 + 8);
  const highlighted = input.highlight === member;
  return el(
    'g',
    {
      class: `member${proven ? ' proven' : ''}${highlighted ? ' highlight' : ''}`,
      'data-member': member,
      tabindex: 0,
      role: 'button',
      'aria-label': `${MEMBER_NAMES[member]}, ${state}${reading === undefined ? '' : `, ${reading}`}`,
    },
    [
      el('rect', {
        class: 'hit',
        x: x0 - 4,
        y: y0 - 4,
        width: x1 - x0 + 8,
        height: y1 - y0 + 8,
        'pointer-events': 'all',
      }),
      ...placed.body,
      ...(proven ? [...outline(placed.shape, 2.5, teal), ...outline(placed.shape, 7, teal)] : []),
      ...(highlighted ? brackets(x0 - 11, y0 - 11, x1 + 11, y1 + 11) : []),
      ...outline(ring, 0, {
        class: 'ring',
        stroke: 'var(--brass)',
        'stroke-width': 2.5,
        'stroke-dasharray': '7 5',
        visibility: 'hidden',
      }),
      ...(placed.leader === undefined
        ? []
        : [el('path', { d: line(placed.leader), stroke: 'var(--quiet)', 'stroke-width': WEIGHT.hair })]),
      ...label,
    ],
  );
}

/** Four corners round the member in hand. */
function brackets(x0: number, y0: number, x1: number, y1: number): SvgNode[] {
  const k = Math.min(16, (x1 - x0) / 3, (y1 - y0) / 3);
  const d =
    line([
      [x0, y0 + k],
      [x0, y0],
      [x0 + k, y0],
    ]) +
    line([
      [x1 - k, y0],
      [x1, y0],
      [x1, y0 + k],
    ]) +
    line([
      [x1, y1 - k],
      [x1, y1],
      [x1 - k, y1],
    ]) +
    line([
      [x0 + k, y1],
      [x0, y1],
      [x0, y1 - k],
    ]);
  return [
    el('path', {
      d,
      stroke: 'var(--brass)',
      'stroke-width': 4,
      'stroke-linecap': 'butt',
      'stroke-linejoin': 'miter',
    }),
  ];
}

function drawLabel(
  name: string,
  suspicion: number | null,
  reading: string | undefined,
  place: LabelPlace,
  plan: LoopPlan,
): SvgNode[] {
  const size = plan.text;
  const step = suspicion === null ? 0 : stepOf(suspicion);
  const words = suspicion === null ? 'proven' : percent(suspicion);
  const how =
    suspicion === null
      ? { bold: true, fill: 'var(--teal)' }
      : { bold: step >= 2, figure: true, fill: step === 0 ? 'var(--quiet)' : 'var(--ink)' };
  const lines: SvgNode[] = [];
  const [x, y] = place.at;
  const figure = reading === undefined ? null : shorten(reading, place.room, { size, figure: true });
  const count = (place.form === 'stack' ? 2 : 1) + (figure === null ? 0 : 1);
  let base = place.grow === 'down' ? y : y - (count - 1) * plan.leading;
  const anchor = place.anchor;
  if (place.form === 'stack') {
    lines.push(letter(x, base, name, { size, anchor }));
    base += plan.leading;
    lines.push(letter(x, base, words, { size, anchor, ...how }));
  } else {
    lines.push({
      ...letter(x, base, '', { size, anchor }),
      children: [name, span(words, { size, ...how, dx: textWidth(' ', { size }) + 2 })],
    });
  }
  base += plan.leading + (place.skip ?? 0);
  if (figure !== null) lines.push(letter(x, base, figure, { size, anchor, figure: true }));
  return lines;
}
