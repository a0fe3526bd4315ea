/** A document as Markdown, CommonMark with tables: for the page under a film, or wherever else text is pasted. */
import type { SvgNode } from '../draw/svg.ts';
import type { Block, PaperDocument } from './document.ts';

export interface MarkdownWith {
  /** Name of the file that holds a drawing; null where there is none. */
  readonly drawing: (sheet: SvgNode) => string | null;
  /** Name of the file that holds a photograph; null where it is not here. */
  readonly photo: (photo: string) => string | null;
}

export function markdownText({ title, under, blocks }: PaperDocument, include: MarkdownWith): string {
  const parts = [`# ${inline(title)}`, inline(under), ...blocks.map((block) => blockText(block, include))];
  return `${parts.filter((part) => part !== '').join('\n\n')}\n`;
}

function blockText(block: Block, include: MarkdownWith): string {
  switch (block.kind) {
    case 'heading':
      return `${'#'.repeat(block.level + 1)} ${inline(block.text)}`;
    case 'words':
      return inline(block.text);
    case 'caution':
      return `> **⚠ Caution.** ${inline(block.text)}`;
    case 'list':
      return block.items.map((item, n) => `${block.ordered ? `${n + 1}.` : '-'} ${inline(item)}`).join('\n');
    case 'rows': {
      const row = (cells: readonly string[]) => `| ${cells.map(inline).join(' | ')} |`;
      return [
        `${inline(block.caption)}:\n`,
        row(block.head),
        `|${' --- |'.repeat(block.head.length)}`,
        ...block.rows.map(row),
      ].join('\n');
    }
    case 'drawing': {
      const name = include.drawing(block.sheet);
      return name === null ? inline(block.caption) : `![${inline(block.caption)}](${name})`;
    }
    case 'photos':
      return block.photos
        .map(({ photo, about }) => {
          const name = include.photo(photo);
          return name === null ? `Photograph missing here: ${inline(about)}` : `![${inline(about)}](${name})`;
        })
        .join('\n\n');
    case 'page':
      return '---';
  }
}

/** Plain text on one line in which nothing is a sign of Markdown; CommonMark 0.31, 2.4: a backslash before any of them. */
function inline(text: string): string {
  return text
    .replace(/\p{Cc}|\p{Cs}|\s/gu, ' ')
    .trim()
    .replace(/[\\`*_{}[\]<>|~&#!]/g, '\\$&')
    .replace(/^([-+=])/, '\\$1')
    .replace(/^(\d{1,9})([.)])(?=\s|$)/, '$1\\$2');
}
