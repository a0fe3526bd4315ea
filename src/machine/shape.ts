/**
 * Shapes: one definition from which both the published JSON Schema and the reading of a file come, so that the
 * two cannot drift apart. A shape can describe itself as JSON Schema 2020-12 and can read a node of a file into
 * a value, complaining at the desk about everything that does not fit. Shapes of sourced figures are in figure.ts.
 *
 * Rejected: a checking library plus a hand-written schema (two sources of truth), and a library with a schema
 * writer (its complaints know no lines, no sources and no units, so half of it would be written again here).
 */
import type { Form } from './form.ts';
import type { JsonEntry, JsonNode } from './json-text.ts';
import { nearest } from './nearest.ts';
import { memberPath, type Place, quote } from './problem.ts';

export type Schema = { readonly [key: string]: unknown };
/** Named parts of the schema under construction (`$defs`). */
export type Defs = Map<string, Schema>;

/** Where complaints go, and what the reader must know of the rest of the file. */
export interface Desk {
  readonly complain: (at: Place, path: string, what: string, fix: string) => void;
  /** Ids of the sources that the file names, for `from`. */
  readonly sourceIds: readonly string[];
}

export interface Shape<T> {
  readonly schema: (defs: Defs) => Schema;
  /** Reads a node; undefined when it does not fit, which has then been complained about. */
  readonly read: (node: JsonNode, path: string, desk: Desk) => T | undefined;
  /** A value a person would write, as JSON text: shown when it is missing. */
  readonly example: string;
  /** What kind of entry it is. */
  readonly form: Form;
}

export type Of<S> = S extends Shape<infer T> ? T : never;

/** A member of an object. `T` includes null when the member may be left out. */
export interface Field<T> {
  readonly shape: Shape<unknown>;
  readonly needed: boolean;
  readonly about: string;
  /** Never set: carries the type. */
  readonly type?: T;
}

export type Fields = Readonly<Record<string, Field<unknown>>>;
export type OfFields<F extends Fields> = {
  readonly [K in keyof F]: F[K] extends Field<infer T> ? T : never;
};

/** A member that must be there. */
export function needed<T>(shape: Shape<T>, about: string): Field<T> {
  return { shape, needed: true, about };
}

/** A member that may be left out; it then reads as null. */
export function optional<T>(shape: Shape<T>, about: string): Field<T | null> {
  return { shape, needed: false, about };
}

/** What a node is, in words. */
export function describe(node: JsonNode): string {
  switch (node.type) {
    case 'string':
      return `the text ${quote(node.value)}`;
    case 'number':
      return `the number ${node.text}`;
    case 'boolean':
      return String(node.value);
    case 'object':
      return 'an object { … }';
    case 'array':
      return 'a list [ … ]';
    default:
      return node.type;
  }
}

/** Complains that a node is of the wrong type, unless its text was already found unreadable. */
export function refuse(node: JsonNode, path: string, desk: Desk, wanted: string, fix: string): undefined {
  if (node.type !== 'bad') desk.complain(node.at, path, `${wanted} was expected, not ${describe(node)}`, fix);
  return undefined;
}

/** Puts a shape under a name in `$defs`, so that the published schema says it once. */
export function named<T>(name: string, shape: Shape<T>): Shape<T> {
  const schema = (defs: Defs): Schema => {
    if (!defs.has(name)) {
      defs.set(name, {});
      defs.set(name, shape.schema(defs));
    }
    return { $ref: `#/$defs/${name}` };
  };
  return { ...shape, schema };
}

/** A text of at most `longest` characters that is not blank. */
export function text(longest: number, example: string): Shape<string> {
  return {
    schema: () => ({ type: 'string', minLength: 1, maxLength: longest, pattern: '\\S' }),
    example: JSON.stringify(example),
    form: { kind: 'text', longest },
    read: (node, path, desk) => {
      if (node.type !== 'string') return refuse(node, path, desk, 'a text', 'Put it in double quotes');
      if (node.value.trim() === '') {
        desk.complain(node.at, path, 'the text is empty', 'Write something, or take the key out');
        return undefined;
      }
      if ([...node.value].length > longest) {
        desk.complain(node.at, path, `the text is longer than ${longest} characters`, 'Shorten it');
        return undefined;
      }
      return node.value;
    },
  };
}

