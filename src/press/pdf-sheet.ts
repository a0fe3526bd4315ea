/** The pages of a PDF: how much room is left, what is told to those who hear it, and the foot of every page. */
import PDFDocument from 'pdfkit';
import { THEMES } from '../draw/palette.ts';
import { type Face, type Lettering, openLettering } from './pdf-lettering.ts';

export type Doc = typeof PDFDocument.prototype;
export type Element = PDFKit.PDFStructureElement;

/** A4, pt; its edges to the text, pt. */
export const PAPER = { width: 595.28, height: 841.89, side: 48, top: 44, foot: 58 } as const;
/** Width of the text, pt. */
export const ROOM = PAPER.width - 2 * PAPER.side;
/** Height of the text, pt. */
export const TALL = PAPER.height - PAPER.top - PAPER.foot;
/** Size of running text, pt. */
export const TEXT = 10.5;
/** Height of its lines, pt. */
export const LEADING = 14;
/** From the top of a line to its baseline, as a share of the size, 1. */
export const RISE = 0.98;

/** Paper is white; the rest is as in the light theme. */
export const INKS = { ...THEMES.paper, paper: '#ffffff' } as const;

export interface Sheet {
  readonly doc: Doc;
  readonly letters: Lettering;
  /** The element that holds the whole document. */
  readonly root: Element;
  /** Where the next thing begins on this page, pt from its top. */
  readonly y: () => number;
  readonly left: () => number;
  readonly down: (points: number) => void;
  /** Begins a new page unless this one is empty. */
  readonly turn: () => void;
  /** Begins a new page unless this much is left, pt. */
  readonly need: (points: number) => void;
  readonly isEmpty: () => boolean;
  /** A new element in another; a place for content or for further elements. */
  readonly element: (
    parent: Element,
    tag: string,
    options?: PDFKit.Mixins.StructureElementOptions,
  ) => Element;
  /** Draws something that is content of an element. */
  readonly mark: (element: Element, tag: string, draw: () => void) => void;
  /** Draws something that is told to nobody. */
  readonly ornament: (draw: () => void) => void;
  /** Draws one line of text, its top at `y`. */
  readonly line: (text: string, x: number, y: number, face: Face, size: number, colour?: string) => void;
}

export async function openSheet(title: string, at: string): Promise<Sheet> {
  const made = new Date(at);
  if (Number.isNaN(made.getTime())) throw new RangeError(`at must be a time in ISO 8601, got ${at}`);
  const doc = new PDFDocument({
    size: [PAPER.width, PAPER.height],
    margin: 0,
    autoFirstPage: false,
    bufferPages: true,
    pdfVersion: '1.7',
    lang: 'en',
    tagged: true,
    displayTitle: true,
    info: {
      Title: title,
      Creator: 'Chargewright',
      Producer: 'Chargewright',
      CreationDate: made,
      ModDate: made,
    },
  });
  const letters = await openLettering(doc);
  const root = doc.struct('Document');
  doc.addStructure(root);
  let y: number = PAPER.top;
  const begin = (): void => {
    doc.addPage();
    y = PAPER.top;
  };
  begin();
  const bottom = PAPER.height - PAPER.foot;
  const sheet: Sheet = {
    doc,
    letters,
    root,
    y: () => y,
    left: () => bottom - y,
    down: (points) => {
      y += points;
    },
    turn: () => {
      if (y > PAPER.top) begin();
    },
    need: (points) => {
      if (y > PAPER.top && y + points > bottom + 0.01) begin();
    },
    isEmpty: () => y <= PAPER.top,
    element: (parent, tag, options = {}) => {
      const element = doc.struct(tag, options);
      parent.add(element);
      return element;
    },
    mark: (element, tag, draw) => {
      const content = doc.markStructureContent(tag);
      draw();
      doc.endMarkedContent();
      element.add(content);
    },
    ornament: (draw) => {
      doc.markContent('Artifact', { type: 'Layout' });
      draw();
      doc.endMarkedContent();
    },
    line: (text, x, top, face, size, colour = INKS.ink) => {
      letters.draw(text, x, top + size * RISE, face, size, colour);
    },
  };
  return sheet;
}

/** Writes the foot of every page and gives the file. */
export function closeSheet({ doc, letters, root }: Sheet, title: string): Promise<Uint8Array> {
  const { start, count } = doc.bufferedPageRange();
  for (let n = start; n < start + count; n += 1) {
    doc.switchToPage(n);
    doc.markContent('Artifact', { type: 'Pagination' });
    const y = PAPER.height - 34;
    const number = `Page ${n + 1} of ${count}`;
    const width = letters.width(number, 'hand', 9);
    const room = ROOM - width - 24;
    const [first = '', ...more] = letters.lines(title, 'hand', 9, room);
    doc
      .moveTo(PAPER.side, y - 14)
      .lineTo(PAPER.width - PAPER.side, y - 14)
      .lineWidth(0.5)
      .strokeColor(INKS.quiet)
      .stroke();
    letters.draw(more.length > 0 ? `${first} …` : first, PAPER.side, y, 'hand', 9, INKS.quiet);
    letters.draw(number, PAPER.width - PAPER.side - width, y, 'hand', 9, INKS.quiet);
    doc.endMarkedContent();
  }
  root.end();
  const parts: Buffer[] = [];
  return new Promise((resolve, reject) => {
    doc.on('data', (part: Buffer) => parts.push(part));
    doc.on('end', () => resolve(new Uint8Array(Buffer.concat(parts))));
    doc.on('error', reject);
    doc.end();
  });
}
