/**
 * A document as a tagged PDF (ISO 32000-1, 14.8): headings, lists, tables and figures are told as such to those who hear it,
 * both faces are embedded, drawings are vectors, photographs the JPEGs they are. The same document makes the same bytes.
 * It claims no conformance to PDF/A or PDF/UA.
 */
import type { Block, PaperDocument } from '../paper/document.ts';
import { drawDrawing, heightOfDrawing } from './pdf-drawing.ts';
import { drawPhotos, firstOfPhotos, type Opened, type PhotoBytes } from './pdf-photos.ts';
import { closeSheet, INKS, LEADING, openSheet, ROOM, type Sheet } from './pdf-sheet.ts';
import { drawRows, firstOfRows } from './pdf-table.ts';
import { drawCaution, drawHeading, drawList, drawParagraph, firstOfText } from './pdf-words.ts';

export async function pdfOf(
  { title, under, at, blocks }: PaperDocument,
  photo: PhotoBytes,
): Promise<Uint8Array> {
  const sheet = await openSheet(title, at);
  const opened: Opened = new Map();
  drawHeading(sheet, title, 0, LEADING);
  drawParagraph(sheet, under, INKS.quiet);
  for (const [n, block] of blocks.entries()) {
    switch (block.kind) {
      case 'heading':
        drawHeading(sheet, block.text, block.level, firstHeight(sheet, blocks.slice(n + 1), photo, opened));
        break;
      case 'words':
        drawParagraph(sheet, block.text);
        break;
      case 'caution':
        drawCaution(sheet, block.text);
        break;
      case 'list':
        drawList(sheet, block.items, block.ordered);
        break;
      case 'rows':
        drawRows(sheet, block);
        break;
      case 'drawing':
        drawDrawing(sheet, block.sheet, block.caption);
        break;
      case 'photos':
        drawPhotos(sheet, block.photos, photo, opened);
        break;
      case 'page':
        sheet.turn();
        break;
    }
  }
  const lacking = sheet.letters.lacking();
  if (lacking > 0)
    drawParagraph(
      sheet,
      'Some letters are not in the faces of this file and stand as “?”: the browser’s own print has them.',
      INKS.quiet,
    );
  return closeSheet(sheet, title);
}

/** How much of what follows a heading must stand on its page, pt; a further heading takes what follows it along. */
function firstHeight(
  sheet: Sheet,
  [next, ...rest]: readonly Block[],
  photo: PhotoBytes,
  opened: Opened,
): number {
  switch (next?.kind) {
    case 'heading':
      return 2 * LEADING + firstHeight(sheet, rest, photo, opened);
    case 'words':
    case 'caution':
      return firstOfText(sheet, next.text);
    case 'list':
      return firstOfText(sheet, next.items[0] ?? '', ROOM - 16);
    case 'rows':
      return firstOfRows(sheet, next);
    case 'drawing':
      return heightOfDrawing(sheet, next.sheet, next.caption);
    case 'photos':
      return firstOfPhotos(sheet, next.photos, photo, opened);
    default:
      return 0;
  }
}
