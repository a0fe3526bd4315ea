/**
 * One file made of two: difference by difference a person says whose word counts. Nothing is taken over in silence; a figure
 * of the other file may also be kept beside one's own, as what another source says of the same thing.
 */
import { isObject, type Json, type JsonObject, pathText, putAt, sameJson } from '../machine/json-value.ts';
import { compare, type Difference, isFigure } from './compare.ts';

/** Whose word counts at a difference; `both` keeps mine and adds theirs as another source's. */
export type Whose = 'mine' | 'theirs' | 'both';

/** Words that fit a difference: `both` only where both files have a figure there, or mine has one and theirs another. */
export function choicesAt({ here, there }: Difference): readonly Whose[] {
  return isFigure(here) && isFigure(there) && alsoOf(here).length < MOST_ALSO
    ? ['mine', 'theirs', 'both']
    : ['mine', 'theirs'];
}

/** As many other sources as a figure may name, count. */
const MOST_ALSO = 6;

/**
 * My file with what was picked of theirs; a difference that nobody picked stays mine. `picks` by `Difference.at`. Sources
 * that a figure of theirs names come with it, under a new id where mine has another source of that id.
 * Throws RangeError for a pick that does not fit its difference.
 */
export function merge(mine: Json, theirs: Json, picks: ReadonlyMap<string, Whose>): Json {
  const differences = compare(mine, theirs);
  const sources = newSources(mine, theirs, picks);
  let out = mine;
  const taken: Json[] = [];
  for (const difference of differences) {
    const whose = picks.get(difference.at) ?? 'mine';
    if (!choicesAt(difference).includes(whose))
      throw new RangeError(`whose must fit the difference at ${difference.at}; got ${whose}`);
    if (whose === 'mine') continue;
    const said = withSources(difference.there, sources.ids);
    const is =
      whose === 'theirs' ? said : bothSay(difference.here as JsonObject, said as JsonObject, sources.again);
    if (is !== undefined) taken.push(is);
    out = putAt(out, difference.path, is) ?? null;
  }
  return withEntries(out, mine, sources.entries, taken);
}

function alsoOf(figure: JsonObject): readonly Json[] {
  return Array.isArray(figure.also) ? (figure.also as readonly Json[]) : [];
}

/**
 * My figure with theirs beside it. One source cannot say two things of one figure: where theirs comes from a source of the
 * same id, the source is entered once more as the other file's.
 */
function bothSay(mine: JsonObject, theirs: JsonObject, again: (id: string) => string): Json {
  const { also: _also, ...said } = theirs;
  const known = [mine, ...alsoOf(mine)];
  const added: Json[] = [];
  for (const one of [said, ...alsoOf(theirs)]) {
    if (!isObject(one) || [...known, ...added].some((other) => sameSaid(one, other))) continue;
    const taken = [...known, ...added].some((other) => isObject(other) && other.from === one.from);
    added.push(taken && typeof one.from === 'string' ? { ...one, from: again(one.from) } : one);
  }
  return { ...mine, also: [...alsoOf(mine), ...added].slice(0, MOST_ALSO) as Json };
}

function sameSaid(one: Json, other: Json): boolean {
  return isObject(one) && isObject(other) && sameJson(one.is, other.is) && one.from === other.from;
}

/** Ids that their sources get in my file, and the entries that are to be added under them when something names them. */
function newSources(mine: Json, theirs: Json, picks: ReadonlyMap<string, Whose>) {
  const has = isObject(mine) && isObject(mine.sources) ? mine.sources : {};
  const give = isObject(theirs) && isObject(theirs.sources) ? theirs.sources : {};
  const ids = new Map<string, string>();
  const entries = new Map<string, Json>();
  const taken = new Set([...Object.keys(has), ...Object.keys(give)]);
  for (const [id, source] of Object.entries(give)) {
    if (source === undefined || sameJson(has[id], source)) continue;
    let name = id;
    // Picked itself, their source takes the place of mine.
    if (Object.hasOwn(has, id) && picks.get(pathText(['sources', id])) !== 'theirs') {
      for (let n = 2; taken.has(name); n++) name = `${id.slice(0, 36)}-${n}`;
      taken.add(name);
    }
    ids.set(id, name);
    entries.set(name, source);
  }
  /** The same source once more, as the other file's. */
  const again = (id: string): string => {
    const other = `${id.slice(0, 34)}-other`;
    const source = entries.get(id) ?? has[id];
    if (isObject(source) && !taken.has(other))
      entries.set(other, { ...source, title: `${String(source.title).slice(0, 140)} (other file)` });
    return other;
  };
  return { ids, entries, again };
}

/** A value of theirs with the ids that its sources have in my file. */
function withSources(value: Json | undefined, ids: ReadonlyMap<string, string>): Json | undefined {
  if (Array.isArray(value)) return (value as readonly Json[]).map((one) => withSources(one, ids) ?? null);
  if (!isObject(value)) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, one]) => [
      key,
      key === 'from' && typeof one === 'string' && value.is !== undefined
        ? (ids.get(one) ?? one)
        : withSources(one, ids),
    ]),
  );
}

/** Adds the sources that what was taken names and that are not there yet; what mine lacked before stays lacking. */
function withEntries(
  value: Json,
  mine: Json,
  entries: ReadonlyMap<string, Json>,
  taken: readonly Json[],
): Json {
  const named = new Set<string>();
  const look = (one: Json | undefined): void => {
    if (Array.isArray(one)) for (const item of one as readonly Json[]) look(item);
    else if (isObject(one)) {
      if (typeof one.from === 'string' && one.is !== undefined) named.add(one.from);
      for (const item of Object.values(one)) look(item);
    }
  };
  look(taken);
  let out = value;
  for (const [id, source] of entries) {
    const has = isObject(mine) && isObject(mine.sources) && Object.hasOwn(mine.sources, id);
    if (named.has(id) && !has) out = putAt(out, ['sources', id], source) ?? null;
  }
  return out;
}