/** A whole number from `low` to `high`, in steps of `step`. */
export function count(low: number, high: number, step: number, example: number): Shape<number> {
  const rule = `a whole${step === 2 ? ' even' : ''} number from ${low} to ${high}`;
  return {
    schema: () => ({
      type: 'integer',
      minimum: low,
      maximum: high,
      ...(step === 1 ? {} : { multipleOf: step }),
    }),
    example: String(example),
    form: { kind: 'count', low, high, step },
    read: (node, path, desk) => {
      if (node.type === 'string' && /^\s*\d+\s*$/.test(node.value)) {
        return refuse(node, path, desk, rule, 'Take the quotes off: it is a count, not a quantity');
      }
      if (node.type !== 'number') return refuse(node, path, desk, rule, `Write it like ${example}`);
      if (
        Number.isInteger(node.value) &&
        node.value >= low &&
        node.value <= high &&
        node.value % step === 0
      ) {
        return node.value;
      }
      desk.complain(node.at, path, `${node.text} is not ${rule}`, 'Check it against the book');
      return undefined;
    },
  };
}

/** One of a few words. */
export function choice<const W extends string>(words: readonly W[]): Shape<W> {
  const list = words.map((word) => `"${word}"`).join(' or ');
  return {
    schema: () => ({ enum: words }),
    example: `"${words[0]}"`,
    form: { kind: 'choice', words },
    read: (node, path, desk) => {
      if (node.type !== 'string')
        return refuse(node, path, desk, list, 'Put one of these words in double quotes');
      const found = words.find((word) => word === node.value);
      if (found !== undefined) return found;
      const near = nearest(node.value, words);
      const fix = near === null ? `Write ${list}` : `Did you mean "${near}"? It may be ${list}`;
      desk.complain(node.at, path, `${quote(node.value)} is not known here`, fix);
      return undefined;
    },
  };
}

/** Exactly one of a few numbers. */
export function oneOf<const N extends number>(numbers: readonly N[]): Shape<N> {
  const list = numbers.join(' or ');
  return {
    schema: () => ({ enum: numbers }),
    example: String(numbers[0]),
    form: { kind: 'numbers', numbers },
    read: (node, path, desk) => {
      const found = node.type === 'number' ? numbers.find((n) => n === node.value) : undefined;
      return found ?? refuse(node, path, desk, list, `Write ${list}, without quotes`);
    },
  };
}

/** true or false. */
export const flag: Shape<boolean> = {
  schema: () => ({ type: 'boolean' }),
  example: 'true',
  form: { kind: 'flag' },
  read: (node, path, desk) =>
    node.type === 'boolean'
      ? node.value
      : refuse(node, path, desk, 'true or false', 'Write true or false without quotes'),
};

/** An object with just these members. */
export function object<F extends Fields>(fields: F): Shape<OfFields<F>> {
  const names = Object.keys(fields);
  const shown = names.filter((name) => fields[name]!.needed);
  return {
    schema: (defs) => ({
      type: 'object',
      properties: Object.fromEntries(
        names.map((name) => [
          name,
          { description: fields[name]!.about, ...fields[name]!.shape.schema(defs) },
        ]),
      ),
      required: shown,
      additionalProperties: false,
    }),
    example: `{ ${shown.map((name) => `"${name}": ${fields[name]!.shape.example}`).join(', ')} }`,
    form: { kind: 'object', fields },
    read: (node, path, desk) => {
      if (node.type !== 'object') {
        return refuse(node, path, desk, 'an object { … }', `It holds ${names.join(', ')}`);
      }
      const entries = uniqueEntries(node.entries, path, desk);
      const misspelt = new Set<string>();
      for (const entry of entries) {
        if (Object.hasOwn(fields, entry.key)) continue;
        const near = nearest(entry.key, names);
        if (near !== null) misspelt.add(near);
        const known = `The keys known here are ${names.join(', ')}`;
        const fix =
          near === null
            ? known
            : `Did you mean "${near}"?${entries.some((e) => e.key === near) ? ' That key is there already.' : ''} ${known}`;
        desk.complain(entry.at, memberPath(path, entry.key), `the key ${quote(entry.key)} is not known`, fix);
      }
      const out: Record<string, unknown> = {};
      let whole = true;
      for (const name of names) {
        const field = fields[name]!;
        const entry = entries.find((e) => e.key === name);
        const inner = memberPath(path, name);
        if (!entry) {
          out[name] = null;
          if (!field.needed) continue;
          whole = false;
          // The key under a slip of the pen has been complained about already.
          if (misspelt.has(name)) continue;
          desk.complain(
            node.at,
            inner,
            `"${name}" is missing (${field.about})`,
            `Add "${name}": ${field.shape.example}`,
          );
          continue;
        }
        const value = field.shape.read(entry.value, inner, desk);
        if (value === undefined) whole = false;
        out[name] = value;
      }
      return whole ? (out as OfFields<F>) : undefined;
    },
  };
}

