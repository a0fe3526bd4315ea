/** Tables on the pages of a PDF: the head again on each page, rows in one piece where a page can hold them. */
import { letter } from '../draw/svg.ts';
import type { Block } from '../paper/document.ts';
import { isFigure } from '../paper/is-figure.ts';
import { drawLetter } from './pdf-drawing.ts';
import type { Face } from './pdf-lettering.ts';
import { type Element, INKS, LEADING, PAPER, RISE, ROOM, type Sheet, TALL, TEXT } from './pdf-sheet.ts';

type Rows = Extract<Block, { kind: 'rows' }>;

const GAP = 12;
const PAD = 3.5;
interface Cell {
  readonly face: Face;
  readonly lines: readonly string[];
}

export function drawRows(sheet: Sheet, { caption, head, rows }: Rows): void {
  const widths = columnWidths(sheet, head, rows);
  const heads = cells(sheet, head, widths, true);
  const body = rows.map((row) => cells(sheet, row, widths, false));
  const table = sheet.element(sheet.root, 'Table');
  sheet.need(firstOfRows(sheet, { kind: 'rows', caption, head, rows }));
  const title = sheet.element(table, 'Caption');
  const lines = sheet.letters.lines(caption, 'hand', TEXT, ROOM);
  sheet.mark(title, 'Caption', () => {
    for (const line of lines) {
      sheet.line(`${line} `, PAPER.side, sheet.y(), 'hand', TEXT, INKS.quiet);
      sheet.down(LEADING);
    }
  });
  sheet.down(2);
  const top = sheet.element(sheet.element(table, 'THead'), 'TR');
  const marks = heads.map(() => sheet.element(top, 'TH', { scope: 'Column' } as object));
  drawRow(sheet, heads, widths, (n, draw) => sheet.mark(marks[n]!, 'TH', draw));
  rule(sheet, 1);
  const again = (): void => {
    drawRow(sheet, heads, widths, (_n, draw) => sheet.ornament(draw));
    rule(sheet, 1);
  };
  const tbody = sheet.element(table, 'TBody');
  const headTall = heightOf(heads) + 2 * PAD;
  for (const row of body) {
    const entry = sheet.element(tbody, 'TR');
    const parts = row.map((_, n) =>
      n === 0 ? sheet.element(entry, 'TH', { scope: 'Row' } as object) : sheet.element(entry, 'TD'),
    );
    drawBody(sheet, row, widths, parts, again, headTall);
    rule(sheet, 0.4);
  }
  sheet.down(9);
}

/** One row, overleaf where it does not fit, in pieces only where no page holds it. */
function drawBody(
  sheet: Sheet,
  row: readonly Cell[],
  widths: readonly number[],
  parts: readonly Element[],
  again: () => void,
  headTall: number,
): void {
  const mark = (n: number, draw: () => void): void => sheet.mark(parts[n]!, n === 0 ? 'TH' : 'TD', draw);
  let rest = row;
  for (;;) {
    const tall = heightOf(rest) + 2 * PAD;
    if (tall <= sheet.left()) {
      drawRow(sheet, rest, widths, mark);
      return;
    }
    if (tall <= TALL - headTall) {
      sheet.turn();
      again();
      continue;
    }
    const count = Math.floor((sheet.left() - 2 * PAD) / LEADING);
    if (count >= 3) {
      drawRow(
        sheet,
        rest.map(({ face, lines }) => ({ face, lines: lines.slice(0, count) })),
        widths,
        mark,
      );
      rest = rest.map(({ face, lines }) => ({ face, lines: lines.slice(count) }));
    }
    sheet.turn();
    again();
  }
}

function drawRow(
  sheet: Sheet,
  row: readonly Cell[],
  widths: readonly number[],
  mark: (n: number, draw: () => void) => void,
): void {
  const top = sheet.y() + PAD;
  let x: number = PAPER.side;
  for (const [n, { face, lines }] of row.entries()) {
    const at = x;
    mark(n, () => {
      for (const [k, line] of lines.entries())
        if (face === 'figure')
          drawLetter(sheet, letter(at, top + k * LEADING + TEXT * RISE, line, { size: TEXT, figure: true }));
        else sheet.line(k < lines.length - 1 ? `${line} ` : line, at, top + k * LEADING, face, TEXT);
    });
    x += widths[n]! + GAP;
  }
  sheet.down(heightOf(row) + 2 * PAD);
}

