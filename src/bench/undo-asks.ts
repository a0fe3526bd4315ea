/** Records of undoing: which way a fastener turns, and which screw came out of which hole. */
import { sayLength } from '../joint/say.ts';
import { threadWanted } from '../joint/screw-length.ts';
import { counting } from '../machine/counts.ts';
import { engage } from '../machine/fastener-known.ts';
import { middle } from '../machine/figure.ts';
import { field, openEntries } from '../sum/entries.ts';
import { readRow } from '../sum/row.ts';
import { type Asking, type AskKind, lacking, sound } from './ask.ts';

/** From this torque on nobody may lean on a bar without knowing the way, N·m: this project's rule. */
const MUCH = 50;

/** Lengths that differ by less are one length, m: a rule read by eye, common practice. */
const SAME_LENGTH = 0.0005;

const DIRECTION_FIELDS = [
  field('undo', 'It is undone', 'choice', 'must', 'anticlockwise', '', [
    { id: 'anticlockwise', words: 'anticlockwise' },
    { id: 'clockwise', words: 'clockwise: left-hand' },
  ]),
  field('from', 'Known from', 'text', 'must', 'the book, 6-17; or the thread seen beside the nut'),
];

/** Trap of the left-hand thread: before any long bar the way must be known. */
export const DIRECTION_ASK: AskKind = {
  ask: (asking) => {
    const { place, fastener, machine } = asking;
    if (place.phase !== 'in' || !fastener || fastener.leftHand !== null || fastener.fastener.loosens !== null)
      return null;
    const torque = fastener.fastener.torque;
    const much = torque !== null && counting(machine, torque, asking.fresh).is.high >= MUCH;
    if (!much && fastener.fastener.kind !== 'nut') return null;
    return {
      id: 'direction',
      title: `Which way does it undo: ${fastener.fastener.name}`,
      why: 'This file does not say it. A left-hand thread under a long bar the wrong way breaks, and the bike may tip.',
      looks: [],
      fields: DIRECTION_FIELDS,
    };
  },
  judge: (_asking, texts) => {
    const read = openEntries(DIRECTION_FIELDS, texts);
    read.demand('undo', 'from');
    const undo = read.empty('undo') ? '' : read.choice('undo');
    return (
      lacking([], [], read.refused()) ??
      sound({}, [
        undo === 'clockwise' ? 'LEFT-HAND THREAD: clockwise undoes it.' : 'Anticlockwise undoes it.',
      ])
    );
  },
};

const LENGTHS_LOOKS = [{ id: 'card', words: 'Each screw through the card at its own hole' }];
const lengthsField = (count: number) =>
  field('lengths', `Length of each screw, hole 1 to ${count}`, 'list', 'must', '25, 25, 30, 25 mm');

/** Screws of several holes, as they came out. */
export const LENGTHS_ASK: AskKind = {
  ask: ({ place, fastener }) => {
    const entry = fastener?.fastener;
    if (place.phase !== 'in' || !entry?.positions || entry.positions.length < 3) return null;
    return {
      id: 'lengths',
      title: `As found: ${entry.name} by hole`,
      why: 'A long screw in a short hole bottoms, or breaks out of the case; a short one strips its thread.',
      looks: LENGTHS_LOOKS,
      fields: [lengthsField(entry.positions.length)],
    };
  },
  judge: (asking, texts, yes) => {
    const count = asking.fastener?.fastener.positions?.length ?? 0;
    const read = openEntries([lengthsField(count)], texts);
    read.demand('lengths');
    const row = readRow(read, 'lengths', 'length', { above: 0, most: 0.5 }, 'is no length of a screw', 60);
    // One figure stands for all: most covers have screws of one length.
    const lengths = row?.length === 1 ? Array.from({ length: count }, () => row[0]!) : row;
    if (lengths && lengths.length !== count)
      read.blame(
        'lengths',
        `these are ${lengths.length} lengths, and there are ${count} holes: write one for each, or one for all.`,
      );
    const bad = lacking(LENGTHS_LOOKS, yes, read.refused());
    if (bad) return bad;
    const { says, stops } = weighLengths(asking, lengths!);
    return sound({ lengthsM: lengths! }, says, stops);
  },
};

/** Traps of the screw that bottoms and of too little thread; and where a length differs from the file. */
function weighLengths(
  { machine, fastener, fresh }: Asking,
  lengths: readonly number[],
): { readonly says: readonly string[]; readonly stops: readonly string[] } {
  const [says, stops]: [string[], string[]] = [[], []];
  if (!fastener) return { says, stops };
  const said = fastener.fastener.length;
  const wanted = said === null ? null : middle(counting(machine, said, fresh).is);
  const enough = fastener.thread
    ? threadWanted(fastener.thread, fastener.strength, fastener.material).engaged.low
    : null;
  for (const [n, length] of lengths.entries()) {
    const hole = `Hole ${n + 1}, ${sayLength(length)}`;
    if (wanted !== null && Math.abs(length - wanted) > SAME_LENGTH)
      says.push(`${hole}: the file says ${sayLength(wanted)}.`);
    const held = fastener.thread ? engage(fastener.thread, { ...fastener, length }) : null;
    if (held?.ok && held.bottoms)
      stops.push(`${hole}: too long for its hole, it bottoms before the head clamps. Find its own screw.`);
    else if (held && !held.ok) stops.push(`${hole}: ${held.why}`);
    else if (
      held?.ok &&
      enough !== null &&
      wanted !== null &&
      length < wanted - SAME_LENGTH &&
      held.engaged < enough
    )
      stops.push(
        `${hole}: it holds in ${sayLength(held.engaged)} of thread, and ${sayLength(enough)} is wanted. Find its own screw.`,
      );
  }
  return { says, stops };
}
