/**
 * Room `paper`: what is handed over, as data: the record of a job, the owner's page, the how-to, with their headings,
 * rows, drawings and photographs. A document knows nothing of pages or pixels: the browser prints it, `press` makes a
 * PDF of it, and both say the same. Beside the documents live the texts that go with them: chapters of a film, dates
 * to remember.
 *
 * This file: the shape of a document.
 */
import type { SvgNode } from '../draw/svg.ts';

export type Block =
  /** Levels are never skipped; the document's own title is not among the blocks. */
  | { readonly kind: 'heading'; readonly level: 1 | 2; readonly text: string }
  | { readonly kind: 'words'; readonly text: string }
  /** Something that can hurt: drawn with its sign and the word "Caution". */
  | { readonly kind: 'caution'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[]; readonly ordered: boolean }
  /** Every row as long as `head`; the first cell names the row. `caption` says what the table is for those who hear it. */
  | {
      readonly kind: 'rows';
      readonly caption: string;
      readonly head: readonly string[];
      readonly rows: readonly (readonly string[])[];
    }
  | { readonly kind: 'drawing'; readonly sheet: SvgNode; readonly caption: string }
  | { readonly kind: 'photos'; readonly photos: readonly Pictured[] }
  /** What follows begins on a new page. */
  | { readonly kind: 'page' };

/** A photograph as a document names it. */
export interface Pictured {
  /** SHA-256 of its bytes, 64 small hexadecimal digits. */
  readonly photo: string;
  /** What it shows, in words; never empty. */
  readonly about: string;
}

export interface PaperDocument {
  readonly title: string;
  /** A line under the title: the bike, and whether it is invented. */
  readonly under: string;
  /** When it was put together, ISO 8601 in UTC; the only date that is not of the log. */
  readonly at: string;
  readonly blocks: readonly Block[];
}
