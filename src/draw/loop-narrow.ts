import type { Member } from '../fault/catalogue.ts';
import type { ProbePoint } from '../reading/kinds.ts';
import {
  type AlternatorSize,
  type Drawn,
  drawLeads,
  drawPlug,
  drawRotor,
  drawStator,
  leadOffsets,
  letterLeads,
  pinAlong,
} from './alternator.ts';
import { box, type Point } from './hatch.ts';
import type { LabelPlace, LoopPlan, Placed, PlanInput, ProbePlace } from './loop-plan.ts';
import { dot, frameAt, ink, line, over, rounded, WEIGHT } from './pen.ts';
import { drawRegulator } from './regulator.ts';
import type { SvgNode } from './svg.ts';
import {
  drawBattery,
  drawBreaker,
  drawDrop,
  drawJoint,
  drawLamp,
  drawOpenSwitch,
  drawPost,
  drawTerminal,
  drawTube,
} from './symbols.ts';

export const NARROW = { width: 360, text: 16, leading: 19, meterWidth: 354, meterLeast: 0 } as const;

const ALTERNATOR: AlternatorSize = { rotor: [72, 58], stator: 51, winding: 42, text: 16 };
/** The run of the current comes down this line; probes reach it from the left, labels stand on its right. */
const RUN = 132;
const LABEL = 164;
const TUBE = 346;
const TAG = 62;

/** Heights of the rows, px from the top of the sheet. */
function rows(input: PlanInput) {
  const top = input.meterHeight === 0 ? 8 : input.meterHeight + 34;
  const tapsFirst = input.loadsFedFrom === 'regulator';
  const sense = input.senses === 'wire' ? 50 : 0;
  const joint = top + 542;
  const wire = joint + 56;
  const next = wire + 62;
  const breaker = tapsFirst ? next + 66 : next;
  const loads = tapsFirst ? next : next + 66;
  const senseEnd = next + 66 + sense;
  const drain = senseEnd + 58;
  const clamp = drain + 58;
  return {
    top,
    alternator: top + 78,
    plug: top + 224,
    regulator: top + 380,
    minus: top + 432,
    plus: top + 480,
    joint,
    wire,
    breaker,
    loads,
    senseEnd,
    drain,
    clamp,
    post: clamp + 30,
    battery: clamp + 90,
    postMinus: clamp + 150,
    clampMinus: clamp + 180,
    home: clamp + 216,
    bottom: clamp + 262,
  };
}

type Rows = ReturnType<typeof rows>;

