/**
 * Room `sum`: the calculations of the workshop without a job. Each sum is one file: its fields as data, and a function
 * from the texts a person wrote to results in both unit systems, or to one sentence for each field that cannot be used.
 * The sciences do the arithmetic; this room reads the texts, decides which field is left to be solved, and says it.
 *
 * This file: the shape every sum has.
 */
import type { Kind } from '../units/kind.ts';
import type { Picture } from './picture.ts';

export interface Choice {
  readonly id: string;
  readonly words: string;
}

export interface Field {
  readonly id: string;
  readonly words: string;
  /** Kind of quantity; 'choice' for one of `choices`, 'text' for anything the sum reads itself, 'list' for several of it. */
  readonly kind: Kind | 'choice' | 'text' | 'list';
  /** `solve`: may be left empty, and is then worked out from the others. */
  readonly need: 'must' | 'may' | 'solve';
  /** Text it starts with; empty for most. */
  readonly initial: string;
  /** How one may write it. */
  readonly example: string;
  readonly choices?: readonly Choice[];
}

export interface Line {
  readonly id: string;
  readonly words: string;
  /** Printed figure or interval in each system; the same text where the systems agree. */
  readonly metric: string;
  readonly inch: string;
  /** One sentence. */
  readonly says: string;
}

export interface Fault {
  /** Field it stands in; null where several do not go together. */
  readonly field: string | null;
  readonly why: string;
}

export interface Reckoned {
  readonly ok: true;
  readonly lines: readonly Line[];
  readonly cautions: readonly string[];
  /** Those of the cautions that warn of nothing: what was taken for granted, who has the last word. */
  readonly notes?: readonly string[];
  readonly picture: Picture | null;
  /** Field that was empty and is worked out; null where none was. */
  readonly solvedFor: string | null;
}

export interface Refused {
  readonly ok: false;
  readonly faults: readonly Fault[];
}

/** What a person wrote, by field; a field left out has its initial text. */
export type Texts = Readonly<Record<string, string>>;

export interface Sum {
  readonly id: string;
  readonly words: string;
  readonly about: string;
  readonly fields: readonly Field[];
  /** Texts that show it at work. */
  readonly example: Texts;
  readonly reckon: (texts: Texts) => Reckoned | Refused;
}

/** What every result that rests on friction or on an estimate says. */
export const BOOK_WINS = 'This is an estimate; the book wins.';
