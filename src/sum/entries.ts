/** Reads the texts of a sum's fields once, and gathers one sentence for each that cannot be used. */
import type { Kind } from '../units/kind.ts';
import { parseRange } from '../units/parse.ts';
import { printBoth } from '../units/print.ts';
import type { Quantity } from '../units/quantity.ts';
import type { Fault, Field, Refused, Texts } from './sum.ts';

export interface Span {
  readonly low: number;
  readonly high: number;
  /** How it was read, as `units` echoes it. */
  readonly echo: string;
}

/** Limits in SI units; `above` excludes its own value. */
export interface Limits {
  readonly above?: number;
  readonly least?: number;
  readonly most: number;
}

export interface Entries {
  /** Whether a field is left empty. */
  readonly empty: (id: string) => boolean;
  readonly text: (id: string) => string;
  /** How one may write it. */
  readonly example: (id: string) => string;
  /** A range; null where it is empty or refused. */
  readonly span: (id: string, limits: Limits) => Span | null;
  /** A single figure in SI units; null as `span`. */
  readonly one: (id: string, limits: Limits) => number | null;
  readonly whole: (id: string, least: number, most: number) => number | null;
  /** One of the field's choices. */
  readonly choice: (id: string) => string;
  readonly blame: (field: string | null, why: string) => null;
  /** Blames fields that must be there and are not. */
  readonly demand: (...ids: readonly string[]) => void;
  /** Refused when anything was blamed. */
  readonly refused: () => Refused | null;
}

/** The sentence of room `units` with an example of this field in place of one of its kind; wire gauges keep theirs. */
export function withExample(why: string, example: string): string {
  return why.includes('copper') ? why : why.replace(/\be\.g\. .*\.$/, `e.g. ${example}.`);
}

/** Of a choice that was left open: its choices stand there as buttons or in the help, and are not to be written. */
const NOT_CHOSEN = 'nothing is chosen yet.';

/** Least of a kind that anybody can mean, in SI units: what is nearer to nought is a slip, and no sum reckons with it. */
const FINEST: Readonly<Partial<Record<Kind, number>>> = {
  length: 1e-7,
  torque: 1e-4,
  force: 1e-3,
  mass: 1e-3,
};

/** Whether a figure is too near nought to be meant; nought itself is not. */
export function tooFine(kind: Kind, si: number): boolean {
  return si !== 0 && Math.abs(si) < (FINEST[kind] ?? 1e-9);
}

/** Opens the texts of a sum; words for no field of it are blamed too. */
export function openEntries(fields: readonly Field[], texts: Texts): Entries {
  const faults: Fault[] = [];
  const fieldOf = (id: string): Field => {
    const found = fields.find((field) => field.id === id);
    if (!found) throw new RangeError(`id must be a field of the sum, got ${id}`);
    return found;
  };
  const text = (id: string) => (Object.hasOwn(texts, id) ? texts[id]! : fieldOf(id).initial).trim();
  const blame = (field: string | null, why: string): null => {
    if (!faults.some((fault) => fault.field === field && field !== null))
      faults.push({ field, why: field === null ? why : `${fieldOf(field).words}: ${why}` });
    return null;
  };
  const span = (id: string, { above, least, most }: Limits): Span | null => {
    const { kind } = fieldOf(id);
    if (kind === 'choice' || kind === 'text' || kind === 'list')
      throw new RangeError(`${id} must be a quantity, got ${kind}`);
    if (text(id) === '') return null;
    const read = parseRange(text(id), kind);
    if (!read.ok) return blame(id, withExample(read.why, fieldOf(id).example));
    const [low, high] = [read.value.low.si, read.value.high.si];
    const say = (si: number) => printBoth({ kind, si } as Quantity<Kind>);
    if (tooFine(kind, low) || tooFine(kind, high))
      return blame(id, `${text(id).slice(0, 40)} is too small to be meant: check the figure and its unit.`);
    if (above !== undefined && low <= above)
      return blame(
        id,
        `${text(id)} is not above ${say(above)}: check the figure and its ${low > 0 ? 'unit' : 'sign'}.`,
      );
    if (least !== undefined && low < least)
      return blame(
        id,
        `${text(id)} is below ${say(least)}: check the figure and its ${low > 0 ? 'unit' : 'sign'}.`,
      );
    if (high > most) return blame(id, `${text(id)} is above ${say(most)}: check the figure and its unit.`);
    return { low, high, echo: read.echo };
  };
  for (const id of Object.keys(texts))
    if (!fields.some((field) => field.id === id))
      faults.push({
        field: null,
        why: `"${id.slice(0, 40)}" is no field of this sum: it has ${fields.map((each) => each.id).join(', ')}.`,
      });
  return {
    empty: (id) => text(id) === '',
    text,
    example: (id) => fieldOf(id).example,
    span,
    one: (id, limits) => {
      const read = span(id, limits);
      if (!read) return null;
      if (read.low !== read.high)
        return blame(
          id,
          `"${text(id)}" is a range, and one figure is wanted here: write e.g. ${fieldOf(id).example}.`,
        );
      return read.high;
    },
    whole: (id, least, most) => {
      if (text(id) === '') return null;
      const value = /^\d+$/.test(text(id)) ? Number(text(id)) : Number.NaN;
      if (value >= least && value <= most) return value;
      return blame(
        id,
        `"${text(id).slice(0, 40)}" is no whole number from ${least} to ${most}: write e.g. ${fieldOf(id).example}.`,
      );
    },
    choice: (id) => {
      const choices = fieldOf(id).choices ?? [];
      const found = choices.find((one) => one.id === text(id).toLowerCase());
      if (!found)
        blame(
          id,
          text(id) === ''
            ? NOT_CHOSEN
            : `"${text(id).slice(0, 40)}" is not known here: write one of ${choices.map((one) => one.id).join(', ')}.`,
        );
      return found?.id ?? '';
    },
    blame,
    demand: (...ids) => {
      for (const id of ids)
        if (text(id) === '')
          blame(
            id,
            fieldOf(id).kind === 'choice'
              ? NOT_CHOSEN
              : `nothing is entered: write e.g. ${fieldOf(id).example}.`,
          );
    },
    refused: () => (faults.length > 0 ? { ok: false, faults } : null),
  };
}

/** A field in a few words. */
export function field(
  id: string,
  words: string,
  kind: Field['kind'],
  need: Field['need'],
  example: string,
  initial = '',
  choices?: Field['choices'],
): Field {
  return { id, words, kind, need, example, initial, ...(choices ? { choices } : {}) };
}

/** Choices "yes" and "no". */
export const YES_NO = [
  { id: 'yes', words: 'yes' },
  { id: 'no', words: 'no' },
] as const;
