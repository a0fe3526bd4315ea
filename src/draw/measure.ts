import { type Lettering, TIGHT } from './svg.ts';

/**
 * Widths of text without a screen. The tables are the advance widths of the two faces, measured once from the
 * font files (hundredths of an em, printable ASCII from the space on); other characters are listed or taken
 * at a generous width.
 */
const REGULAR =
  '28,29,30,65,59,92,73,16,30,30,48,61,21,36,21,39,65,41,55,58,61,59,60,51,61,59,21,21,55,63,55,48,78,63,61,64,67,57,55,69,69,39,51,63,54,82,69,71,59,72,61,59,56,69,59,86,62,57,61,32,39,34,55,37,24,52,57,48,56,54,31,56,55,25,24,49,26,84,55,55,57,57,35,47,33,54,46,68,48,45,46,34,24,34,55';
const BOLD =
  '31,30,39,76,61,97,72,21,33,33,48,59,27,37,27,44,66,44,58,60,62,61,63,54,62,57,27,27,57,61,57,55,78,68,64,66,69,60,57,72,70,42,56,66,55,86,72,75,63,76,65,61,61,69,64,89,68,65,62,34,44,34,58,40,29,55,60,51,60,56,36,59,57,30,26,55,32,88,57,58,60,60,38,51,38,57,53,74,54,52,50,38,25,38,54';
const OTHER: Readonly<Record<string, number>> = {
  '–': 50,
  '−': 61,
  '·': 29,
  '°': 39,
  Ω: 80,
  µ: 58,
  '½': 85,
  '…': 78,
  '×': 54,
  '≤': 57,
  '≥': 57,
  '±': 61,
  '\u00a0': 31,
};
const FIGURE_WIDTH = 65;

const tables = { regular: REGULAR.split(',').map(Number), bold: BOLD.split(',').map(Number) };

/** Width of one line of text at a font size of `how.size`, px. */
export function textWidth(words: string, how: Pick<Lettering, 'size' | 'bold' | 'figure'>): number {
  const table = how.bold ? tables.bold : tables.regular;
  let hundredths = 0;
  for (const character of words) {
    const code = character.codePointAt(0) ?? 0;
    hundredths += how.figure ? FIGURE_WIDTH : (table[code - 32] ?? OTHER[character] ?? 90);
  }
  if (how.figure) {
    const points = words.match(/(?<=\d)\.(?=\d)/g)?.length ?? 0;
    const spaces = words.match(/(?<=\S)[ \u00a0](?=\S)/g)?.length ?? 0;
    hundredths -= 100 * (points * (TIGHT.before + TIGHT.after) + spaces * TIGHT.space);
  }
  return (hundredths / 100) * how.size;
}

/** `words` cut so that it is at most `width` px wide, ending in an ellipsis when cut. */
export function shorten(
  words: string,
  width: number,
  how: Pick<Lettering, 'size' | 'bold' | 'figure'>,
): string {
  if (textWidth(words, how) <= width) return words;
  const characters = [...words];
  while (characters.length > 1 && textWidth(`${characters.join('').trimEnd()}…`, how) > width)
    characters.pop();
  return `${characters.join('').trimEnd()}…`;
}

/** `words` broken at spaces into lines at most `width` px wide; at most `most` lines, the last one cut to fit. */
export function wrap(
  words: string,
  width: number,
  how: Pick<Lettering, 'size' | 'bold' | 'figure'>,
  most = 3,
): string[] {
  // A figure stays with its unit: "14.1–16.3 V" never breaks before the V.
  const pieces = words
    .trim()
    .replace(/(\d) (?=\S{1,3}(\s|[,;.]|$))/g, '$1\u00a0')
    .split(/ +/);
  const lines: string[] = [];
  let line = '';
  for (const [i, piece] of pieces.entries()) {
    const longer = line === '' ? piece : `${line} ${piece}`;
    if (line === '' || textWidth(longer, how) <= width) {
      line = longer;
    } else if (lines.length === most - 1) {
      line = [line, ...pieces.slice(i)].join(' ');
      break;
    } else {
      lines.push(shorten(line, width, how));
      line = piece;
    }
  }
  if (line !== '') lines.push(shorten(line, width, how));
  return lines;
}
