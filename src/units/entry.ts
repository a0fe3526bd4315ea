/** Takes an entry apart: figure, unit, and what joins it to a second figure and unit. No unit is looked up here. */
import { type Figure, type NoFigure, readFigure } from './figure.ts';

export interface Piece {
  readonly figure: Figure;
  /** Unit as written; '' when there is none. */
  readonly unit: string;
}

export type Joint = 'range' | 'tolerance' | 'compound';

export interface Entry {
  readonly first: Piece;
  readonly joint: Joint | null;
  readonly second: Piece | null;
  /** Whether a range was written with an en dash or a word, so that it cannot be a mixed number. */
  readonly dashed: boolean;
}

export type NoEntry = NoFigure | { readonly fault: 'left-over'; readonly written: string };

// A unit starts with a letter or a unit sign (or "1/", "/") and goes on over dots, hyphens and spaces only while
// a letter follows: "lbf-ft" is one unit, "in-7/8" is not, and the word "to" is never part of one.
const UNIT =
  /(?:1 ?\/ ?|\/ ?)?[\p{L}°%"'#]+(?:\^?[23](?![\d.,/])|⁻¹)?(?:(?: ?[·/.-]{1,2} ?| )(?!to\b)[\p{L}°%"]+(?:\^?[23](?![\d.,/])|⁻¹)?)*(?:\.(?!\.))?/uy;
const JOINT = / ?(?:(±)|(–|\.\.|to\b|-)) ?/y;

function readUnit(text: string, at: number): { readonly unit: string; readonly end: number } {
  const start = text[at] === ' ' ? at + 1 : at;
  UNIT.lastIndex = start;
  const found = UNIT.exec(text);
  if (!found || /^to\b/.test(found[0])) return { unit: '', end: at };
  return { unit: found[0].trim(), end: start + found[0].length };
}

/** Takes a normalised, non-empty text apart. */
export function readEntry(text: string): Entry | NoEntry {
  const figure = readFigure(text, 0);
  if ('fault' in figure) return figure;
  const { unit, end } = readUnit(text, figure.end);
  const first = { figure, unit };
  if (text.slice(end).trim() === '') return { first, joint: null, second: null, dashed: false };

  JOINT.lastIndex = end;
  const found = JOINT.exec(text);
  // "5 ft 3 in": nothing but a space between a unit and the next figure.
  const joint = found
    ? found[1]
      ? 'tolerance'
      : 'range'
    : unit !== '' && /^ ?\d/.test(text.slice(end))
      ? 'compound'
      : null;
  if (!joint) return { fault: 'left-over', written: text.slice(end).trim() };
  const start = found ? end + found[0].length : end + (text[end] === ' ' ? 1 : 0);
  const next = readFigure(text, start);
  if ('fault' in next)
    return next.fault === 'none' ? { fault: 'left-over', written: text.slice(end).trim() } : next;
  const tail = readUnit(text, next.end);
  if (text.slice(tail.end).trim() !== '') return { fault: 'left-over', written: text.slice(tail.end).trim() };
  const dashed = found?.[2] !== undefined && found[2] !== '-';
  return { first, joint, second: { figure: next, unit: tail.unit }, dashed };
}
