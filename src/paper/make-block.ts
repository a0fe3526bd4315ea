/** Blocks made in one word. */
import type { SvgNode } from '../draw/svg.ts';
import type { Block } from './document.ts';

export const heading = (level: 1 | 2, text: string): Block => ({ kind: 'heading', level, text });
export const words = (text: string): Block => ({ kind: 'words', text });
export const drawing = (sheet: SvgNode, caption: string): Block => ({ kind: 'drawing', sheet, caption });
/** None where there is nothing to list. */
export const list = (items: readonly string[]): readonly Block[] =>
  items.length === 0 ? [] : [{ kind: 'list', items, ordered: false }];
