import type { ProbePoint } from '../reading/kinds.ts';
import type { Point } from './hatch.ts';
import type { LoopPlan, PlanInput, ProbePlace } from './loop-plan.ts';

/** The lines the wide sheet is built on, px. */
export const WIDE_LINES = {
  rail: 200,
  axis: 285,
  plug: 286,
  battery: 930,
  tube: 538,
  meter: [510, 318],
} as const;

/**
 * Every place a probe can go has a fixed tag and a fixed cable, set so that any two of them leave each other
 * and every label alone. Rejected without trying: a search for free ways, because the same reading would then
 * look different from bike to bike.
 */
export function placeWideProbes(
  input: PlanInput,
  offsets: readonly number[],
  along: readonly number[],
  breaker: number,
): Pick<LoopPlan, 'points' | 'backProbed'> {
  const { rail, axis, plug, battery, tube, meter } = WIDE_LINES;
  const points = new Map<ProbePoint, ProbePlace>();
  const backProbed = new Map<ProbePoint, readonly [ProbePlace, ProbePlace]>();
  const top = meter[1];
  const bottom = top + input.meterHeight;
  const put = (
    point: ProbePoint,
    tip: Point,
    from: Point,
    tag: Point,
    route: readonly Point[] | string,
    exit?: Point,
  ) => points.set(point, { tip, from, tag, exit: exit ?? (route[0] as Point), route });

  const names = ['a', 'b', 'c'] as const;
  const three = offsets.length === 3;
  const tags: readonly Point[] = three
    ? [
        [222, 408],
        [283, 448],
        [345, 408],
      ]
    : [
        [232, 408],
        [334, 408],
      ];
  const starts: readonly Point[] = three
    ? [
        [228, 394],
        [265, 434],
        [332, 394],
      ]
    : [
        [238, 394],
        [326, 394],
      ];
  const lanes = three ? [502, 486, 470] : [494, 474];
  const sockets = three ? [592, 566, 540] : [586, 550];
  for (const [i, c] of offsets.entries()) {
    const point = `pin-${names[i]!}` as const;
    const tip: Point = [plug + along[i]!, axis + c];
    const tag = tags[i]!;
    const x = tag[0] + (i === 0 ? -8 : 0);
    const lane = lanes[i]!;
    put(point, tip, starts[i]!, tag, [
      [x, tag[1] + 14],
      [x, lane],
      [sockets[i]!, lane],
      [sockets[i]!, bottom],
    ]);
    const jaw: Point = [(three ? [322, 332, 346] : [328, 340])[i]!, tip[1]];
    put(
      `around-phase-${names[i]!}`,
      jaw,
      [340, 394],
      [340, 408],
      [
        [340, 422],
        [340, 470],
        [540, 470],
        [540, bottom],
      ],
    );
  }
  const left = points.get('pin-a')!;
  const right = points.get(three ? 'pin-c' : 'pin-b')!;
  for (const [i, c] of offsets.entries()) {
    const pin = plug + along[i]!;
    backProbed.set(`pin-${names[i]!}`, [
      { ...left, tip: [pin - 29, axis + c] },
      { ...right, tip: [347, axis + c], from: [345, right.from[1]] },
    ]);
  }

  put(
    'regulator-positive',
    [503, rail],
    [505, 268],
    [543, 282],
    [
      [566, 296],
      [566, top],
    ],
  );
  put(
    'regulator-negative',
    [396, 424],
    [414, 424],
    [455, 424],
    [
      [455, 424],
      [meter[0], 424],
    ],
  );
  put(
    'output-joint-in',
    [551, rail],
    [551, 226],
    [546, 240],
    [
      [546, 240],
      [595, 240],
      [595, top],
    ],
  );
  put(
    'output-joint-out',
    [593, rail],
    [614, 226],
    [644, 240],
    [
      [644, 254],
      [644, top],
    ],
  );
  put(
    'around-output-wire',
    [684, rail],
    [684, 238],
    [684, 252],
    [
      [684, 266],
      [684, top],
    ],
  );
  put(
    'breaker-in',
    [breaker - 24, rail],
    [breaker - 36, 226],
    [732, 240],
    [
      [712, 254],
      [712, top],
    ],
  );
  put('breaker-out', [breaker + 24, rail], [breaker + 24, 226], [breaker + 30, 240], 'above', [
    breaker - 13,
    240,
  ]);
  // At the regulator: the other end of the sense wire is the battery's side, where nothing of it is lost.
  if (input.senses === 'wire')
    put(
      'sense-end',
      [471, 174],
      [520, 83],
      [545, 68],
      [
        [590, 68],
        [597, 68],
        [597, 105],
        [864, 105],
        [864, 232],
        [736, 232],
        [736, top],
      ],
    );
  put('around-battery-cable', [battery, 244], [881, 244], [846, 244], 'above', [846, 244]);
  put('clamp-positive', [battery - 14, 290], [881, 304], [840, 304], 'above', [840, 304]);
  put('post-positive', [battery - 9, 322], [881, 338], [840, 338], 'above', [840, 338]);
  put('post-negative', [battery - 9, 454], [881, 448], [840, 448], 'below', [840, 448]);
  put('clamp-negative', [battery - 14, 486], [881, 486], [840, 486], 'below', [840, 486]);
  put(
    'frame',
    [640, tube - 8],
    [672, 512],
    [700, 498],
    [
      [700, 484],
      [700, bottom],
    ],
  );
  return { points, backProbed };
}
