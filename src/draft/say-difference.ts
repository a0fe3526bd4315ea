/** A difference of two machine files in words: what each says, with who says so. */
import { getAt, isObject, type Json, type JsonObject, writeJson } from '../machine/json-value.ts';
import { type Difference, isFigure } from './compare.ts';

export interface DifferenceWords {
  readonly at: string;
  /** What the first file says; "nothing" where it says nothing. */
  readonly here: string;
  readonly there: string;
}

/** Longest words of one side, characters. */
const LONGEST = 160;

/** Both sides of a difference; `here` and `there` are the whole files, for the names of their sources. */
export function sayDifference(difference: Difference, here: Json, there: Json): DifferenceWords {
  return {
    at: difference.at,
    here: sayValue(difference.here, here),
    there: sayValue(difference.there, there),
  };
}

function sayValue(value: Json | undefined, file: Json): string {
  if (value === undefined) return 'nothing';
  if (isFigure(value)) return shortened(sayFigure(value, file));
  if (isObject(value) && typeof value.kind === 'string' && typeof value.title === 'string')
    return shortened(`${value.title} (${value.kind})`);
  return shortened(writeJson(value).replace(/\s+/g, ' ').trim());
}

function sayFigure(figure: JsonObject, file: Json): string {
  const also = Array.isArray(figure.also) ? (figure.also as readonly Json[]).filter(isObject) : [];
  return [figure, ...also].map((said) => saySaid(said, file)).join('; also ');
}

function saySaid(said: JsonObject, file: Json): string {
  const title = getAt(file, ['sources', String(said.from), 'title']);
  const at = typeof said.at === 'string' ? ` at ${said.at}` : '';
  const page = typeof said.page === 'string' ? `, ${said.page}` : '';
  return `${String(said.is)}${at} (${typeof title === 'string' ? title : String(said.from)}${page})`;
}

function shortened(text: string): string {
  const signs = [...text];
  return signs.length > LONGEST ? `${signs.slice(0, LONGEST - 1).join('')}…` : text;
}
