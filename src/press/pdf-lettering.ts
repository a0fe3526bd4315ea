/** Letters on the pages of a PDF: which face has which letter, how wide they run, where a line breaks. */
import type PDFDocument from 'pdfkit';
import { faceFonts, otherFonts } from './faces.ts';

export type Face = 'hand' | 'hand-bold' | 'figure' | 'figure-bold';

/** Letters of one face that are drawn together. */
interface Run {
  readonly font: string;
  readonly text: string;
}

export interface Lettering {
  /** Width of a line, pt. */
  readonly width: (text: string, face: Face, size: number) => number;
  /** The text in lines no wider than `room` pt, at least one. A word that is wider is broken. */
  readonly lines: (text: string, face: Face, size: number, room: number) => readonly string[];
  /** Draws a line with its baseline at `y`. */
  readonly draw: (text: string, x: number, y: number, face: Face, size: number, colour: string) => void;
  /** Letters that none of the faces has, so far. */
  readonly lacking: () => number;
}

const FACES: readonly Face[] = ['hand', 'hand-bold', 'figure', 'figure-bold'];

/** What stands for a letter that no face has; a letter that is not here falls to pieces first ("ﬁ" to "fi"). */
const INSTEAD: Readonly<Record<string, string>> = {
  '\u2011': '-',
  '\u202f': '\u00a0',
  '\u2009': '\u00a0',
};
const UNKNOWN = '?';

/** Embeds the faces in a document. */
export async function openLettering(doc: typeof PDFDocument.prototype): Promise<Lettering> {
  const fonts = await faceFonts();
  for (const [n, face] of FACES.entries()) doc.registerFont(face, Buffer.from(fonts[n]!));
  // Only those of which a letter is drawn come into the file.
  for (const [name, [plain, bold]] of Object.entries(await otherFonts())) {
    doc.registerFont(name, Buffer.from(plain));
    doc.registerFont(`${name}-bold`, Buffer.from(bold));
  }
  const has = (font: string, code: number): boolean => {
    doc.font(font);
    const { font: face } = (
      doc as unknown as { _font: { font: { hasGlyphForCodePoint(code: number): boolean } } }
    )._font;
    return face.hasGlyphForCodePoint(code);
  };
  const known = new Map<string, string | null>();
  let lacking = 0;

  /** Which font draws a letter in a face; null where none does. */
  const fontOf = (letter: string, face: Face): string | null => {
    const key = `${face} ${letter}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const bold = face.endsWith('-bold');
    const turn = [
      face,
      bold ? 'hand-bold' : 'hand',
      bold ? 'figure-bold' : 'figure',
      bold ? 'letters-bold' : 'letters',
      bold ? 'signs-bold' : 'signs',
    ];
    const found = turn.find((font) => has(font, letter.codePointAt(0)!)) ?? null;
    known.set(key, found);
    return found;
  };

  /** The text in letters that are here. */
  const shown = (text: string, face: Face): string =>
    Array.from(text.normalize('NFC'), (letter) => {
      if (/\s/u.test(letter)) return letter === '\u00a0' ? letter : ' ';
      if (fontOf(letter, face)) return letter;
      const instead = INSTEAD[letter] ?? letter.normalize('NFKD').replaceAll('\u2044', '/');
      if (instead !== letter && Array.from(instead).every((one) => fontOf(one, face))) return instead;
      const plain = instead.replace(/\p{M}/gu, '');
      if (plain !== '' && Array.from(plain).every((one) => fontOf(one, face))) return plain;
      // A sign that only changes the one before it leaves no gap.
      if (/[\p{M}\p{Cf}]/u.test(letter)) return '';
      lacking += 1;
      return UNKNOWN;
    }).join('');

  const runs = (text: string, face: Face): readonly Run[] => {
    const found: Run[] = [];
    for (const letter of text) {
      const font =
        letter === ' ' || letter === '\u00a0' ? (found.at(-1)?.font ?? face) : (fontOf(letter, face) ?? face);
      const last = found.at(-1);
      if (last?.font === font) found[found.length - 1] = { font, text: last.text + letter };
      else found.push({ font, text: letter });
    }
    return found;
  };

  const widths = new Map<string, number>();
  const runWidth = ({ font, text }: Run, size: number): number => {
    const key = `${font} ${text}`;
    const before = widths.get(key);
    if (before !== undefined) return before * size;
    // Measured large, so that rounding is nothing.
    const width = doc.font(font).fontSize(100).widthOfString(text) / 100;
    widths.set(key, width);
    return width * size;
  };
  const plainWidth = (text: string, face: Face, size: number): number =>
    runs(text, face).reduce((sum, run) => sum + runWidth(run, size), 0);

  return {
    width: (text, face, size) => plainWidth(shown(text, face), face, size),
    lines: (text, face, size, room) =>
      text
        .split('\n')
        .flatMap((part) => brokenLines(shown(part, face), room, (line) => plainWidth(line, face, size))),
    draw: (text, x, y, face, size, colour) => {
      let at = x;
      for (const run of runs(shown(text, face), face)) {
        doc.font(run.font).fontSize(size).fillColor(colour);
        doc.text(run.text, at, y, { lineBreak: false, baseline: 'alphabetic' });
        at += runWidth(run, size);
      }
    },
    lacking: () => lacking,
  };
}

/** Lines of a text without line ends: broken at spaces, and inside a word only where it is wider than the room. */
function brokenLines(text: string, room: number, width: (line: string) => number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  let used = 0;
  const space = width(' ');
  for (const word of text.split(' ').filter(Boolean)) {
    // Word by word: each is measured once in a document, whatever line it stands on.
    const own = width(word);
    if (line !== '' && used + space + own <= room) {
      line = `${line} ${word}`;
      used += space + own;
      continue;
    }
    if (line !== '') lines.push(line);
    [line, used] = [word, own];
    while (used > room && line.length > 1) {
      const count = fitting(line, room, width);
      lines.push(line.slice(0, count));
      line = line.slice(count);
      used = width(line);
    }
  }
  return [...lines, line];
}

/** How many units of a word fit into the room, at least one letter; half a surrogate pair is none. */
function fitting(word: string, room: number, width: (line: string) => number): number {
  let count = word.length - 1;
  while (count > 1 && width(word.slice(0, count)) > room) count -= 1;
  if (!/[\ud800-\udbff]$/.test(word.slice(0, count))) return count;
  return count > 1 ? count - 1 : 2;
}
