/** Shapes of figures: quantities written as a person would write them, each with the source that says so. */
import { type EntryKind, readAs } from './entry.ts';
import { nearest } from './nearest.ts';
import { quote } from './problem.ts';
import {
  type Field,
  type Fields,
  list,
  named,
  needed,
  type OfFields,
  object,
  optional,
  refuse,
  type Shape,
  text,
} from './shape.ts';
import { type Gauge, readGauge } from './wire.ts';

/** A quantity as written, and what it means: SI, low = high unless a range was written. */
export interface Quantity {
  readonly text: string;
  readonly low: number;
  readonly high: number;
}

/** Middle of a quantity, in its SI unit. */
export function middle(quantity: Quantity): number {
  return (quantity.low + quantity.high) / 2;
}

/** What a source says: the members of the figure, the source's id, where in it, when it was taken, and a remark. */
export type Said<F extends Fields> = OfFields<F> & {
  readonly from: string;
  readonly page: string | null;
  readonly date: string | null;
  readonly note: string | null;
};

/** A figure: what one source says and, where others differ, what they say. */
export type Figure<F extends Fields> = Said<F> & { readonly also: readonly Said<F>[] };

const from: Shape<string> = named('source-id', {
  schema: () => ({ type: 'string', description: 'Id of an entry under sources.' }),
  example: '"book"',
  form: { kind: 'source' },
  read: (node, path, desk) => {
    const known = desk.sourceIds.join(', ');
    if (node.type !== 'string')
      return refuse(node, path, desk, 'the id of a source', `Write one of ${known}`);
    if (desk.sourceIds.includes(node.value)) return node.value;
    const near = nearest(node.value, desk.sourceIds);
    const fix = `${near === null ? '' : `Did you mean "${near}"? `}Add it under "sources", or write one of ${known || 'the ids there'}`;
    desk.complain(node.at, path, `there is no source ${quote(node.value)}`, fix);
    return undefined;
  },
});

const page = named('page', text(60, '8-12'));
const date = named('date', text(10, '2019-05'));
const note = named('note', text(400, 'read at the kerb'));

/**
 * A sourced figure with the given members: `{ "is": …, "from": "book", "also": [ … ] }`. `name` is what the
 * schema calls it.
 */
export function figure<F extends Fields>(name: string, fields: F): Shape<Figure<F>> {
  const source = {
    from: needed(from, 'which source says so'),
    page: optional(page, 'page or section in the source'),
    date: optional(date, 'when it was read or measured: year, year-month or year-month-day'),
    note: optional(note, 'a remark'),
  };
  const said = { ...fields, ...source };
  const also = optional(list(object(said), 6), 'what other sources say of the same figure');
  const whole = object({ ...said, also }) as Shape<Record<string, unknown>>;
  return named(name, {
    schema: whole.schema,
    example: whole.example,
    form: { kind: 'figure', fields, rest: { ...source, also } },
    read: (node, path, desk) => {
      if (node.type === 'string' || node.type === 'number' || node.type === 'boolean') {
        return refuse(node, path, desk, 'a figure with its source', `Write it like ${whole.example}`);
      }
      const read = whole.read(node, path, desk);
      return read === undefined ? undefined : ({ ...read, also: read.also ?? [] } as unknown as Figure<F>);
    },
  });
}

/** A figure with nothing but its value. `name` is what the schema calls it. */
export function plain<T>(name: string, is: Shape<T>, about: string): Shape<Figure<{ is: Field<T> }>> {
  return figure(name, { is: needed(is, about) });
}

/** Smallest and largest believable value, in the kind's SI unit, and the same in words. */
export interface Bounds {
  readonly low: number;
  readonly high: number;
  readonly words: string;
}

/** Takes the remedy off a refusal of `units` ("…: write …"), whose example may not suit this figure. */
function splitWhy(why: string, example: string): { readonly what: string; readonly fix: string } {
  const match = /^(.*): (write .*?)\.?$/.exec(why);
  if (!match) return { what: why.replace(/\.$/, ''), fix: `Write it like ${example}` };
  const remedy = match[2]!;
  const fix = remedy.includes('e.g.') ? `Write it like ${example}` : `W${remedy.slice(1)}`;
  return { what: match[1]!, fix };
}

function readEntry(kind: EntryKind, bounds: Bounds, single: boolean, example: string): Shape<Quantity> {
  const ranges = single ? '' : ', or as a range';
  return {
    schema: () => ({
      type: 'string',
      pattern: '[0-9¼-¾⅐-⅞]',
      description: `A quantity with its unit, ${bounds.words}${ranges}.`,
      examples: [JSON.parse(example)],
    }),
    example,
    form: { kind: 'quantity', bounds: bounds.words, range: !single },
    read: (node, path, desk) => {
      if (node.type === 'number') {
        return refuse(
          node,
          path,
          desk,
          'a quantity with its unit',
          `Write it as text with its unit, like ${example}`,
        );
      }
      if (node.type !== 'string') return refuse(node, path, desk, 'a quantity', `Write it like ${example}`);
      const read = readAs(node.value, kind);
      if (!read.ok) {
        const { what, fix } = splitWhy(read.why, example);
        desk.complain(node.at, path, what, fix);
        return undefined;
      }
      const { low, high } = read;
      if (single && low !== high) {
        desk.complain(
          node.at,
          path,
          `${quote(node.value)} is a range where one figure belongs`,
          `Write one, like ${example}`,
        );
        return undefined;
      }
      if (low < bounds.low || high > bounds.high) {
        const what = `${quote(node.value)} cannot be: it lies outside ${bounds.words}`;
        desk.complain(node.at, path, what, 'Check the figure, its unit and the decimal point');
        return undefined;
      }
      return { text: node.value, low, high };
    },
  };
}

/** One quantity. */
export function quantity(kind: EntryKind, bounds: Bounds, example: string): Shape<Quantity> {
  return readEntry(kind, bounds, true, JSON.stringify(example));
}

/** One quantity or a range. */
export function range(kind: EntryKind, bounds: Bounds, example: string): Shape<Quantity> {
  return readEntry(kind, bounds, false, JSON.stringify(example));
}

/** A wire size: AWG or mm². */
export const gauge: Shape<Gauge> = named('wire-gauge', {
  schema: () => ({
    type: 'string',
    pattern: '[0-9]',
    description: 'A wire size, AWG 4 to AWG 24 or 0.2 to 25 mm² of copper.',
    examples: ['AWG 14', '2.0 mm²'],
  }),
  example: '"AWG 14"',
  form: { kind: 'gauge' },
  read: (node, path, desk) => {
    if (node.type !== 'string') {
      return refuse(node, path, desk, 'a wire size', 'Write it like "AWG 14" or "2.0 mm²"');
    }
    const read = readGauge(node.value);
    if (read.ok) return read.gauge;
    desk.complain(node.at, path, read.why, 'Write it like "AWG 14" or "2.0 mm²"');
    return undefined;
  },
});