/** Entries with the second of two equal keys complained about and left out. */
export function uniqueEntries(entries: readonly JsonEntry[], path: string, desk: Desk): readonly JsonEntry[] {
  const first = new Map<string, JsonEntry>();
  for (const entry of entries) {
    const known = first.get(entry.key);
    if (known) {
      const what = `the key ${quote(entry.key)} stands here a second time (first on line ${known.at.line})`;
      desk.complain(entry.at, memberPath(path, entry.key), what, 'Keep one of the two');
    } else first.set(entry.key, entry);
  }
  return [...first.values()];
}

/** A list of at most `most` items. */
export function list<T>(item: Shape<T>, most: number): Shape<readonly T[]> {
  return {
    schema: (defs) => ({ type: 'array', items: item.schema(defs), maxItems: most }),
    example: `[${item.example}]`,
    form: { kind: 'list', item, most },
    read: (node, path, desk) => {
      if (node.type !== 'array')
        return refuse(node, path, desk, 'a list [ … ]', 'Put square brackets round it');
      if (node.items.length > most) {
        desk.complain(node.at, path, `the list is longer than ${most}`, 'Shorten it');
        return undefined;
      }
      const read = node.items.map((inner, n) => item.read(inner, `${path}[${n}]`, desk));
      return read.some((value) => value === undefined) ? undefined : (read as T[]);
    },
  };
}

const ID = /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/;

/** An object whose keys are ids the writer chooses (small letters, digits, hyphens), at least one. */
export function record<T>(item: Shape<T>, exampleId: string): Shape<Readonly<Record<string, T>>> {
  return {
    schema: (defs) => ({
      type: 'object',
      propertyNames: { pattern: ID.source, maxLength: 40 },
      additionalProperties: item.schema(defs),
      minProperties: 1,
    }),
    example: `{ "${exampleId}": ${item.example} }`,
    form: { kind: 'record', item, exampleId },
    read: (node, path, desk) => {
      if (node.type !== 'object')
        return refuse(node, path, desk, 'an object { … }', 'Write "id": { … } entries');
      if (node.entries.length === 0) {
        desk.complain(
          node.at,
          path,
          'there is nothing in it',
          `Add an entry like "${exampleId}": ${item.example}`,
        );
        return undefined;
      }
      const out: [string, T][] = [];
      let whole = true;
      for (const { key, at, value } of uniqueEntries(node.entries, path, desk)) {
        const inner = memberPath(path, key);
        if (!ID.test(key) || key.length > 40) {
          desk.complain(
            at,
            inner,
            `${quote(key)} is no id`,
            'Use up to 40 small letters, digits and single hyphens, like "owners-book"',
          );
        }
        const read = item.read(value, inner, desk);
        if (read === undefined) whole = false;
        else out.push([key, read]);
      }
      return whole ? Object.fromEntries(out) : undefined;
    },
  };
}

/** One of several objects, told apart by the word in `kind`. */
export function tagged<const V extends Readonly<Record<string, Fields>>>(
  about: string,
  variants: V,
): Shape<{ [K in keyof V & string]: { readonly kind: K } & OfFields<V[K]> }[keyof V & string]> {
  const tag = 'kind';
  const words = Object.keys(variants);
  const which = choice(words);
  const shapes = new Map(
    words.map((word) => [word, object({ [tag]: needed(choice([word]), about), ...variants[word]! })]),
  );
  return {
    schema: (defs) => ({ oneOf: words.map((word) => shapes.get(word)!.schema(defs)) }),
    example: shapes.get(words[0]!)!.example,
    form: { kind: 'tagged', variants },
    read: (node, path, desk) => {
      if (node.type !== 'object')
        return refuse(node, path, desk, 'an object { … }', `It starts with "${tag}": ${which.example}`);
      const entry = node.entries.find((e) => e.key === tag);
      if (!entry) {
        desk.complain(
          node.at,
          memberPath(path, tag),
          `"${tag}" is missing (${about})`,
          `Add "${tag}": ${words.map((w) => `"${w}"`).join(' or ')}`,
        );
        return undefined;
      }
      const word = which.read(entry.value, memberPath(path, tag), desk);
      if (word === undefined) return undefined;
      return shapes.get(word)!.read(node, path, desk) as never;
    },
  };
}
