/** A screw cut open, what it clamps and what holds its thread, and its pull against its proof load. */
import type { Picture } from '../sum/picture.ts';
import { captions, keyTo, type Look } from './captions.ts';
import { box, hatch, type Point } from './hatch.ts';
import { ink, line, WEIGHT } from './pen.ts';
import { evenScale, type RangeMark, rangeBars } from './range-bars.ts';
import type { Room } from './sum-bench-pictures.ts';
import { el, letter, type SvgNode, sheet } from './svg.ts';

/** Diameter of the screw and height of what it clamps, px: the clamped length is not known, and not to scale. */
const THICK = 38;
const CLAMPED = 64;
/** Thread engaged in diameters, as drawn. */
const MOST_ENGAGED = 3;
/** Between the words and the head of the screw, px. */
const GAP = 8;
/** Share of proof above which the bar runs out of the frame. */
const MOST_SHARE = 3;

function rect(x0: number, y0: number, x1: number, y1: number, fill: string, weight: number): SvgNode {
  return el('rect', {
    x: x0,
    y: y0,
    width: x1 - x0,
    height: y1 - y0,
    fill,
    stroke: 'var(--ink)',
    'stroke-width': weight,
  });
}

/** Arrow from one point straight to another, px. */
function arrow(x: number, from: number, to: number): string {
  const way = Math.sign(to - from);
  return (
    line([
      [x, from],
      [x, to],
    ]) +
    line([
      [x - 6, to - way * 9],
      [x, to],
      [x + 6, to - way * 9],
    ])
  );
}

function section(top: number, engaged: number | null, { width, text: size }: Room): SvgNode[] {
  const x = width * 0.32;
  const half = THICK / 2;
  const face = top + 28 + CLAMPED;
  const deep = Math.max(10, Math.min(MOST_ENGAGED, engaged ?? 0.9) * THICK);
  const tip = face + deep + (engaged === null ? 8 : 0);
  const wide = THICK * 1.9;
  const thread: [Point, Point][] = [-half, half].map((side) => [
    [x + side, face + 2],
    [x + side, face + deep - 2],
  ]);
  const beside = (y: number, text: string) =>
    letter(x + wide + 12, y + size * 0.33, text, { size: size - 1 });
  return [
    ...(engaged === null
      ? [rect(x - THICK * 0.9, face, x + THICK * 0.9, face + deep, 'var(--paper)', WEIGHT.outline)]
      : [
          rect(x - wide, face, x + wide, tip + 22, 'var(--paper)', WEIGHT.outline),
          ...hatch(box(x - wide, face, x + wide, tip + 22), 1),
          rect(x - half, face, x + half, tip + 8, 'var(--paper)', WEIGHT.hair),
        ]),
    rect(x - wide, face - CLAMPED, x + wide, face, 'var(--paper)', WEIGHT.outline),
    rect(x - half, face - CLAMPED, x + half, tip, 'var(--paper)', WEIGHT.outline),
    rect(x - THICK * 0.8, top + 2, x + THICK * 0.8, face - CLAMPED, 'var(--ink)', WEIGHT.outline),
    ...thread.map((ends) =>
      el('path', {
        d: line(ends),
        stroke: 'var(--brass)',
        'stroke-width': 7,
        'stroke-dasharray': '3 3',
        'stroke-linecap': 'butt',
      }),
    ),
    el('path', {
      d: arrow(x, face - CLAMPED / 2 - 5, face - CLAMPED + 7) + arrow(x, face - CLAMPED / 2 + 5, face - 7),
      stroke: 'var(--brass)',
      'stroke-width': 3.5,
    }),
    beside(face - CLAMPED / 2, 'clamped'),
    beside(face + Math.max(deep / 2, size * 0.7), engaged === null ? 'nut' : 'tapped part'),
    ink(
      line([
        [x + half + 6, face - CLAMPED / 2],
        [x + wide + 8, face - CLAMPED / 2],
      ]),
      WEIGHT.hair,
    ),
  ];
}

export function drawPulledBolt(picture: Extract<Picture, { kind: 'pulled-bolt' }>, room: Room): SvgNode {
  const { diameter, engaged, share, wanted, bar, words } = picture;
  const head = captions(words, 4, room);
  const shape = engaged === null ? null : engaged / diameter;
  const deep = Math.max(10, Math.min(MOST_ENGAGED, shape ?? 0.9) * THICK);
  const low = head.bottom + GAP + 28 + CLAMPED + deep + 36;
  const percent = (value: number) => Math.min(value, MOST_SHARE) * 100;
  const marks: RangeMark[] = [{ at: 100, look: 'danger-line' }];
  if (wanted !== null) marks.unshift({ at: percent(wanted), look: 'brass-line' });
  const bars = rangeBars(
    [
      {
        words: share.high > MOST_SHARE ? `${bar}, cut off at ${MOST_SHARE * 100} %` : bar,
        sure: [0, percent(share.low)],
        perhaps: [percent(share.low), percent(share.high)],
      },
    ],
    marks,
    evenScale(Math.max(105, percent(share.high)), '% of the proof load', room),
    low,
    room,
  );
  const looks: (readonly [Look, string])[] = [
    ['perhaps', 'what friction and wrench leave open'],
    ...(wanted === null ? [] : ([['brass-line', 'wanted']] as const)),
    ['danger-line', 'proof load: above it the screw stays longer'],
  ];
  const key = keyTo(looks, bars.bottom, room);
  return sheet(
    `pulled-bolt ${room.shape}`,
    room.width,
    key.bottom,
    'Pull of the screw',
    `${words.join('; ')}.`,
    [...head.nodes, ...section(head.bottom + GAP, shape, room), ...bars.nodes, ...key.nodes],
  );
}