/** The narrow sheet, for a phone: the current comes down the middle and goes home up the frame on the right. */
export function planNarrow(input: PlanInput): LoopPlan {
  const { phases } = input;
  const y = rows(input);
  const offsets = leadOffsets(phases, ALTERNATOR.winding);
  const pins = offsets.length;
  const stagger = phases === 3 ? 15 : 20;
  const along = offsets.map((_, i) => pinAlong(i, pins, stagger));
  const centre: Point = [RUN, y.alternator];
  const alternator = frameAt(centre, 'down');
  const legs = phases === 3 ? [-42, 2, 46] : [-30, 22];
  const half: readonly [number, number] = [78, 74];
  const rotor = drawRotor(centre, alternator, ALTERNATOR);
  const stator = drawStator(centre, alternator, ALTERNATOR, phases);
  const plug = drawPlug(frameAt([RUN, y.plug], 'down'), offsets, { stagger, half: 25, wall: 15 });
  const regulator = drawRegulator(
    frameAt([RUN, y.regulator], 'down'),
    { half, bus: 60, legs, taps: phases === 3 ? [-15, 0, 15] : [-10, 10], side: 21 },
    offsets,
    input.regulator,
  );
  const plusLeg = y.regulator + legs.at(-1)!;
  const minusLeg = y.regulator + legs[0]!;

  const wires: SvgNode[] = [
    ...drawLeads(
      alternator,
      ALTERNATOR,
      phases,
      along.map((s) => y.plug + s - 21 - y.alternator),
    ),
    ...offsets.map((c, i) =>
      ink(
        line([
          [RUN + c, y.plug + along[i]! + 21],
          [RUN + c, y.regulator - half[0] + 1],
        ]),
        WEIGHT.wire,
      ),
    ),
    ink(
      line([
        [RUN - 60, plusLeg],
        [RUN - 60, y.regulator + 68],
        [RUN, y.regulator + 68],
        [RUN, y.clamp],
      ]),
      WEIGHT.wire,
    ),
    ink(
      line([
        [RUN + 60, minusLeg],
        [RUN + 60, y.minus],
        [TUBE, y.minus],
      ]),
      WEIGHT.wire,
    ),
    ink(
      line([
        [RUN, y.clampMinus],
        [RUN, y.home],
        [TUBE, y.home],
      ]),
      WEIGHT.wire,
    ),
    ...drawTerminal([TUBE, y.minus]),
    ...drawTerminal([TUBE, y.home]),
  ];

  const members = new Map<Member, Placed>();
  const put = (member: Member, art: Drawn, label: LabelPlace, before: readonly SvgNode[] = []) =>
    members.set(member, { shape: art.shape, body: [...before, ...art.nodes], label });
  const stack = (x: number, base: number): LabelPlace => ({
    at: [x, base],
    anchor: 'start',
    grow: 'down',
    form: 'stack',
    room: 352 - x,
  });
  const inline = (x: number, base: number): LabelPlace => ({
    ...stack(x, base),
    form: 'line',
    room: 332 - x,
  });
  const down = (row: number) => frameAt([RUN, row], 'down');

  put('rotor', rotor, stack(222, y.top + 34));
  put('stator', stator, stack(222, y.top + 102));
  put('stator-plug', plug, stack(210, y.plug - 10));
  put('regulator', regulator, stack(226, y.regulator - 22));
  put('output-joint', drawJoint([RUN, y.joint], down(y.joint)), inline(LABEL, y.joint + 2));
  put(
    'output-wire',
    { shape: box(RUN - 8, y.joint + 34, RUN + 8, y.wire + 21), nodes: [] },
    inline(LABEL, y.wire + 3),
  );
  put('breaker', drawBreaker(down(y.breaker), 13), inline(LABEL, y.breaker + 2));
  put('positive-post', drawPost([RUN, y.clamp], [RUN, y.post]), inline(LABEL, y.clamp + 14));
  put('battery', drawBattery([RUN, y.battery], [42, 46]), stack(192, y.battery - 12));
  put('negative-post', drawPost([RUN, y.clampMinus], [RUN, y.postMinus]), inline(LABEL, y.postMinus + 14));
  put('ground', drawTube([TUBE, y.minus - 24], [TUBE, y.bottom - 6], 7), {
    at: [TUBE - 20, y.minus + 24],
    anchor: 'end',
    grow: 'down',
    form: 'line',
    room: 100,
  });
  put('loads', drawLamp([192, y.loads], 17), { ...inline(218, y.loads - 9), skip: 10 }, [
    ink(
      line([
        [RUN, y.loads],
        [TUBE, y.loads],
      ]),
      WEIGHT.detail,
    ),
    dot([TUBE, y.loads], 3),
  ]);
  const drip = rounded(
    [
      [RUN, y.drain],
      [164, y.drain],
      [186, y.drain],
      [186, y.drain + 4],
    ],
    8,
  );
  put('drain', drawDrop([186, y.drain + 6], 13), stack(213, y.drain + 1), [
    ink(drip, WEIGHT.detail),
    ...drawOpenSwitch([142, y.drain], [166, y.drain], -1),
  ]);
  if (input.senses === 'wire') {
    const x = RUN - 36;
    const d = rounded(
      [
        [x, y.regulator + half[0]],
        [x, y.senseEnd],
        [RUN, y.senseEnd],
      ],
      10,
    );
    members.set('sense-wire', {
      shape: box(x - 7, y.plus + 14, x + 7, y.senseEnd - 12),
      body: over(d, WEIGHT.detail),
      label: inline(LABEL, y.senseEnd + 5),
      leader: [
        [LABEL - 4, y.senseEnd],
        [RUN + 8, y.senseEnd],
      ],
    });
  }

  return {
    width: NARROW.width,
    height: y.bottom,
    text: NARROW.text,
    leading: NARROW.leading,
    wires,
    marks: [
      ...letterLeads(
        offsets.map((c) => [RUN + c + 10, y.alternator + ALTERNATOR.rotor[0] + 19]),
        NARROW.text,
      ),
      ...[y.plus, y.loads, y.drain, ...(input.senses === 'wire' ? [y.senseEnd] : [])].map((row) =>
        dot([RUN, row], 4),
      ),
    ],
    members,
    ...probePlaces(input, y, offsets, along),
    meter: { at: [3, 3], width: NARROW.meterWidth, height: input.meterHeight },
    // The lower cable lies further out, so that it passes the upper one's tag.
    lane: (_group, rank, exit) => {
      const x = 20 - rank * 11;
      return [exit, [x, exit[1]], [x, 3 + input.meterHeight]];
    },
  };
}

