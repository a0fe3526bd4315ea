/**
 * Room `sum`: the calculations of the workshop without a job. Each sum is one file: its fields as data, and a function
 * from the texts a person wrote to results in both unit systems, or to one sentence for each field that cannot be used.
 * The sciences do the arithmetic; this room reads the texts, decides which field is left to be solved, and says it.
 *
 * This file: the shape every sum has.
 */
import type { Kind } from '../units/kind.ts';

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

/** What a drawing of the result needs, lengths in m, angles in rad. */
export type Picture =
  | {
      readonly kind: 'lever';
      readonly length: number;
      readonly adapter: number;
      readonly angle: number;
      readonly set: string;
      readonly torque: string;
    }
  | {
      readonly kind: 'wrench-ranges';
      /** What each wrench can be trusted with at the screw, and its best part, N·m. */
      readonly rows: readonly {
        readonly name: string;
        readonly low: number;
        readonly high: number;
        readonly best: { readonly low: number; readonly high: number } | null;
        readonly taken: boolean;
      }[];
      /** Torque at the screw, drag included, N·m. */
      readonly target: number;
      readonly words: string;
    }
  | {
      readonly kind: 'screw-hole';
      /** Lengths from the face of the tapped part, m; `reach` is how far the screw goes in. */
      readonly diameter: number;
      readonly pitch: number;
      readonly length: number;
      readonly clamped: number;
      readonly reach: number;
      readonly chamfer: number;
      readonly threadDepth: number | null;
      readonly holeDepth: number | null;
      readonly bottoms: boolean;
      readonly words: readonly string[];
    }
  | {
      readonly kind: 'bolt-map';
      readonly places: readonly { readonly x: number; readonly y: number }[];
      readonly order: readonly number[];
      /** What is written at each screw, such as its length; left out for nothing. */
      readonly labels?: readonly string[];
    }
  | {
      readonly kind: 'slack';
      readonly centre: number;
      /** Pitch radii of both sprockets. */
      readonly radii: readonly [number, number];
      /** Whole movement of the strand. */
      readonly now: number;
      /** What is said beside it, the weightiest first. */
      readonly words: readonly string[];
    }
  | {
      readonly kind: 'lift';
      readonly halfWidth: number;
      /** From the bike's middle to the hand, and the hand above the support. */
      readonly offset: number;
      readonly height: number;
      readonly way: 'down' | 'up' | 'sideways' | 'along';
      readonly words: readonly string[];
    }
  | {
      readonly kind: 'shim-stack';
      /** From the bottom up, each shim on its own. */
      readonly shims: readonly { readonly thickness: number; readonly words: string }[];
      readonly total: string;
      readonly wanted: string;
      readonly fits: boolean;
    };

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
