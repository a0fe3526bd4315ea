/** Words and entries of a machine file as pointing reads them: facts, names, ids, and what a touch answers. */
import { getAt, isObject, type Json, type JsonObject, type Path } from '../machine/json-value.ts';
import type { Put } from './draft.ts';

/** What a touch changes and what it says, or why it cannot be. */
export type Pointed =
  | { readonly ok: true; readonly puts: readonly Put[]; readonly says: string }
  | { readonly ok: false; readonly why: string };

/** Most entries of a list of ids or facts, count. */
export const MOST_IN_LIST = 20;

/** Entries of a record of the file that are objects; none where there is no such record. */
export function entriesAt(file: Json, path: Path): readonly (readonly [string, JsonObject])[] {
  const record = getAt(file, path);
  if (!isObject(record)) return [];
  return Object.entries(record).flatMap(([id, one]) => (isObject(one) ? [[id, one] as const] : []));
}

/** Texts of a list; what is no text is left out. */
export function textsOf(value: Json | undefined): readonly string[] {
  return Array.isArray(value)
    ? (value as readonly Json[]).filter((one): one is string => typeof one === 'string')
    : [];
}

/** Objects of a list; what is none is left out. */
export function objectsOf(value: Json | undefined): readonly JsonObject[] {
  return Array.isArray(value) ? (value as readonly Json[]).filter(isObject) : [];
}

export function textOf(value: Json | undefined): string {
  return typeof value === 'string' ? value : '';
}

/** The fact that a thing is off; what is no id is a fact already, such as "bike raised". */
export function off(thing: string): string {
  return thing.includes(' ') ? thing : `${thing} off`;
}

/** The fact that a thing is slackened. */
export function slack(thing: string): string {
  return `${thing} slack`;
}

/** What one calls a thing: a part's name, else its id as words, else the fact. */
export function nameOf(file: Json, thing: string): string {
  const name = textOf(getAt(file, ['parts', thing, 'name']));
  return name === '' ? thing.replaceAll('-', ' ') : name;
}

/** Ids of every build step, which are unique over the whole section. */
export function stepIds(file: Json): Set<string> {
  const lists = [
    ...entriesAt(file, ['work', 'actions']).map(([, { back }]) => back),
    ...entriesAt(file, ['work', 'targets']).map(([, { work }]) => work),
    getAt(file, ['work', 'closing']),
  ];
  return new Set(lists.flatMap(objectsOf).map(({ id }) => textOf(id)));
}

/** Names in a row: "a", "a and b", "a, b and c". */
export function row(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
