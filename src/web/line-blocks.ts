/** A long text cut into blocks of lines, so that a browser lays out only those in view. */

/** Lines in a block, count: a screen shows some twenty, so that two or three blocks are in view. */
export const BLOCK_LINES = 50;

export interface LineBlock {
  /** Where it begins in the whole text, letters from its start. */
  readonly at: number;
  /** How many lines it has, count. */
  readonly lines: number;
  /** The numbers of its lines, one a line. */
  readonly numbers: string;
  /** Its lines, each with its line end. */
  readonly words: string;
}

/** The blocks of a text, in its order; together their words are the text and one line end more. */
export function lineBlocks(text: string): readonly LineBlock[] {
  const lines = text.split('\n');
  const blocks: LineBlock[] = [];
  for (let first = 0, at = 0; first < lines.length; first += BLOCK_LINES) {
    const some = lines.slice(first, first + BLOCK_LINES);
    const words = `${some.join('\n')}\n`;
    const numbers = some.map((_, index) => `${first + index + 1}\n`).join('');
    blocks.push({ at, lines: some.length, numbers, words });
    at += words.length;
  }
  return blocks;
}

/** How many letters the longest line has, count. A tab counts as two, as it is shown. */
export function longestLine(text: string): number {
  return text.split('\n').reduce((most, line) => Math.max(most, line.replaceAll('\t', '  ').length), 0);
}
