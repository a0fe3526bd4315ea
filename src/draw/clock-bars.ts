/** Locker and sealant by the clock: from when each thing may be done, over a scale of time that doubles. */
import type { Picture } from '../sum/picture.ts';
import { captions, keyTo, MARGIN } from './captions.ts';
import { type RangeScale, rangeBars } from './range-bars.ts';
import type { Room } from './sum-bench-pictures.ts';
import { type SvgNode, sheet } from './svg.ts';

const [MINUTE, HOUR, DAY] = [60, 3600, 86400];
const TICKS: readonly (readonly [number, string])[] = [
  [1, '1 s'],
  [10, '10 s'],
  [MINUTE, '1 min'],
  [5 * MINUTE, '5 min'],
  [15 * MINUTE, '15 min'],
  [HOUR, '1 h'],
  [4 * HOUR, '4 h'],
  [DAY, '1 day'],
  [3 * DAY, '3 days'],
  [14 * DAY, '14 days'],
  [100 * DAY, '100 days'],
  [1000 * DAY, '1000 days'],
];

/** Minutes and days on one scale: a doubling of time takes the same way everywhere. */
function timeScale(low: number, high: number, { width }: Room): RangeScale {
  const wide = width - 2 * MARGIN;
  const at = (time: number) => (Math.log(Math.max(time, low) / low) / Math.log(high / low)) * wide;
  return {
    x: (time) => MARGIN + Math.min(wide, at(time)),
    ticks: TICKS.flatMap(([time, words]) => (time >= low && time <= high ? [{ at: time, words }] : [])),
    words: 'time since it went on',
  };
}

export function drawClock({ rows, now, words }: Extract<Picture, { kind: 'clock' }>, room: Room): SvgNode {
  const first = Math.min(...rows.map(({ from }) => from.low));
  const last = Math.max(...rows.map(({ from }) => from.high));
  const [low, high] = [
    Math.max(0.5, Math.min(first, now !== null && now > 0 ? now : first) * 0.6),
    Math.max(last, now ?? 0) * 1.8,
  ];
  const head = captions(words, 4, room);
  const bars = rangeBars(
    rows.map((row) => ({
      words: `${row.name}: ${row.words}`,
      sure: [row.from.high, high],
      perhaps: [row.from.low, row.from.high],
    })),
    now === null ? [] : [{ at: now, look: 'brass-line' }],
    timeScale(low, high, room),
    head.bottom,
    room,
  );
  const key = keyTo(
    [
      ['perhaps', 'begins somewhere in here'],
      ['sure', 'from here on it is so'],
      ...(now === null ? [] : ([['brass-line', 'now']] as const)),
    ],
    bars.bottom,
    room,
  );
  return sheet(
    `clock ${room.shape}`,
    room.width,
    key.bottom,
    'By the clock',
    `${[...words, ...rows.map((row) => `${row.name}: ${row.words}`)].join('; ')}.`,
    [...head.nodes, ...bars.nodes, ...key.nodes],
  );
}
