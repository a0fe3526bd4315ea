/** What was typed into a sum, kept in this tab: a reload, or a look at something else, loses nothing. */

import type { SumHead } from '../sum/heads.ts';
import type { Texts } from '../sum/sum.ts';

export interface Shelf {
  readonly getItem: (key: string) => string | null;
  readonly setItem: (key: string, text: string) => void;
  readonly removeItem: (key: string) => void;
}

const keyOf = (sum: SumHead): string => `sum ${sum.id}`;
/** Longest text of one field, characters: a row of sixty readings or a dozen wrenches is shorter. */
export const MOST_TEXT = 1200;

/** Texts the sum starts with where nothing was typed. */
export function initialTexts(sum: SumHead): Texts {
  return Object.fromEntries(sum.fields.map(({ id, initial }) => [id, initial]));
}

/** Texts typed before; what is no text of a field of this sum is passed over. */
export function keptTexts(sum: SumHead, shelf: Shelf): Texts {
  const texts: Record<string, string> = { ...initialTexts(sum) };
  try {
    const kept: unknown = JSON.parse(shelf.getItem(keyOf(sum)) ?? '{}');
    if (typeof kept !== 'object' || kept === null) return texts;
    for (const [id, text] of Object.entries(kept))
      if (Object.hasOwn(texts, id) && typeof text === 'string') texts[id] = text.slice(0, MOST_TEXT);
  } catch {
    // Another program's, or nothing that can be read: the sum starts as new.
  }
  return texts;
}

/** Keeps them; a tab that may keep nothing goes on without. */
export function keepTexts(sum: SumHead, texts: Texts, shelf: Shelf): void {
  try {
    shelf.setItem(keyOf(sum), JSON.stringify(texts));
  } catch {
    // A full or forbidden store: what is on the screen stays there.
  }
}

export function dropTexts(sum: SumHead, shelf: Shelf): void {
  try {
    shelf.removeItem(keyOf(sum));
  } catch {
    // As above.
  }
}

/** Whether any field differs from how the sum starts. */
export function touched(sum: SumHead, texts: Texts): boolean {
  return sum.fields.some(({ id, initial }) => (texts[id] ?? '') !== initial);
}
