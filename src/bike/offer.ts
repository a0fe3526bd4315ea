/**
 * A figure that the bench offers for the machine file. Nothing is taken over in silence: it is shown beside what stands
 * there, and a person takes it or turns it down (`offerAnswered` in the log of the job it came from).
 */
import type { EventBody } from '../job/event.ts';
import { getAt, isObject, type Json, type JsonObject, type Path, pathText } from '../machine/json-value.ts';

export type OfferKind =
  | 'minutes'
  | 'order'
  | 'length'
  | 'shims'
  | 'slack'
  | 'volume'
  | 'reading'
  | 'part-fitted';

export interface Offer {
  /** Says what is offered, the same every time: what `offerAnswered` keeps. */
  readonly id: string;
  readonly kind: OfferKind;
  /** Place in the file. */
  readonly path: Path;
  /** What it is, in the mechanic's words. */
  readonly label: string;
  /** Members of the figure to stand there, its source not among them; null where what stands there is no figure. */
  readonly is: JsonObject | null;
  /** What is to stand where, for what is no figure; empty for a figure. */
  readonly puts: readonly { readonly path: Path; readonly is: Json | undefined }[];
  /** The offer in words. */
  readonly says: string;
  /** What stands there now, with its source; null for nothing. */
  readonly was: string | null;
  /** How it was got, one sentence. */
  readonly why: string;
  /** Day of the newest observation, ISO 8601. */
  readonly date: string;
  /** The same to the second, ISO 8601 in UTC. */
  readonly seenAt: string;
  /** The job of the newest observation: its log remembers the answer. */
  readonly job: string;
}

/** What one job saw. */
export interface Seen {
  readonly job: string;
  /** ISO 8601 in UTC. */
  readonly at: string;
}

type Words = Pick<Offer, 'kind' | 'path' | 'label' | 'why'>;

/** Longest name of an offer, characters: what the log holds. */
const LONGEST = 400;

/** The name of an offer of a place, in the words of what was to stand there. */
export function nameOf(path: Path, says: string): string {
  return `${pathText(path)} ${says}`.slice(0, LONGEST);
}

/** What is to be written into the log of `offer.job` once somebody has taken it or turned it down. */
export function answerTo({ id }: Offer, taken: boolean): EventBody {
  return { type: 'offerAnswered', offer: id, taken };
}

/** An offer of a figure. */
export function figureOffer(file: Json, words: Words, is: JsonObject, { job, at }: Seen): Offer {
  const says = sayMembers(is);
  return {
    ...words,
    id: nameOf(words.path, says),
    is,
    puts: [],
    says,
    was: sayFigure(file, getAt(file, words.path)),
    date: at.slice(0, 10),
    seenAt: at,
    job,
  };
}

/** An offer of what is no figure. */
export function plainOffer(words: Words & Pick<Offer, 'puts' | 'says' | 'was'>, { job, at }: Seen): Offer {
  return { ...words, id: nameOf(words.path, words.says), is: null, date: at.slice(0, 10), seenAt: at, job };
}

function sayMembers(is: JsonObject): string {
  return typeof is.at === 'string' ? `${String(is.is)} at ${is.at}` : String(is.is);
}

/** A figure with its source: "17.0 V AC ± 10 % at 1000 rpm (Owner's book)"; null where none stands. */
function sayFigure(file: Json, figure: Json | undefined): string | null {
  if (!isObject(figure) || figure.is === undefined) return null;
  const title = getAt(file, ['sources', String(figure.from), 'title']);
  return `${sayMembers(figure)} (${typeof title === 'string' ? title : String(figure.from)})`;
}

/** Everything said at a figure with the kind of its source, the figure itself first; empty where none stands. */
export function saidAt(
  file: Json,
  path: Path,
): readonly { readonly said: JsonObject; readonly source: string }[] {
  const figure = getAt(file, path);
  if (!isObject(figure) || figure.is === undefined) return [];
  const also = Array.isArray(figure.also) ? (figure.also as readonly Json[]) : [];
  return [figure, ...also].filter(isObject).map((said) => {
    const kind = getAt(file, ['sources', String(said.from), 'kind']);
    return { said, source: typeof kind === 'string' ? kind : '' };
  });
}
