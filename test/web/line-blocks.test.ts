import fc from 'fast-check';
import { expect, test } from 'vitest';
import { BLOCK_LINES, lineBlocks, longestLine } from '../../src/web/line-blocks.ts';

const texts = fc
  .array(fc.constantFrom('', '{', '  "is": "7–9 lbf·ft",', '\t"Ω"', '}'), { maxLength: 4 * BLOCK_LINES })
  .map((lines) => lines.join('\n'));

test('blocks are the text, in its order, each where it says it begins', () => {
  fc.assert(
    fc.property(texts, (text) => {
      const blocks = lineBlocks(text);
      expect(blocks.map(({ words }) => words).join('')).toBe(`${text}\n`);
      for (const { at, words } of blocks) expect(`${text}\n`.slice(at, at + words.length)).toBe(words);
    }),
  );
});

test('each line has its number, and no block more lines than fit', () => {
  fc.assert(
    fc.property(texts, (text) => {
      const blocks = lineBlocks(text);
      const numbers = blocks.flatMap((block) => block.numbers.trimEnd().split('\n').map(Number));
      expect(numbers).toEqual(text.split('\n').map((_, index) => index + 1));
      for (const { lines, words, numbers } of blocks) {
        expect(lines).toBeLessThanOrEqual(BLOCK_LINES);
        expect(words.split('\n')).toHaveLength(lines + 1);
        expect(numbers.split('\n')).toHaveLength(lines + 1);
      }
    }),
  );
});

test('an empty text is one empty line', () => {
  expect(lineBlocks('')).toEqual([{ at: 0, lines: 1, numbers: '1\n', words: '\n' }]);
});

test('the longest line, a tab as two letters', () => {
  expect(longestLine('')).toBe(0);
  expect(longestLine('ab\n\tcd\nabc')).toBe(4);
});
