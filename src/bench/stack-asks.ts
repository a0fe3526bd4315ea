/** Shims: the stack as found, numbered from the case outwards, and as built, measured again against it. */

import { sayLength } from '../joint/say.ts';
import { counting } from '../machine/counts.ts';
import { field, openEntries } from '../sum/entries.ts';
import { readRow } from '../sum/row.ts';
import { type Asking, type AskKind, type Look, lacking, sound } from './ask.ts';
import { sayInBoth } from './both-systems.ts';
import { lastRecord } from './last-record.ts';

/** Two shims that differ by less are one thickness, m: a micrometer in a garage, common practice. */
const SAME_SHIM = 0.00003;
/** Shims in one stack at most, count. */
const MOST = 12;

function shimsOf({ machine, place }: Asking): { readonly id: string; readonly name: string } | null {
  const id = (place.phase === 'in' ? place.action?.entry.shims : place.step?.shims) ?? null;
  return id === null ? null : { id, name: machine.shims?.[id]?.name ?? 'shims' };
}

const FOUND_LOOKS: readonly Look[] = [
  { id: 'numbered', words: 'Numbered from the case outwards, outer faces marked' },
  { id: 'tied', words: 'Tied in that order, a label on it' },
];
const FOUND_FIELDS = [
  field('found', 'Thickness of each, from the case outwards', 'list', 'must', '0.5, 0.5, 1.5 mm'),
];

export const STACK_FOUND_ASK: AskKind = {
  ask: (asking) => {
    const shims = shimsOf(asking);
    if (asking.place.phase !== 'in' || !shims) return null;
    return {
      id: 'stack-found',
      title: `As found: ${shims.name}`,
      why: 'Shims put back in another order or the other way round move the sprocket out of line.',
      looks: FOUND_LOOKS,
      fields: FOUND_FIELDS,
    };
  },
  judge: (_asking, texts, yes) => {
    const read = openEntries(FOUND_FIELDS, texts);
    read.demand('found');
    const row = readRow(read, 'found', 'length', { above: 0, most: 0.1 }, 'is no shim', MOST);
    const bad = lacking(FOUND_LOOKS, yes, read.refused());
    if (bad) return bad;
    return sound({ shimsM: row! }, [`${row!.length} of them, together ${sayLength(total(row!))}.`]);
  },
};

const total = (row: readonly number[]): number => row.reduce((sum, each) => sum + each, 0);
const same = (a: readonly number[], b: readonly number[]): boolean =>
  a.length === b.length && a.every((each, n) => Math.abs(each - b[n]!) <= SAME_SHIM);

const BACK_LOOKS: readonly Look[] = [{ id: 'side', words: 'The same side out, by the marks' }];
const BACK_FIELDS = [
  field('back', 'Thickness of each, from the case outwards', 'list', 'must', '0.5, 0.5, 1.5 mm'),
];

/** The stack that was found when this was taken off; null where nobody wrote it down. */
export function foundStack({ bench, place }: Asking): readonly number[] | null {
  const record = lastRecord(bench.records, place.action?.id ?? '', 'stack-found');
  const row = record?.figures.shimsM;
  return Array.isArray(row) ? row : null;
}

/** Trap of the order or the side reversed. */
export const STACK_BACK_ASK: AskKind = {
  ask: (asking) => {
    const shims = shimsOf(asking);
    if (!shims || asking.place.step?.kind !== 'shim') return null;
    const found = foundStack(asking);
    return {
      id: 'stack-back',
      title: `As built: ${shims.name}`,
      why: found
        ? `Found: ${found.map(sayLength).join(', then ')}, from the case outwards.`
        : 'Nobody wrote down how they came out: measure the stack and compare it with the book.',
      looks: BACK_LOOKS,
      fields: BACK_FIELDS,
    };
  },
  judge: (asking, texts, yes) => {
    const read = openEntries(BACK_FIELDS, texts);
    read.demand('back');
    const row = readRow(read, 'back', 'length', { above: 0, most: 0.1 }, 'is no shim', MOST);
    const bad = lacking(BACK_LOOKS, yes, read.refused());
    if (bad) return bad;
    return sound(
      { shimsM: row!, stackM: total(row!) },
      [`Together ${sayLength(total(row!))}.`],
      stops(asking, row!),
    );
  },
};

/** Whether a stack so high, m, is within what is wanted, as near as shims are told apart. */
export function stackFits(height: number, wanted: { readonly low: number; readonly high: number }): boolean {
  return height >= wanted.low - SAME_SHIM && height <= wanted.high + SAME_SHIM;
}

function stops(asking: Asking, row: readonly number[]): readonly string[] {
  const found = foundStack(asking);
  const out: string[] = [];
  if (found && !same(row, found))
    out.push(
      same(row.toReversed(), found)
        ? 'That is the order turned round: the first from the case was the last that came out. Turn the stack.'
        : same(
              row.toSorted((a, b) => a - b),
              found.toSorted((a, b) => a - b),
            )
          ? `These are the same shims in another order; found was ${found.map(sayLength).join(', then ')}.`
          : `Found was ${found.map(sayLength).join(', then ')}, together ${sayLength(total(found))}: this is another stack.`,
    );
  const id = shimsOf(asking)!.id;
  const wanted = asking.machine.shims?.[id]?.stack;
  if (wanted) {
    const { is } = counting(asking.machine, wanted, asking.fresh);
    const sum = total(row);
    if (!stackFits(sum, is))
      out.push(
        `Together it is ${sayLength(sum)}, and ${sayInBoth('length', is)} is wanted: measure the alignment before you go on.`,
      );
  }
  return out;
}
