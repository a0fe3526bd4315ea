/**
 * What the bench offers, taken into the file as one step of the draft: the figure with a source of its own, the day it was
 * measured, and what was said before beside it where that was more than a guess.
 */
import { getAt, isObject, type Json, type JsonObject, type Path, sameJson } from '../machine/json-value.ts';
import { LONGEST_ID } from '../machine/plain-id.ts';
import { isFigure } from './compare.ts';
import type { Put } from './draft.ts';

/** As much of an offer as is taken; room `bike` makes them. */
export interface Taken {
  readonly path: Path;
  /** Members of the figure without its source; null where `puts` say all. */
  readonly is: JsonObject | null;
  readonly puts: readonly Put[];
  /** Day of the measurement, ISO 8601. */
  readonly date: string;
}

/** As many other sources as a figure may name, count. */
const MOST_ALSO = 6;
/** Kinds of source that a measurement takes the place of: what it said stays in the earlier version of the file. */
const WEAK: ReadonlySet<string> = new Set(['guess', 'common-practice']);

/** The changes of the file that take the offer; hand them to `change` together. */
export function takeOffer(file: Json, { path, is, puts, date }: Taken): readonly Put[] {
  if (is === null) return puts;
  const source = benchSource(file, date);
  const said: JsonObject = { ...is, from: source.id, date };
  return [...datedVersion(file), ...source.puts, { path, is: withMeasured(file, getAt(file, path), said) }];
}

/** A figure that says its day is of version 2; all that stood in 1 stands in 2. */
function datedVersion(file: Json): readonly Put[] {
  return getAt(file, ['version']) === 1 ? [{ path: ['version'], is: 2 }] : [];
}

/** The month's source of what was measured; one of that id that is something else is left alone. */
function benchSource(file: Json, date: string): { readonly id: string; readonly puts: readonly Put[] } {
  const month = date.slice(0, 7);
  const source: JsonObject = { kind: 'measured', title: `Measured at the bench, ${month}`, date: month };
  return sourceFor(file, `bench-${month}`, source);
}

/** The id under which a source stands in the file, and what is to be added for it; the same source is entered once. */
export function sourceFor(
  file: Json,
  wanted: string,
  source: JsonObject,
): { readonly id: string; readonly puts: readonly Put[] } {
  for (let n = 1; ; n++) {
    const id = n === 1 ? wanted.slice(0, LONGEST_ID) : `${wanted.slice(0, LONGEST_ID - 4)}-${n}`;
    const stands = getAt(file, ['sources', id]);
    if (stands === undefined) return { id, puts: [{ path: ['sources', id], is: source }] };
    if (sameJson(stands, source)) return { id, puts: [] };
  }
}

/** The figure with what was measured: before a guess's place and an older measurement, beside what a book or a sheet says. */
function withMeasured(file: Json, stands: Json | undefined, said: JsonObject): JsonObject {
  if (!isFigure(stands)) return said;
  const { also, ...first } = stands;
  const others = Array.isArray(also) ? (also as readonly Json[]).filter(isObject) : [];
  const kind = kindOf(file, first);
  // One source says one thing of a figure: what it said earlier this month gives way.
  const rest = (list: readonly JsonObject[]) => list.filter(({ from }) => from !== said.from);
  if (WEAK.has(kind) || kind === 'measured') {
    const kept = WEAK.has(kind) ? others : [first, ...others];
    return withAlso(said, rest(kept));
  }
  return withAlso(first, [...rest(others), said]);
}

function kindOf(file: Json, said: JsonObject): string {
  const kind = getAt(file, ['sources', String(said.from), 'kind']);
  return typeof kind === 'string' ? kind : '';
}

/** A figure with what others say of it; where they are too many the earliest gives way. */
export function withAlso(first: JsonObject, others: readonly JsonObject[]): JsonObject {
  const { also: _also, ...said } = first;
  return others.length === 0 ? said : { ...said, also: others.slice(-MOST_ALSO) };
}
