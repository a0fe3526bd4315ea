/** A machine file being written: changes, taking back, comparing, merging. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compare } from '../../src/draft/compare.ts';
import { change, openDraft, type Put, redo, undo } from '../../src/draft/draft.ts';
import { historyOf } from '../../src/draft/history.ts';
import { choicesAt, merge, type Whose } from '../../src/draft/merge.ts';
import { type Json, sameJson, writeJson } from '../../src/machine/json-value.ts';
import { readMachine } from '../../src/machine/read-machine.ts';

const FILE = JSON.parse(readFileSync('machines/ardmoor-650-pathway.json', 'utf8')) as Json;
const OTHER = JSON.parse(readFileSync('machines/pemburrow-900-carillon.json', 'utf8')) as Json;

const key = fc.oneof(fc.constantFrom('a', 'b', 'c'), fc.nat(3));
const put: fc.Arbitrary<Put> = fc.record({
  path: fc.array(key, { minLength: 1, maxLength: 4 }),
  is: fc.option(fc.oneof(fc.nat(3), fc.constant('x'), fc.constant({ a: [1] })), { nil: undefined }),
});

describe('a draft', () => {
  test('is taken back step by step to what it was, and made again to what it became', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.array(put, { maxLength: 3 }), fc.boolean()), { maxLength: 30 }),
        (touches) => {
          const first = openDraft({ a: { b: [1, 2, 3] }, c: 'd' });
          const seen = [first];
          for (const [puts, typing] of touches) {
            const next = change(seen.at(-1)!, puts, typing);
            if (next !== seen.at(-1)) seen.push(next);
          }
          const last = seen.at(-1)!;
          let back = last;
          while (back.done.length > 0) back = undo(back);
          expect(back.value).toBe(first.value);
          let again = back;
          while (again.undone.length > 0) again = redo(again);
          expect(again.value).toBe(last.value);
          expect(again.done).toEqual(last.done);
        },
      ),
    );
  });

  test('takes the keys of one field back together, those of another field apart', () => {
    const type = (draft: ReturnType<typeof openDraft>, field: string, text: string) =>
      [...text].reduce(
        (now, _, n) => change(now, [{ path: [field], is: text.slice(0, n + 1) }], true),
        draft,
      );
    const typed = type(type(openDraft({ a: '' }), 'a', '17 V'), 'b', '34 A');
    expect(typed.done).toHaveLength(2);
    expect(undo(typed).value).toEqual({ a: '17 V' });
    expect(undo(undo(typed)).value).toEqual({ a: '' });
    // After taking back, what is typed is a step of its own: nothing that was taken back is lost to a later undo.
    const anew = type(undo(typed), 'a', '18 V');
    expect(undo(anew).value).toEqual({ a: '17 V' });
  });
});

describe('two files side by side', () => {
  test('differ nowhere from themselves, and where one figure was changed there only', () => {
    expect(compare(FILE, FILE)).toEqual([]);
    const other = change(openDraft(FILE), [
      { path: ['charging', 'fuse', 'is'], is: '30 A' },
      { path: ['parts', 'spacer'], is: { name: 'spacer' } },
    ]).value;
    expect(compare(FILE, other).map(({ at }) => at)).toEqual(['$.charging.fuse', '$.parts.spacer']);
    expect(compare(other, FILE)[1]).toMatchObject({ here: { name: 'spacer' }, there: undefined });
  });

  test('all of theirs gives theirs, none of it gives mine, whatever the two say', () => {
    const all = (mine: Json, theirs: Json, whose: Whose) =>
      new Map(
        compare(mine, theirs).map(
          (one) => [one.at, choicesAt(one).includes(whose) ? whose : 'mine'] as const,
        ),
      );
    expect(sameJson(merge(FILE, OTHER, all(FILE, OTHER, 'theirs')), OTHER)).toBe(true);
    const figures = new Map([...all(FILE, OTHER, 'theirs')].filter(([at]) => !at.startsWith('$.sources')));
    const theirs = merge(FILE, OTHER, figures);
    // Only the names of sources differ, which both files use for sources of their own.
    const bare = (value: Json): unknown =>
      JSON.parse(
        JSON.stringify({ ...(value as object), sources: null }).replace(/"from":"[^"]+"/g, '"from":""'),
      );
    expect(bare(theirs)).toEqual(bare(OTHER));
    expect(readMachine(writeJson(theirs), 'merged.json').ok).toBe(true);
    expect(merge(FILE, OTHER, new Map())).toBe(FILE);
    const both = merge(FILE, OTHER, all(FILE, OTHER, 'both'));
    const read = readMachine(writeJson(both), 'both.json');
    expect(read.ok ? [] : read.problems).toEqual([]);
    expect(read.ok ? read.machine.charging.fuse.also.map(({ from }) => from) : []).toEqual(['labels-other']);
  });

  test('a source of the same id that is another source comes under a name of its own', () => {
    const mine: Json = { sources: { book: { kind: 'book', title: 'Mine' } }, charging: {} };
    const theirs: Json = {
      sources: { book: { kind: 'book', title: 'Theirs' } },
      charging: { fuse: { is: '30 A', from: 'book' } },
    };
    expect(merge(mine, theirs, new Map([['$.charging.fuse', 'theirs']]))).toEqual({
      sources: { book: { kind: 'book', title: 'Mine' }, 'book-2': { kind: 'book', title: 'Theirs' } },
      charging: { fuse: { is: '30 A', from: 'book-2' } },
    });
    expect(() => merge(mine, theirs, new Map([['$.charging.fuse', 'both']]))).toThrow(/fuse.*both/);
  });
});

test('what a figure was is told change by change, from the version at which it changed', () => {
  const version = (n: number, amps: string | undefined) => ({
    version: n,
    savedAt: `2026-01-0${n}T10:00:00.000Z`,
    value: { charging: amps === undefined ? {} : { fuse: { is: amps } } },
  });
  const stood = historyOf(
    [version(1, undefined), version(2, '30 A'), version(3, '30 A'), version(4, '40 A')],
    ['charging', 'fuse', 'is'],
  );
  expect(stood.map(({ from, is }) => [from, is])).toEqual([
    [1, undefined],
    [2, '30 A'],
    [4, '40 A'],
  ]);
});
