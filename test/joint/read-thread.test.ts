/** Threads as people write them, and the sentences for what is none. */
import { describe, expect, test } from 'vitest';
import { readThread } from '../../src/joint/read-thread.ts';

function name(text: string): string {
  const read = readThread(text);
  return read.ok ? read.thread.name + (read.leftHand ? ' left' : '') : `refused: ${read.why}`;
}

describe('is read', () => {
  test.each([
    ['1/4-20', '1/4-20 UNC'],
    ['1/4-20 UNC', '1/4-20 UNC'],
    ['1/4-20UNC-2A', '1/4-20 UNC'],
    ['1/4"-28', '1/4-28 UNF'],
    ['1/4 in-28 UNF', '1/4-28 UNF'],
    ['¼–20', '1/4-20 UNC'],
    ['.3125-18', '5/16-18 UNC'],
    ['10-32', '#10-32 UNF'],
    ['#10-24', '#10-24 UNC'],
    ['No. 8-32', '#8-32 UNC'],
    ['10-24 NC', '#10-24 UNC'],
    ['1-8', '1-8 UNC'],
    ['1-14 UNF', '1-14 UNS'],
    ['1-1/8-12', '1-1/8-12 UNF'],
    ['1 1/8 - 12', '1-1/8-12 UNF'],
    ['5/8 UNF', '5/8-18 UNF'],
    ['M8', 'M8 × 1.25'],
    ['m8x1.25', 'M8 × 1.25'],
    ['M8x1,25', 'M8 × 1.25'],
    ['M10×1', 'M10 × 1'],
    ['M10-1.5', 'M10 × 1.5'],
    ['M8 coarse', 'M8 × 1.25'],
    ['M16x1.5-6g', 'M16 × 1.5'],
    ['M18*1.5', 'M18 × 1.5'],
    ['M10 x 1 LH', 'M10 × 1 left'],
    ['M10 × 1.25 mm', 'M10 × 1.25'],
    ['M10 x 1.25 pitch', 'M10 × 1.25'],
    ['3/8 x 24', '3/8-24 UNF'],
    ['3/8x16 UNC RH', '3/8-16 UNC'],
    ['3/4-16 left hand', '3/4-16 UNF left'],
  ])('%s as %s', (text, expected) => expect(name(text)).toBe(expected));
});

describe('is refused with the way out', () => {
  test.each([
    ['', 'No thread is entered'],
    ['foo', 'cannot be read as a thread'],
    ['1/4', 'can be 1/4-20 UNC or 1/4-28 UNF'],
    ['8', 'or M8'],
    ['M12 fine', 'can be M12 × 1.5 or M12 × 1.25'],
    ['M15', 'can be M15 × 1.5 or M15 × 1'],
    ['M8x30', 'names a length of 30 mm'],
    ['M8x1.25x30', 'names a length behind the thread: write the thread alone, e.g. M8 × 1.25'],
    ['5/16-18 UNC x 1-1/4', 'write the thread alone, e.g. 5/16-18 UNC'],
    ['10x32', 'cannot be read as a thread'],
    ['10x1.5', 'write M10 × 1.5'],
    ['1/4-24', 'is known as 1/4-20 UNC, 1/4-28 UNF'],
    ['M9.3', 'give its diameter and its pitch'],
    ['M6x1.1', 'e.g. 6 mm and 1.1 mm'],
    ['#1-64', 'give its diameter and its pitch'],
    ['1/4-28 UNC', 'contradicts itself'],
    ['1/4-20 UNF', 'contradicts itself'],
    ['1/4 NPT', 'pipe or Whitworth'],
    ['G1/4', 'pipe or Whitworth'],
    ['1/4-0', 'not in the table'],
    ['M0x0', 'not in the table'],
    ['x'.repeat(101), '101 characters'],
  ])('%s', (text, part) => {
    expect(name(text)).toContain('refused: ');
    expect(name(text)).toContain(part);
    // One sentence, and nothing that only a computer says.
    expect(name(text)).toMatch(/\.$/);
    expect(name(text)).not.toMatch(/NaN|undefined|null|Infinity/);
  });
});

test('no text makes it throw, and nothing is read as a thread that the text does not hold', () => {
  const pieces = [
    'M',
    '8',
    '1',
    '/',
    '4',
    '-',
    '20',
    'x',
    '×',
    '.',
    ',',
    ' ',
    '#',
    'UNC',
    'LH',
    '"',
    '½',
    '∞',
    '0',
    '1e9',
  ];
  let seed = 7;
  const next = (count: number) => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return Math.floor((seed / 2 ** 32) * count);
  };
  let readings = 0;
  for (let round = 0; round < 20_000; round++) {
    const text = Array.from({ length: 1 + next(8) }, () => pieces[next(pieces.length)]).join('');
    const read = readThread(text);
    if (!read.ok) expect(read.why).toMatch(/^[^\n]*\.$/);
    else {
      readings += 1;
      expect(text).toMatch(/\d|½/);
      if (read.thread.system === 'metric') expect(text).toMatch(/M/);
    }
  }
  expect(readings).toBeGreaterThan(20);
});
