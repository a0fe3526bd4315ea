/**
 * Reads what a person writes into quantities: "5/8 in", `1-5/8"`, "⅝ in", "38 fl oz", "14,2 V", "7–9 lbf·ft",
 * "12 V ± 5 %", "1 h 30 min". Whatever can be read in two ways is refused with both readings named. Every answer
 * carries an echo that shows how the entry was read.
 */
import { type Entry, readEntry } from './entry.ts';
import { unitsAnywhere } from './find-unit.ts';
import { isKind, KINDS, type Kind } from './kind.ts';
import { LADDERS, type System } from './ladder.ts';
import { normalise } from './normalise.ts';
import { printQuantity, printRange } from './print.ts';
import type { AnyQuantity, Quantity, Range } from './quantity.ts';
import { toNumber } from './rational.ts';
import * as say from './refuse.ts';
import { type End, type No, no, type Reading, resolve } from './resolve.ts';
import { type UnitOf, unitNamed } from './table.ts';

/** Longest entry that is read, characters. */
export const LONGEST_ENTRY = 200;

export type Parsed<T> =
  /** `echo` shows the reading back: "5/8 in = 15.875 mm". */
  | { readonly ok: true; readonly value: T; readonly echo: string }
  /** `why` is one sentence: what is wrong, where, what to write instead. */
  | { readonly ok: false; readonly why: string };

export interface ParseOptions<K extends Kind> {
  /** Unit taken when the entry has none; without it a bare number is refused. */
  readonly defaultUnit?: UnitOf<K>;
}

function takeApart(text: string, kind: Kind | null): { readonly ok: true; readonly entry: Entry } | No {
  if (text.length > LONGEST_ENTRY) return no(say.longEntry(text.length, LONGEST_ENTRY, kind));
  const tidy = normalise(text);
  if (tidy === '') return no(say.emptyEntry(kind));
  const entry = readEntry(tidy);
  return 'fault' in entry ? no(say.noFigure(text, entry, kind)) : { ok: true, entry };
}

function finish<K extends Kind>(text: string, kind: K, end: End): Quantity<K> | No {
  const si = toNumber(end.si);
  if (!Number.isFinite(si)) return no(say.tooLarge(text));
  if (kind === 'temperature' && si < 0) return no(say.belowAbsoluteZero(text));
  if (KINDS[kind].neverNegative && si < 0) return no(say.belowNought(text, kind));
  return { kind, si };
}

function show<K extends Kind>(reading: Reading, range: Range<K>): string {
  const kind = range.low.kind;
  const shown = [reading.text];
  const inLadder = (system: System) => LADDERS[kind][system].some(([id]) => id === reading.high.unit.id);
  for (const system of ['metric', 'inch'] as const) {
    // A tolerance is always worked out; otherwise only the system the entry was not written in.
    if (reading.joint !== 'tolerance' && inLadder(system)) continue;
    const print =
      reading.low === reading.high ? printQuantity(range.high, system) : printRange(range, system);
    if (!shown.includes(print)) shown.push(print);
  }
  return shown.join(' = ');
}

function read<K extends Kind>(
  text: string,
  kind: K,
  options: ParseOptions<K>,
  single: boolean,
): Parsed<Range<K>> {
  if (!isKind(kind)) throw new RangeError(`kind must be a kind of quantity, got "${String(kind)}"`);
  if (options.defaultUnit !== undefined) unitNamed(kind, options.defaultUnit);
  const apart = takeApart(text, kind);
  if (!apart.ok) return apart;
  const reading = resolve(text, apart.entry, kind, options.defaultUnit);
  if ('ok' in reading) return reading;
  if (single && (reading.joint === 'range' || reading.joint === 'tolerance'))
    return no(say.notOne(text, kind));
  const low = finish(text, kind, reading.low);
  if ('ok' in low) return low;
  const high = finish(text, kind, reading.high);
  if ('ok' in high) return high;
  const value = { low, high };
  return { ok: true, value, echo: show(reading, value) };
}

/** Reads one quantity of the kind wanted. Throws RangeError on an unknown kind or default unit, never on the text. */
export function parseQuantity<K extends Kind>(
  text: string,
  kind: K,
  options: ParseOptions<K> = {},
): Parsed<Quantity<K>> {
  const range = read(text, kind, options, true);
  return range.ok ? { ...range, value: range.value.high } : range;
}

/**
 * Reads a range of the kind wanted: low–high, a figure with a tolerance, or one figure (then low = high).
 * Throws RangeError on an unknown kind or default unit, never on the text.
 */
export function parseRange<K extends Kind>(
  text: string,
  kind: K,
  options: ParseOptions<K> = {},
): Parsed<Range<K>> {
  return read(text, kind, options, false);
}

/** Reads one quantity of whichever kind its unit says; a unit of two kinds ("ft-lb") is refused with both named. */
export function parseAnyQuantity(text: string): Parsed<AnyQuantity> {
  const apart = takeApart(text, null);
  if (!apart.ok) return apart;
  const { first, second, joint } = apart.entry;
  const written = first.unit === '' && second ? second.unit : first.unit;
  if (joint === 'range' || joint === 'tolerance') return no(say.notOne(text, null));
  if (written === '') return no(say.missingUnit(text, null));
  const found = unitsAnywhere(written);
  if (found.length === 0) return no(say.unknownUnit(text, written, null));
  if (found.length > 1) return no(say.ambiguousUnit(text, written, found));
  return parseQuantity(text, found[0]!.kind) as Parsed<AnyQuantity>;
}
