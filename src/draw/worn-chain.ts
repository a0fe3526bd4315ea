/** Pitches of a worn chain under those of a new one, the growth drawn larger than it is, and the wear against its limit. */
import type { Picture } from '../sum/picture.ts';
import { captions, keyTo, MARGIN, upright } from './captions.ts';
import { dot, line, WEIGHT } from './pen.ts';
import { evenScale, rangeBars } from './range-bars.ts';
import type { Room } from './sum-bench-pictures.ts';
import { el, letter, type SvgNode, sheet } from './svg.ts';

/** Growth is a hair on paper: it is drawn so many times larger. */
const LARGER = 10;
const MOST_DRAWN = 12;

/** Pins at even distances, every other pair with its plate round it. */
function row(count: number, pitch: number, y: number, brass: boolean): SvgNode[] {
  const colour = brass ? 'var(--brass)' : 'var(--ink)';
  return Array.from({ length: count + 1 }, (_, n) => MARGIN + 8 + n * pitch).flatMap((x, n) => [
    ...(n < count
      ? [
          el('path', {
            d: line([
              [x, y],
              [x + pitch, y],
            ]),
            stroke: colour,
            'stroke-width': n % 2 ? WEIGHT.outline : 7,
          }),
        ]
      : []),
    dot([x, y], 5, 'var(--ink)'),
  ]);
}

export function drawWornChain(
  { limit, wear, pitches, words }: Extract<Picture, { kind: 'worn-chain' }>,
  room: Room,
): SvgNode {
  const { width, text: size, shape } = room;
  const count = Math.min(pitches, MOST_DRAWN);
  const drawn = Math.max(0, wear ? (wear.low + wear.high) / 2 : limit);
  const most = 1 + LARGER * Math.max(drawn, limit);
  const pitch = (width - 2 * MARGIN - 20) / (count * most);
  const head = captions(words, 4, room);
  const small = size - 1;
  const first = head.bottom + small + 8;
  const second = first + 2 * small + 18;
  const end = MARGIN + 8 + count * pitch * (1 + LARGER * limit);
  const rows: SvgNode[] = [
    letter(MARGIN, first, 'new', { size: small }),
    ...row(count, pitch, first + 14, false),
    letter(MARGIN, second, wear ? 'as measured' : 'at its limit', { size: small }),
    ...upright('danger-line', end, second + 4, second + 26),
    ...row(count, pitch * (1 + LARGER * drawn), second + 14, true),
    letter(MARGIN, second + 30 + small, `growth drawn ${LARGER} times larger`, {
      size: small,
      fill: 'var(--quiet)',
    }),
  ];
  const below = second + 36 + small;
  const bars = wear
    ? rangeBars(
        [
          {
            words: wear.high > 0 ? 'longer than new' : 'not longer than new',
            sure: [0, Math.max(0, wear.low) * 100],
            perhaps: [Math.max(0, wear.low) * 100, Math.max(0, wear.high) * 100],
          },
        ],
        [{ at: limit * 100, look: 'danger-line' }],
        evenScale(Math.max(limit, wear.high) * 115, '% longer than new', room),
        below,
        room,
      )
    : { nodes: [], bottom: below };
  const key = keyTo(
    [
      ['danger-line', 'limit: here the chain is done'],
      ...(wear && wear.high > 0 ? ([['perhaps', 'what the measurement cannot tell']] as const) : []),
    ],
    bars.bottom,
    room,
  );
  return sheet(`worn-chain ${shape}`, width, key.bottom, 'Wear of the chain', `${words.join('; ')}.`, [
    ...head.nodes,
    ...rows,
    ...bars.nodes,
    ...key.nodes,
  ]);
}