function rule(sheet: Sheet, weight: number): void {
  const y = sheet.y();
  sheet.ornament(() => {
    sheet.doc
      .moveTo(PAPER.side, y)
      .lineTo(PAPER.side + ROOM, y)
      .lineWidth(weight)
      .strokeColor(INKS.quiet)
      .stroke();
  });
}

function heightOf(row: readonly Cell[]): number {
  return Math.max(1, ...row.map(({ lines }) => lines.length)) * LEADING;
}

function faceOf(text: string, bold: boolean): Face {
  if (bold) return 'hand-bold';
  return isFigure(text) ? 'figure' : 'hand';
}

function cells(
  sheet: Sheet,
  row: readonly string[],
  widths: readonly number[],
  bold: boolean,
): readonly Cell[] {
  return row.map((text, n) => {
    const face = faceOf(text, bold);
    return { face, lines: sheet.letters.lines(text, face, TEXT, widths[n]!) };
  });
}

/** Widths of the columns, pt: each wide enough for its longest word, the rest shared by how much there is to read. */
function columnWidths(sheet: Sheet, head: readonly string[], rows: Rows['rows']): readonly number[] {
  const room = ROOM - GAP * (head.length - 1);
  const columns = head.map((title, n) => {
    const texts = rows.map((row) => row[n] ?? '');
    const width = (text: string, bold: boolean) => sheet.letters.width(text, faceOf(text, bold), TEXT);
    const words = (text: string) => text.split(/[ \n]/);
    const longest = (bold: boolean, all: readonly string[]) =>
      Math.max(0, ...all.map((text) => width(text, bold)));
    return {
      least: Math.min(
        room / 2,
        1 +
          Math.max(
            longest(true, words(title)),
            longest(
              false,
              texts.flatMap((text) => (isFigure(text) ? [text] : words(text))),
            ),
          ),
      ),
      most:
        1 +
        Math.max(
          longest(true, [title]),
          longest(
            false,
            texts.flatMap((text) => text.split('\n')),
          ),
        ),
    };
  });
  const sum = (of: (column: (typeof columns)[number]) => number) =>
    columns.reduce((total, column) => total + of(column), 0);
  const least = sum((column) => column.least);
  if (least >= room) return columns.map((column) => (column.least / least) * room);
  if (sum((column) => column.most) <= room) {
    // A short table need not run over the whole width, but its columns should not cling to each other.
    const spare = Math.min(room - sum((column) => column.most), 40 * columns.length);
    return columns.map((column) => column.most + spare / columns.length);
  }
  // Long texts get more room, but not in proportion: a column of one long cell would starve the others.
  const want = columns.map(({ least: low, most }) => Math.sqrt(Math.max(0, most - low)));
  const all = want.reduce((total, one) => total + one, 0);
  const widths = columns.map(({ least: low }, n) => low + ((room - least) * want[n]!) / all);
  // Room that a column cannot use goes to the widest.
  let spare = 0;
  const capped = widths.map((width, n) => {
    const cap = columns[n]!.most;
    if (width <= cap) return width;
    spare += width - cap;
    return cap;
  });
  const open = capped.map((width, n) => (width < columns[n]!.most ? columns[n]!.most - width : 0));
  const opened = open.reduce((total, one) => total + one, 0);
  return capped.map((width, n) => (opened > 0 ? width + (spare * open[n]!) / opened : width));
}

/** A table up to this share of the page is not parted at all. */
const WHOLE = 0.22;

/** Height of what must not be parted from a heading: caption, head and first row, or all of a short table, pt. */
export function firstOfRows(sheet: Sheet, { caption, head, rows }: Rows): number {
  const widths = columnWidths(sheet, head, rows);
  const tall = (row: readonly string[], bold: boolean) => heightOf(cells(sheet, row, widths, bold)) + 2 * PAD;
  const title = sheet.letters.lines(caption, 'hand', TEXT, ROOM).length * LEADING + 2 + tall(head, true);
  const all = rows.map((row) => tall(row, false));
  const whole = title + all.reduce((sum, each) => sum + each, 0);
  return whole <= TALL * WHOLE ? whole : title + Math.min(all[0] ?? 0, TALL * WHOLE);
}
