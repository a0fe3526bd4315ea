/** Photographs on the pages of a PDF, two beside each other, each embedded once as the JPEG it is. */
import { checkPhoto } from '../job/photo-file.ts';
import type { Pictured } from '../paper/document.ts';
import { INKS, LEADING, PAPER, ROOM, type Sheet, TEXT } from './pdf-sheet.ts';
import { drawParagraph } from './pdf-words.ts';

const GAP = 16;
const WIDE = (ROOM - GAP) / 2;
const TALLEST = 200;

interface Framed {
  readonly photo: string;
  readonly about: string;
  readonly lines: readonly string[];
  readonly image: PDFKit.Mixins.PDFImage | null;
  readonly width: number;
  readonly height: number;
}

/** Pictures by name, opened once for the whole document. */
export type Opened = Map<string, PDFKit.Mixins.PDFImage | null>;

/** Bytes of a photograph; null where it is not here. */
export type PhotoBytes = (photo: string) => Uint8Array | null;

function open(sheet: Sheet, bytesOf: PhotoBytes, opened: Opened, { photo, about }: Pictured): Framed {
  if (!opened.has(photo)) {
    const bytes = bytesOf(photo);
    opened.set(
      photo,
      bytes !== null && checkPhoto(bytes).ok
        ? (sheet.doc as unknown as { openImage(src: Buffer): PDFKit.Mixins.PDFImage }).openImage(
            Buffer.from(bytes),
          )
        : null,
    );
  }
  const image = opened.get(photo) ?? null;
  const { width, height } = (image ?? { width: 0, height: 0 }) as { width: number; height: number };
  const scale = image === null ? 0 : Math.min(WIDE / width, TALLEST / height);
  return {
    photo,
    about,
    lines: sheet.letters.lines(about, 'hand', TEXT, WIDE),
    image,
    width: width * scale,
    height: height * scale,
  };
}

function rowsOf<T>(all: readonly T[]): readonly (readonly T[])[] {
  return all.flatMap((_, n) => (n % 2 === 0 ? [all.slice(n, n + 2)] : []));
}

const tall = (row: readonly Framed[]): number =>
  Math.max(...row.map(({ height, lines }) => height + 4 + lines.length * LEADING)) + 10;

export function drawPhotos(
  sheet: Sheet,
  photos: readonly Pictured[],
  bytesOf: PhotoBytes,
  opened: Opened,
): void {
  const framed = photos.map((photo) => open(sheet, bytesOf, opened, photo));
  for (const { about } of framed.filter(({ image }) => image === null))
    drawParagraph(sheet, `Photograph missing here: ${about}`, INKS.quiet);
  for (const row of rowsOf(framed.filter(({ image }) => image !== null))) {
    sheet.need(tall(row));
    const top = sheet.y();
    for (const [n, { about, lines, image, width, height }] of row.entries()) {
      const x = PAPER.side + n * (WIDE + GAP);
      const figure = sheet.element(sheet.root, 'Figure', {
        alt: about,
        bbox: [x, top, x + width, top + height],
        placement: 'Block',
      } as object);
      sheet.mark(figure, 'Figure', () => sheet.doc.image(image as never, x, top, { width, height }));
      const caption = sheet.element(figure, 'Caption');
      sheet.mark(caption, 'Caption', () => {
        for (const [k, line] of lines.entries())
          sheet.line(
            k < lines.length - 1 ? `${line} ` : line,
            x,
            top + height + 4 + k * LEADING,
            'hand',
            TEXT,
            INKS.quiet,
          );
      });
    }
    sheet.down(tall(row));
  }
  sheet.down(2);
}

/** Height of the first row, pt. */
export function firstOfPhotos(
  sheet: Sheet,
  photos: readonly Pictured[],
  bytesOf: PhotoBytes,
  opened: Opened,
): number {
  const row = photos
    .map((photo) => open(sheet, bytesOf, opened, photo))
    .filter(({ image }) => image !== null)
    .slice(0, 2);
  return row.length === 0 ? LEADING * 2 : tall(row);
}
