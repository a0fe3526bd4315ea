/**
 * The sheet packed with a new part, entered once: its figures stand beside the book's under a source of their own, and count
 * as soon as the part is on the bike or a job brings it (counts.ts).
 */
import type { Part } from '../machine/definition.ts';
import { getAt, isObject, type Json, type JsonObject, type Path, pathText } from '../machine/json-value.ts';
import { isFigure } from './compare.ts';
import type { Put } from './draft.ts';
import { sheetPlaceAt, sheetPlaces } from './sheet-places.ts';
import { sourceFor, withAlso } from './take-offer.ts';

export interface SheetFigure {
  readonly path: Path;
  /** Members of the figure: `is`, and `at` where it holds at one engine speed. */
  readonly is: JsonObject;
  readonly page?: string;
}

export interface Sheet {
  readonly part: Part;
  /** What it is called, as printed. */
  readonly title: string;
  /** When it was printed: year, year-month or year-month-day; left out where it does not say. */
  readonly date?: string;
  /** Whether the part is on the bike. */
  readonly fitted: boolean;
  readonly figures: readonly SheetFigure[];
}

/**
 * The changes that enter a sheet; hand them to `change` together. Entered again under the same title its figures take the
 * place of those entered before. Throws RangeError for a figure of a place that a sheet of that part cannot speak of.
 */
export function putSheet(file: Json, { part, title, date, fitted, figures }: Sheet): readonly Put[] {
  const places = sheetPlaces(file, part);
  const stray = figures.find(({ path }) => sheetPlaceAt(places, path) === null);
  if (stray)
    throw new RangeError(
      `figures must be of places that a sheet of the ${part} speaks of; got ${pathText(stray.path)}`,
    );
  const source = { kind: 'part-sheet', title, for: part, fitted, ...(date === undefined ? {} : { date }) };
  const known = sheetsOf(file, part).find((one) => one.source.title === title);
  const entered = known
    ? { id: known.id, puts: [{ path: ['sources', known.id], is: { ...known.source, ...source } }] }
    : sourceFor(file, `${part}-sheet`, source);
  return [...entered.puts, ...(fitted ? takenOff(file, part, entered.id) : []), ...figures.map(put)];

  function put({ path, is, page }: SheetFigure): Put {
    const said: JsonObject = { ...is, from: entered.id, ...(page === undefined ? {} : { page }) };
    return { path, is: withSheet(getAt(file, path), said) };
  }
}

/** Sheets of a part in the file, in the order in which they were entered. */
export function sheetsOf(
  file: Json,
  part: Part,
): readonly { readonly id: string; readonly source: JsonObject }[] {
  const sources = getAt(file, ['sources']);
  return Object.entries(isObject(sources) ? sources : {}).flatMap(([id, source]) =>
    isObject(source) && source.kind === 'part-sheet' && source.for === part ? [{ id, source }] : [],
  );
}

/** One part of a kind is on the bike: the sheets of those before it no longer count. */
function takenOff(file: Json, part: Part, fitted: string): readonly Put[] {
  return sheetsOf(file, part)
    .filter(({ id, source }) => id !== fitted && source.fitted === true)
    .map(({ id }) => ({ path: ['sources', id, 'fitted'], is: false }));
}

/** Beside what stands there; in its place where it is the sheet's own word of before, or nothing stands there. */
function withSheet(stands: Json | undefined, said: JsonObject): JsonObject {
  if (!isFigure(stands)) return said;
  const also = Array.isArray(stands.also) ? (stands.also as readonly Json[]).filter(isObject) : [];
  const others = also.filter(({ from }) => from !== said.from);
  if (stands.from === said.from) return withAlso(said, others);
  return withAlso(stands, [...others, said]);
}
