import type { Member } from '../fault/catalogue.ts';
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
import type { LabelPlace, LoopPlan, Placed, PlanInput } from './loop-plan.ts';
import { placeWideProbes, WIDE_LINES } from './loop-wide-probes.ts';
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
  drawStub,
  drawTerminal,
  drawTube,
} from './symbols.ts';

export const WIDE = {
  width: 1120,
  height: 600,
  text: 20,
  leading: 23,
  meterWidth: 244,
  meterLeast: 110,
} as const;

const { rail: RAIL, axis: AXIS, plug: PLUG_X, battery: BATTERY_X, tube: TUBE } = WIDE_LINES;
const ALTERNATOR: AlternatorSize = { rotor: [92, 74], stator: 66, winding: 55, text: 20 };
const CENTRE: Point = [108, AXIS];
const PLUG: Point = [PLUG_X, AXIS];
const REGULATOR: Point = [425, AXIS];
const METER = WIDE_LINES.meter;

/** The wide sheet: the loop runs clockwise round the meter, labels outside, cables inside. */
export function planWide(input: PlanInput): LoopPlan {
  const { phases } = input;
  const offsets = leadOffsets(phases, ALTERNATOR.winding);
  const pins = offsets.length;
  const stagger = phases === 3 ? 24 : 28;
  const along = offsets.map((_, i) => pinAlong(i, pins, stagger));
  const breaker = input.loadsFedFrom === 'battery' ? 790 : 806;
  const loads = input.loadsFedFrom === 'battery' ? 848 : 744;

  const alternator = frameAt(CENTRE, 'right');
  const rotor = drawRotor(CENTRE, alternator, ALTERNATOR);
  const stator = drawStator(CENTRE, alternator, ALTERNATOR, phases);
  const plug = drawPlug(frameAt(PLUG, 'right'), offsets, { stagger, half: 28, wall: 20 });
  const legs = phases === 3 ? [-40, -4, 32] : [-30, 20];
  const regulator = drawRegulator(
    frameAt(REGULATOR, 'right'),
    { half: [65, 103], bus: 85, legs, taps: phases === 3 ? [-22, 0, 22] : [-14, 14], side: 18 },
    offsets,
    input.regulator,
  );
  const joint = drawJoint([572, RAIL], frameAt([572, RAIL], 'right'));
  const breakerArt = drawBreaker(frameAt([breaker, RAIL], 'right'), 15);
  const lamp = drawLamp([loads, 56], 22);
  const drop = drawDrop([954, 66], 17);
  const battery = drawBattery([BATTERY_X, 388], [45, 52]);
  const positive = drawPost([BATTERY_X, 290], [BATTERY_X, 322]);
  const negative = drawPost([BATTERY_X, 486], [BATTERY_X, 454]);
  const tube = drawTube([352, TUBE], [976, TUBE], 8);

  const wires: SvgNode[] = [
    ...drawLeads(
      alternator,
      ALTERNATOR,
      phases,
      along.map((s) => PLUG[0] + s - 24 - CENTRE[0]),
    ),
    ...offsets.map((c, i) =>
      ink(
        line([
          [PLUG[0] + along[i]! + 24, AXIS + c],
          [361, AXIS + c],
        ]),
        WEIGHT.wire,
      ),
    ),
    ink(
      line([
        [REGULATOR[0] + legs.at(-1)!, RAIL],
        [BATTERY_X, RAIL],
        [BATTERY_X, 290],
      ]),
      WEIGHT.wire,
    ),
    ink(
      line([
        [BATTERY_X, 486],
        [BATTERY_X, TUBE],
      ]),
      WEIGHT.wire,
    ),
    ink(
      line([
        [REGULATOR[0] + legs[0]!, AXIS + 85],
        [396, AXIS + 85],
        [396, TUBE],
      ]),
      WEIGHT.wire,
    ),
    ...drawTerminal([396, TUBE]),
    ...drawTerminal([BATTERY_X, TUBE]),
  ];

  const members = new Map<Member, Placed>();
  const put = (member: Member, art: Drawn, label: LabelPlace, before: readonly SvgNode[] = []) =>
    members.set(member, { shape: art.shape, body: [...before, ...art.nodes], label });
  const row = (x: number, room: number): LabelPlace => ({
    at: [x, 171],
    anchor: 'middle',
    grow: 'up',
    form: 'stack',
    room,
  });
  const beside = (y: number): LabelPlace => ({
    at: [993, y],
    anchor: 'start',
    grow: 'down',
    form: 'stack',
    room: 128,
  });

  put('rotor', rotor, row(108, 140));
  put('stator', stator, { at: [108, 404], anchor: 'middle', grow: 'down', form: 'stack', room: 140 });
  put('stator-plug', plug, row(286, 130));
  put('regulator', regulator, row(418, 110));
  put('output-joint', joint, row(572, 112));
  put(
    'output-wire',
    { shape: box(605, RAIL - 9, loads < breaker ? 732 : 748, RAIL + 9), nodes: [] },
    row(684, 106),
  );
  put('breaker', breakerArt, row(breaker, 90));
  put('positive-post', positive, beside(284));
  put('battery', battery, beside(370));
  put('negative-post', negative, beside(456));
  put('ground', tube, beside(545));
  const lampWires = [
    ...over(
      line([
        [loads, RAIL],
        [loads, 78],
      ]),
      WEIGHT.detail,
    ),
    ink(
      line([
        [loads + 22, 56],
        [loads + 44, 56],
        [loads + 44, 80],
      ]),
      WEIGHT.detail,
    ),
    ...drawStub([loads + 44, 80]),
  ];
  put(
    'loads',
    lamp,
    { at: [loads - 36, 37], anchor: 'end', grow: 'down', form: 'stack', room: 118 },
    lampWires,
  );
  const spout = rounded(
    [
      [BATTERY_X, RAIL],
      [BATTERY_X, 44],
      [954, 44],
      [954, 58],
    ],
    14,
  );
  put('drain', drop, { at: [984, 52], anchor: 'start', grow: 'down', form: 'stack', room: 132 }, [
    ink(spout, WEIGHT.detail),
    ...drawOpenSwitch([BATTERY_X, 150], [BATTERY_X, 118]),
  ]);
  if (input.senses === 'wire') {
    const d = rounded(
      [
        [470, 184],
        [470, 98],
        [884, 98],
        [884, RAIL],
      ],
      10,
    );
    members.set('sense-wire', {
      shape: box(482, 94, 872, 102),
      tone: box(482, 91, 872, 105),
      body: over(d, WEIGHT.detail),
      label: { at: [460, 92], anchor: 'end', grow: 'up', form: 'stack', room: 128 },
    });
  }

  return {
    width: WIDE.width,
    height: WIDE.height,
    text: WIDE.text,
    leading: WIDE.leading,
    wires,
    marks: [
      ...letterLeads(
        offsets.map((c) => [CENTRE[0] + 107, AXIS + c + 20]),
        WIDE.text,
      ),
      // 503: where the regulator's output can be reached before the joint.
      ...[503, loads, ...(input.senses === 'wire' ? [884] : []), BATTERY_X].map((x) => dot([x, RAIL], 4)),
    ],
    members,
    ...placeWideProbes(input, offsets, along, breaker),
    meter: { at: METER, width: WIDE.meterWidth, height: input.meterHeight },
    lane: (group, rank, exit) => {
      const right = METER[0] + WIDE.meterWidth;
      const x = right + 14 + rank * 16;
      const y = group === 'above' ? 346 + rank * 18 : 412 - rank * 18;
      return [exit, [x, exit[1]], [x, y], [right, y]];
    },
  };
}
