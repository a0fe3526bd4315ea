/** Headings, paragraphs, lists and cautions on the pages of a PDF. */
import type { Face } from './pdf-lettering.ts';
import { type Element, INKS, LEADING, PAPER, ROOM, type Sheet, TEXT } from './pdf-sheet.ts';

const HEADS = {
  0: { size: 21, leading: 26, before: 0, after: 4, tag: 'H1' },
  1: { size: 15, leading: 19, before: 11, after: 4, tag: 'H2' },
  2: { size: 12, leading: 16, before: 8, after: 3, tag: 'H3' },
} as const;

/** A heading is never left alone at the foot: `next` is what must follow it on its page, pt. */
export function drawHeading(sheet: Sheet, text: string, level: 0 | 1 | 2, next: number): void {
  const { size, leading, before, after, tag } = HEADS[level];
  const lines = sheet.letters.lines(text, 'hand-bold', size, ROOM);
  sheet.need(before + lines.length * leading + after + next);
  if (!sheet.isEmpty()) sheet.down(before);
  if (level === 1) sheet.doc.outline.addItem(text);
  const element = sheet.element(sheet.root, tag);
  sheet.mark(element, tag, () => {
    for (const [n, line] of lines.entries()) {
      sheet.line(spaced(line, n, lines), PAPER.side, sheet.y(), 'hand-bold', size);
      sheet.down(leading);
    }
  });
  sheet.down(after);
}

/** A space at the end of a line keeps its last word from the next one's first, for those who hear or copy it. */
function spaced(line: string, n: number, lines: readonly string[]): string {
  return n < lines.length - 1 ? `${line} ` : line;
}

/** Lines of one element that may go on overleaf, never with a single line on either side. */
export function drawLines(
  sheet: Sheet,
  element: Element,
  tag: string,
  lines: readonly string[],
  x: number,
  face: Face,
  colour?: string,
): void {
  let from = 0;
  while (from < lines.length) {
    const left = lines.length - from;
    let fits = Math.floor((sheet.left() + 0.01) / LEADING);
    if (fits < left) {
      if (left - fits === 1) fits -= 1;
      if (fits < 2) fits = 0;
    }
    if (fits < 1) {
      if (sheet.isEmpty()) fits = 1;
      else {
        sheet.turn();
        continue;
      }
    }
    const part = lines.slice(from, from + fits);
    sheet.mark(element, tag, () => {
      for (const [n, line] of part.entries()) {
        sheet.line(spaced(line, from + n, lines), x, sheet.y(), face, TEXT, colour);
        sheet.down(LEADING);
      }
    });
    from += part.length;
  }
}

export function drawParagraph(sheet: Sheet, text: string, colour?: string): void {
  const element = sheet.element(sheet.root, 'P');
  drawLines(sheet, element, 'P', sheet.letters.lines(text, 'hand', TEXT, ROOM), PAPER.side, 'hand', colour);
  sheet.down(4);
}

const INDENT = 16;

export function drawList(sheet: Sheet, items: readonly string[], ordered: boolean): void {
  const list = sheet.element(sheet.root, 'L');
  const indent = ordered ? INDENT + 6 * String(items.length).length : INDENT;
  for (const [n, item] of items.entries()) {
    const lines = sheet.letters.lines(item, 'hand', TEXT, ROOM - indent);
    sheet.need(Math.min(lines.length, 2) * LEADING);
    const entry = sheet.element(list, 'LI');
    const label = sheet.element(entry, 'Lbl');
    sheet.mark(label, 'Lbl', () =>
      sheet.line(ordered ? `${n + 1}.` : '•', PAPER.side + 3, sheet.y(), 'hand', TEXT),
    );
    drawLines(sheet, sheet.element(entry, 'LBody'), 'LBody', lines, PAPER.side + indent, 'hand');
    sheet.down(1);
  }
  sheet.down(3);
}

const SIGN = 22;

/** A caution stays in one piece where a page can hold it: sign, word, bar at its side. */
export function drawCaution(sheet: Sheet, text: string): void {
  const lines = sheet.letters.lines(`Caution: ${text}`, 'hand', TEXT, ROOM - SIGN);
  sheet.need(lines.length * LEADING + 6);
  const { doc } = sheet;
  const top = sheet.y();
  const whole = lines.length * LEADING <= sheet.left();
  sheet.ornament(() => {
    const [x, y] = [PAPER.side + 3, top + 1.5];
    doc
      .moveTo(x + 6, y)
      .lineTo(x + 12, y + 10.5)
      .lineTo(x, y + 10.5)
      .closePath()
      .lineWidth(1.3)
      .lineJoin('round')
      .strokeColor(INKS.danger)
      .stroke();
    doc
      .moveTo(x + 6, y + 3.6)
      .lineTo(x + 6, y + 6.6)
      .lineWidth(1.3)
      .stroke();
    doc
      .circle(x + 6, y + 8.6, 0.75)
      .fillColor(INKS.danger)
      .fill();
    if (whole)
      doc
        .rect(PAPER.side - 6, top, 3, lines.length * LEADING)
        .fillColor(INKS.danger)
        .fill();
  });
  const element = sheet.element(sheet.root, 'P');
  const word = 'Caution:';
  const [first = '', ...rest] = lines;
  sheet.mark(element, 'P', () => {
    const x = PAPER.side + SIGN;
    const shift = sheet.letters.width(word, 'hand-bold', TEXT) - sheet.letters.width(word, 'hand', TEXT);
    sheet.line(word, x, top, 'hand-bold', TEXT, INKS.danger);
    // The bold word is wider: the line it begins was broken for the plain one, and the margin takes the difference.
    sheet.line(
      first.slice(word.length) + (rest.length > 0 ? ' ' : ''),
      x + shift + sheet.letters.width(word, 'hand', TEXT),
      top,
      'hand',
      TEXT,
    );
    sheet.down(LEADING);
  });
  drawLines(sheet, element, 'P', rest, PAPER.side + SIGN, 'hand');
  sheet.down(6);
}

/** Height of the beginning of a text that must not be parted from its heading, pt. */
export function firstOfText(sheet: Sheet, text: string, room = ROOM): number {
  const count = sheet.letters.lines(text, 'hand', TEXT, room).length;
  return Math.min(count, count <= 3 ? count : 2) * LEADING;
}
