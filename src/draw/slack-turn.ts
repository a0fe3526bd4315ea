/** Slack round the whole turn of a chain: a spoke for each place it was read at, the tight spot set off. */
import type { Picture } from '../sum/picture.ts';
import { captions, MARGIN } from './captions.ts';
import type { Point } from './hatch.ts';
import { textWidth } from './measure.ts';
import { dot, ink, line, WEIGHT } from './pen.ts';
import type { Room } from './sum-bench-pictures.ts';
import { el, letter, type SvgNode, sheet } from './svg.ts';

/** Radius of the ring that stands for the chain, and of its longest spoke beyond it, px. */
const RING = 50;
const LONGEST = 56;

/** Beyond so many places only every fifth has its number. */
const MOST_NUMBERED = 24;

interface Box {
  readonly x0: number;
  readonly x1: number;
  readonly y: number;
}

export function drawSlackTurn(
  { readings, tightest, covered, words }: Extract<Picture, { kind: 'slack-turn' }>,
  room: Room,
): SvgNode {
  const { width, text: size, shape } = room;
  const small = size - 1;
  const head = captions(words, 4, room);
  const reach = RING + LONGEST + small + 10;
  const centre: Point = [width / 2, head.bottom + reach + 4];
  const most = Math.max(1e-9, ...readings.map(({ slack }) => slack));
  // The first place is at the top, the turn goes to the right.
  const at = (share: number, r: number): Point => {
    const angle = share * 2 * Math.PI - Math.PI / 2;
    return [centre[0] + r * Math.cos(angle), centre[1] + r * Math.sin(angle)];
  };
  const arc = (from: number, to: number) =>
    line(Array.from({ length: 65 }, (_, n) => at(from + ((to - from) * n) / 64, RING)));
  const tips = readings.map(({ at: share, slack }) => at(share, RING + (slack / most) * LONGEST));
  const taken: Box[] = [];
  // The tight spot's own number first: where places lie on one another, the others go without.
  const order = [tightest, ...readings.keys()].filter((index, n, all) => all.indexOf(index) === n);
  const numbers = order.flatMap((index) => {
    if (readings.length > MOST_NUMBERED && index !== tightest && (index + 1) % 5 !== 0) return [];
    const how = { size: small, bold: index === tightest };
    const [x, y] = at(readings[index]!.at, RING + LONGEST + small * 0.5 + 7);
    const text = `${index + 1}${readings[index]!.odd ? '?' : ''}`;
    const half = textWidth(text, how) / 2;
    if (
      taken.some(
        (box) => x - half < box.x1 + 3 && x + half > box.x0 - 3 && Math.abs(y - box.y) < small * 1.05,
      )
    )
      return [];
    taken.push({ x0: x - half, x1: x + half, y });
    return [letter(x, y + small * 0.36, text, { ...how, anchor: 'middle' })];
  });
  const open = covered !== null && covered < 0.995;
  const low = centre[1] + reach + 6;
  const notes = [
    'spoke: slack at that place, from the ring out',
    'thick: the tight spot, set the slack there',
    ...(open ? ['dashed ring: not read yet'] : []),
    ...(readings.some(({ odd }) => odd) ? ['?: take it again'] : []),
    ...(covered === null ? ['places not counted: drawn evenly'] : []),
  ];
  return sheet(
    `slack-turn ${shape}`,
    width,
    low + notes.length * (small + 6) + 6,
    'Slack round the turn',
    `${words.join('; ')}.`,
    [
      ...head.nodes,
      ...(open
        ? [
            ink(arc(0, covered), WEIGHT.outline),
            ink(arc(covered, 1), WEIGHT.detail, { 'stroke-dasharray': '3 6' }),
          ]
        : [ink(arc(0, 1), WEIGHT.outline)]),
      ...readings.map(({ at: share }, n) =>
        n === tightest
          ? el('path', { d: line([at(share, RING), tips[n]!]), stroke: 'var(--brass)', 'stroke-width': 8 })
          : ink(line([at(share, RING), tips[n]!]), WEIGHT.detail),
      ),
      ...tips.map((tip, n) => dot(tip, n === tightest ? 6 : 3.5)),
      ...numbers,
      letter(centre[0], centre[1] - 3, 'tightest', { size: small, anchor: 'middle' }),
      letter(centre[0], centre[1] + small + 3, `place ${tightest + 1}`, {
        size: small,
        bold: true,
        anchor: 'middle',
      }),
      ...notes.map((each, n) =>
        letter(MARGIN, low + (n + 1) * (small + 6) - 4, each, { size: small, fill: 'var(--quiet)' }),
      ),
    ],
  );
}
