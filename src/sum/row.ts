/**
 * Reads a field that holds several figures in a row: cut at commas, semicolons and line ends, a comma within a figure is
 * its decimal sign, and a unit behind the last figure is meant for those before it that have none.
 */
import type { Kind } from '../units/kind.ts';
import { parseQuantity } from '../units/parse.ts';
import { type Entries, type Limits, tooFine, withExample } from './entries.ts';

/** A figure without a unit: digits and the signs that belong to them. */
const BARE = /^[-−+±]?[\d\s.,/⁄±½¼¾⅛⅜⅝⅞–-]+$/;
const UNIT_BEHIND = /[\d½¼¾⅛⅜⅝⅞]\s*([^\d\s½¼¾⅛⅜⅝⅞][^\d½¼¾⅛⅜⅝⅞]*)$/;

/** Pieces of a row; one comma between whole figures and nothing else is refused with both readings. */
export function piecesOf(read: Entries, id: string, most: number): readonly string[] | null {
  if (read.empty(id)) return null;
  const text = read.text(id);
  const pieces = text
    .split(/\s*[;\n]\s*|,(?=\s|$)|(?<=[^\d\s.]),|\s(?:then|and)\s/)
    .map((piece) => piece.trim())
    .filter(Boolean);
  if (pieces.length === 0)
    return read.blame(id, `"${text.slice(0, 30)}" holds no figure: write e.g. ${read.example(id)}.`);
  if (pieces.length > most)
    return read.blame(
      id,
      `these are ${pieces.length} entries, and at most ${most} are read: leave some out.`,
    );
  // "22,20,19" has two commas, and "22,20" alone may be one figure or two; "0,25" is a decimal.
  const doubtful = pieces.find((piece) => /\d,\d+,\d/.test(piece)) ?? (pieces.length === 1 ? pieces[0]! : '');
  const found = /(?<![\d.,])([1-9]\d*),(\d+)/.exec(doubtful);
  if (found)
    return read.blame(
      id,
      `"${doubtful.slice(0, 40)}" can be ${found[1]}.${found[2]} or ${found[1]} and ${found[2]}: put a space behind a comma between two figures, or write ${found[1]}.${found[2]}.`,
    );
  return pieces;
}

/** Gives a piece without a unit the unit of the next one that has it. */
export function withUnits(pieces: readonly string[]): readonly string[] {
  let unit = '';
  return pieces
    .toReversed()
    .map((piece) => {
      if (BARE.test(piece)) return unit === '' ? piece : `${piece} ${unit}`;
      unit = UNIT_BEHIND.exec(piece)?.[1]?.trim() ?? unit;
      return piece;
    })
    .toReversed();
}

/** Says why a piece cannot be read, and which it is. */
export function whyPiece(read: Entries, id: string, piece: string, why: string): string {
  if (/\d\s*[-–/]\s*\d+\s*[-–/]\s*\d/.test(piece) || /\d\s*[a-zµ"″'·]+\s+[-−+]?\d/i.test(piece))
    return `"${piece.slice(0, 40)}" holds more than one figure: put a comma and a space between two.`;
  const said = withExample(why, withUnits(read.example(id).split(/[,;]\s/))[0]!);
  return /^["']/.test(said) ? said : `"${piece.slice(0, 30)}": ${said}`;
}

/** A row of single quantities in SI units; null where it is empty or refused. */
export function readRow(
  read: Entries,
  id: string,
  kind: Kind,
  { above = Number.NEGATIVE_INFINITY, least = Number.NEGATIVE_INFINITY, most }: Limits,
  wrong: string,
  count: number,
): readonly number[] | null {
  const pieces = piecesOf(read, id, count);
  if (!pieces) return null;
  const values: number[] = [];
  for (const piece of withUnits(pieces)) {
    const found = parseQuantity(piece, kind);
    if (!found.ok) return read.blame(id, whyPiece(read, id, piece, found.why));
    const { si } = found.value;
    if (si <= above || si < least || si > most || tooFine(kind, si))
      return read.blame(id, `${piece.slice(0, 30)} ${wrong}`);
    values.push(si);
  }
  return values;
}
