/**
 * A machine file as a value that can be changed at one place and written again: what the forms of the app, a merge and a
 * new bike work on. A file is always written the same way, so that two versions differ only where a figure does.
 */
import type { JsonNode } from './json-text.ts';
import { memberPath } from './problem.ts';

export type Json =
  | string
  | number
  | boolean
  | null
  | readonly Json[]
  | { readonly [key: string]: Json | undefined };

/** An object of a file. */
export type JsonObject = { readonly [key: string]: Json | undefined };

/** One step down: a key of an object or a place in a list. */
export type Key = string | number;
/** Where something stands, from the root. */
export type Path = readonly Key[];

/** Longest line of an object or list that stands on one line, characters. */
const ONE_LINE = 100;

/** Whether a value is an object of the file. */
export function isObject(value: Json | undefined): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** The value of a node. Of two equal keys the first counts; what could not be read is null. */
export function jsonOf(node: JsonNode): Json {
  switch (node.type) {
    case 'object': {
      const out = new Map<string, Json>();
      for (const { key, value } of node.entries) if (!out.has(key)) out.set(key, jsonOf(value));
      return Object.fromEntries(out);
    }
    case 'array':
      return node.items.map(jsonOf);
    case 'string':
    case 'number':
    case 'boolean':
      return node.value;
    default:
      return null;
  }
}

/** A path as the check writes it: `$.charging.wiring.output.joints[1].at`. */
export function pathText(path: Path): string {
  return path.reduce<string>(
    (text, key) => (typeof key === 'number' ? `${text}[${key}]` : memberPath(text, key)),
    '$',
  );
}

/** Reads what `pathText` writes; null where a text is no path. */
export function readPath(text: string): Path | null {
  if (!text.startsWith('$')) return null;
  const out: Key[] = [];
  let rest = text.slice(1);
  while (rest !== '') {
    const match = /^\.([A-Za-z_$][\w$]*)|^\[(\d+)\]|^\[("(?:[^"\\]|\\.)*")\]/.exec(rest);
    if (!match) return null;
    const [whole, name, place, quoted] = match;
    if (name !== undefined) out.push(name);
    else if (place !== undefined) out.push(Number(place));
    else out.push(JSON.parse(quoted!) as string);
    rest = rest.slice(whole.length);
  }
  return out;
}

/** What stands at a path; undefined where nothing does. */
export function getAt(value: Json | undefined, path: Path): Json | undefined {
  let here = value;
  for (const key of path) {
    if (typeof key === 'number') here = Array.isArray(here) ? (here[key] as Json | undefined) : undefined;
    else here = isObject(here) && Object.hasOwn(here, key) ? here[key] : undefined;
    if (here === undefined) return undefined;
  }
  return here;
}

/**
 * The value with `is` at a path; undefined takes away what stands there (of a list the later ones move up). Objects and
 * lists on the way are made; all that is not on the way stays the same object.
 */
export function putAt(value: Json | undefined, path: Path, is: Json | undefined): Json | undefined {
  if (is === undefined && getAt(value, path) === undefined) return value;
  const [key, ...rest] = path;
  if (key === undefined) return is;
  if (typeof key === 'number') {
    const items: readonly Json[] = Array.isArray(value) ? (value as readonly Json[]) : [];
    const put = putAt(items[key], rest, is);
    if (put === undefined) return items.filter((_, n) => n !== key);
    return key < items.length ? items.map((one, n) => (n === key ? put : one)) : [...items, put];
  }
  const object: JsonObject = isObject(value) ? value : {};
  const put = putAt(Object.hasOwn(object, key) ? object[key] : undefined, rest, is);
  if (put !== undefined) return withKey(object, key, put);
  if (!Object.hasOwn(object, key)) return object;
  return Object.fromEntries(Object.entries(object).filter(([name]) => name !== key));
}

/** `__proto__` is a key like any other here, so that no text reaches the language's own objects. */
function withKey(object: JsonObject, key: string, is: Json): JsonObject {
  return Object.hasOwn(object, key)
    ? Object.fromEntries(Object.entries(object).map(([name, one]) => [name, name === key ? is : one]))
    : Object.fromEntries([...Object.entries(object), [key, is]]);
}

/** Whether two values say the same; the order of an object's keys says nothing. */
export function sameJson(a: Json | undefined, b: Json | undefined): boolean {
  if (a === b) return true;
  if (Array.isArray(a))
    return Array.isArray(b) && a.length === b.length && a.every((one, n) => sameJson(one, b[n]));
  if (!isObject(a) || !isObject(b)) return false;
  const keys = Object.keys(a).filter((key) => a[key] !== undefined);
  return (
    keys.length === Object.keys(b).filter((key) => b[key] !== undefined).length &&
    keys.every((key) => Object.hasOwn(b, key) && sameJson(a[key], b[key]))
  );
}

/** The text of a machine file: two spaces a level, what is short on one line, a line end at the end. */
export function writeJson(value: Json): string {
  return `${writeValue(value, '', 0)}\n`;
}

function writeValue(value: Json, indent: string, taken: number): string {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const line = onOneLine(value);
  // Sections stand open even where they are short: one looks for them by eye.
  if (indent !== '' && line.length + taken + indent.length <= ONE_LINE) return line;
  const inner = `${indent}  `;
  if (Array.isArray(value)) {
    if (value.length === 0) return '[]';
    const items = (value as readonly Json[]).map((one) => `${inner}${writeValue(one, inner, 1)}`);
    return `[\n${items.join(',\n')}\n${indent}]`;
  }
  const entries = entriesOf(value as JsonObject);
  if (entries.length === 0) return '{}';
  const lines = entries.map(([key, one]) => {
    const name = `${JSON.stringify(key)}: `;
    return `${inner}${name}${writeValue(one, inner, name.length + 1)}`;
  });
  return `{\n${lines.join(',\n')}\n${indent}}`;
}

function onOneLine(value: Json): string {
  if (Array.isArray(value)) return `[${(value as readonly Json[]).map(onOneLine).join(', ')}]`;
  if (!isObject(value)) return JSON.stringify(value);
  const entries = entriesOf(value).map(([key, one]) => `${JSON.stringify(key)}: ${onOneLine(one)}`);
  return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`;
}

function entriesOf(value: JsonObject): readonly (readonly [string, Json])[] {
  return Object.entries(value).flatMap(([key, one]) => (one === undefined ? [] : [[key, one] as const]));
}
