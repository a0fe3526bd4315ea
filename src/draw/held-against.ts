/** Two ranges held against each other: the torque a locked screw comes off at and breaks at; what an alternator gives and what is drawn. */
import type { Picture } from '../sum/picture.ts';
import { captions, keyTo } from './captions.ts';
import { evenScale, rangeBars } from './range-bars.ts';
import type { Room } from './sum-bench-pictures.ts';
import { type SvgNode, sheet } from './svg.ts';

export function drawUndoOrBreak(
  { undo, breaks, fitted, words }: Extract<Picture, { kind: 'undo-or-break' }>,
  room: Room,
): SvgNode {
  const meet = undo.high >= breaks.low;
  const head = captions([meet ? '▲ the two ranges meet' : 'the two ranges do not meet'], 4, room);
  const bars = rangeBars(
    [
      { words: words[0], sure: null, perhaps: [undo.low, undo.high] },
      { words: words[1], sure: null, perhaps: [breaks.low, breaks.high] },
    ],
    [
      { at: fitted, look: 'brass-line' },
      { at: breaks.low, look: 'danger-line' },
    ],
    evenScale(Math.max(undo.high, breaks.high, fitted), 'torque, N·m', room),
    head.bottom,
    room,
  );
  const key = keyTo(
    [
      ['perhaps', 'somewhere in here'],
      ['brass-line', words[2]],
      ['danger-line', 'from here on it may break'],
    ],
    bars.bottom,
    room,
  );
  return sheet(
    `undo-or-break ${room.shape}`,
    room.width,
    key.bottom,
    'Comes off or breaks',
    `${words.join('; ')}. ${meet ? 'The ranges meet.' : 'The ranges do not meet.'}`,
    [...head.nodes, ...bars.nodes, ...key.nodes],
  );
}

export function drawPowerBalance(
  { rows, need, words }: Extract<Picture, { kind: 'power-balance' }>,
  room: Room,
): SvgNode {
  const head = captions(words, 4, room);
  const bars = rangeBars(
    rows.map((row) => ({
      words: `${row.name}: ${row.words}`,
      sure: [0, row.amps.low],
      perhaps: [row.amps.low, row.amps.high],
    })),
    [{ at: need, look: 'brass-line' }],
    evenScale(Math.max(need, 1, ...rows.map(({ amps }) => amps.high)), 'amps at the battery, A', room),
    head.bottom,
    room,
  );
  const key = keyTo(
    [
      ['sure', 'it gives hot and cold'],
      ['perhaps', 'more, while it is cold'],
      ['brass-line', 'drawn: what does not reach it comes from the battery'],
    ],
    bars.bottom,
    room,
  );
  return sheet(
    `power-balance ${room.shape}`,
    room.width,
    key.bottom,
    'Given and drawn',
    `${[...words, ...rows.map((row) => `${row.name}: ${row.words}`)].join('; ')}.`,
    [...head.nodes, ...bars.nodes, ...key.nodes],
  );
}
