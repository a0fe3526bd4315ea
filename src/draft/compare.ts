/**
 * Two machine files side by side: every place at which they differ, at the size in which a mechanic thinks: a figure with
 * its source is one thing, so is a source, a list, and an entry that only one of them has.
 */
import {
  isObject,
  type Json,
  type JsonObject,
  type Path,
  pathText,
  sameJson,
} from '../machine/json-value.ts';

export interface Difference {
  readonly path: Path;
  /** The same as the check writes it. */
  readonly at: string;
  /** What the first file says; undefined where it says nothing. */
  readonly here: Json | undefined;
  readonly there: Json | undefined;
}

/** Whether an object is a figure: a value with the source that says so. */
export function isFigure(value: Json | undefined): value is JsonObject {
  return isObject(value) && value.is !== undefined && typeof value.from === 'string';
}

/** Everything that differs, in the order of the first file, then what only the second has. Empty for the same file. */
export function compare(here: Json, there: Json): readonly Difference[] {
  const out: Difference[] = [];
  walk(here, there, [], out);
  return out;
}

function walk(here: Json | undefined, there: Json | undefined, path: Path, out: Difference[]): void {
  if (sameJson(here, there)) return;
  const source = path[0] === 'sources' && path.length === 2;
  if (isObject(here) && isObject(there) && !isFigure(here) && !isFigure(there) && !source) {
    for (const key of keysOf(here, there)) walk(member(here, key), member(there, key), [...path, key], out);
    return;
  }
  out.push({ path, at: pathText(path), here, there });
}

/** Own keys only: a file may hold any word as a key. */
function member(value: JsonObject, key: string): Json | undefined {
  return Object.hasOwn(value, key) ? value[key] : undefined;
}

function keysOf(here: JsonObject, there: JsonObject): readonly string[] {
  return [...new Set([...Object.keys(here), ...Object.keys(there)])];
}