function probePlaces(
  input: PlanInput,
  y: Rows,
  offsets: readonly number[],
  along: readonly number[],
): Pick<LoopPlan, 'points' | 'backProbed'> {
  const places = new Map<ProbePoint, ProbePlace>();
  const backProbed = new Map<ProbePoint, readonly [ProbePlace, ProbePlace]>();
  const put = (point: ProbePoint, tip: Point, row: number, tagAt = TAG) =>
    places.set(point, {
      tip,
      from: [tagAt + 34, row],
      tag: [tagAt, row],
      exit: [tagAt, row],
      route: 'left',
    });
  const names = ['a', 'b', 'c'] as const;
  const three = offsets.length === 3;
  for (const [i, c] of offsets.entries()) {
    const tip: Point = [RUN + c, y.plug + along[i]!];
    put(`pin-${names[i]!}`, tip, y.plug + (three ? [-46, -6, 32] : [-42, 20])[i]!, 52);
    // The first pin lies nearest: its needle comes down from above, or there would be no room for one.
    if (i === 0) {
      const first = places.get('pin-a')!;
      places.set('pin-a', { ...first, from: [74, first.tag[1] + 11] });
    }
    put(`around-phase-${names[i]!}`, [RUN + c, y.plug + 54], y.plug + 54, 52);
    const side = (sign: -1 | 1): ProbePlace => ({
      tip: [RUN + c, y.plug + along[i]! + sign * 28],
      from: [87, y.plug + (sign < 0 ? -46 : 40)],
      tag: [52, y.plug + (sign < 0 ? -46 : 40)],
      exit: [52, y.plug + (sign < 0 ? -46 : 40)],
      route: 'left',
    });
    backProbed.set(`pin-${names[i]!}`, [side(-1), side(1)]);
  }
  put('regulator-positive', [RUN - 3, y.plus + 1], y.plus + 23);
  put('output-joint-in', [RUN - 3, y.joint - 19], y.joint - 15);
  put('output-joint-out', [RUN - 3, y.joint + 19], y.joint + 15);
  put('around-output-wire', [RUN, y.wire], y.wire);
  put('breaker-in', [RUN - 3, y.breaker - 22], y.breaker - 17);
  put('breaker-out', [RUN - 3, y.breaker + 22], y.breaker + 17);
  // At the regulator: the other end of the sense wire is the battery's side, where nothing of it is lost.
  if (input.senses === 'wire') {
    put('sense-end', [RUN - 38, y.plus + 14], y.loads);
    // The rows beside it belong to the joint: its needle comes up from below.
    const low = places.get('sense-end')!;
    places.set('sense-end', { ...low, from: [82, y.loads - 13] });
  }
  put('around-battery-cable', [RUN, y.clamp - 30], y.clamp - 30);
  put('clamp-positive', [RUN - 14, y.clamp], y.clamp - 2);
  put('post-positive', [RUN - 9, y.post], y.post + 2);
  put('post-negative', [RUN - 9, y.postMinus], y.postMinus - 2);
  put('clamp-negative', [RUN - 14, y.clampMinus], y.clampMinus + 2);
  // Two places that lie right of the run: the tag stands by the point, its cable passes behind the run.
  const negative: Point = [196, y.plus - 2];
  places.set('regulator-negative', {
    tip: [217, y.minus],
    from: [negative[0] + 8, negative[1] - 12],
    tag: negative,
    exit: negative,
    route: 'left',
  });
  places.set('frame', {
    tip: [TUBE - 7, y.bottom - 24],
    from: [294, y.bottom - 18],
    tag: [260, y.bottom - 18],
    exit: [260, y.bottom - 18],
    route: 'left',
  });
  return { points: places, backProbed };
}
