/** The glossary has every word of the program's own catalogues, each with one sentence. */
import { describe, expect, test } from 'vitest';
import { MEMBER_NAMES } from '../../src/draw/member-names.ts';
import { FAULTS } from '../../src/fault/faults.ts';
import { REPAIRS } from '../../src/fault/repairs.ts';
import { KINDS } from '../../src/reading/catalogue.ts';
import { PLACE_NAMES } from '../../src/web/route.ts';
import { PART_WORDS } from '../../src/web/words/machine-parts.ts';
import { read } from '../house/source-files.ts';

const ENTRIES = read('docs/glossary.md')
  .split('\n')
  .flatMap((line) => {
    const match = /^\| \*\*(.+)\*\* \| (.+) \|$/.exec(line);
    return match ? [{ word: match[1]!, says: match[2]! }] : [];
  });
const WORDS = new Set(ENTRIES.map(({ word }) => word));

const titles = (table: Readonly<Record<string, { readonly title: string }>>): readonly string[] =>
  Object.values(table).map(({ title }) => title);

describe('the glossary', () => {
  test.each([
    ['station', Object.values(PLACE_NAMES)],
    ['member of the loop', Object.values(MEMBER_NAMES)],
    ['page of a machine file', titles(PART_WORDS)],
    ['fault', titles(FAULTS)],
    ['repair', titles(REPAIRS)],
    ['reading', titles(KINDS)],
  ])('has every %s', (_, words) => {
    expect(words.length).toBeGreaterThan(9);
    expect(words.filter((word) => !WORDS.has(word))).toEqual([]);
  });

  test('says each word once in its table, in one sentence', () => {
    expect(ENTRIES.length).toBeGreaterThan(150);
    for (const { word, says } of ENTRIES) expect(says, word).toMatch(/^[^.]*(?:\d\.\d[^.]*)*\.$/);
  });

  test('has its words of the trade and of the program in the order of the alphabet', () => {
    for (const heading of ['Words of the trade', 'Words of this program']) {
      const part = read('docs/glossary.md').split(`## ${heading}\n`)[1]!.split('\n## ')[0]!;
      const words = [...part.matchAll(/^\| \*\*(.+?)\*\*/gm)].map(([, word]) => word!);
      expect(words.length).toBeGreaterThan(20);
      expect(words).toEqual([...words].sort((a, b) => a.localeCompare(b, 'en')));
    }
  });
});
