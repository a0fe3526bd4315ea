/** The sentences an entry is refused with: what, where, what to do. */
import type { NoEntry } from './entry.ts';
import { type Found, nearestUnit, unitsAnywhere } from './find-unit.ts';
import { KINDS, type Kind } from './kind.ts';
import { withUnit } from './print.ts';

/** The text in quotes, cut so that a sentence stays a sentence. */
export function quote(text: string): string {
  const tidy = text.replace(/[\p{Cc}\s]+/gu, ' ').trim();
  const short = tidy.length > 40 ? `${tidy.slice(0, 39)}…` : tidy;
  // An inch sign inside double quotes would be read as the closing one.
  return short.includes('"') ? `'${short}'` : `"${short}"`;
}

/** What is wanted, in words. */
export function wanted(kind: Kind | null): string {
  return kind ? KINDS[kind].noun : 'a figure with a unit';
}

function example(kind: Kind | null): string {
  return KINDS[kind ?? 'voltage'].example;
}

const WIRE_GAUGE = 'is a wire gauge, not a unit: write the area of the copper, e.g. 2.5 mm²';
/** Things people write behind a figure that are no unit. */
const NO_UNITS: readonly (readonly [RegExp, string])[] = [
  [/^(awg|ga|gauge|swg)$/i, WIRE_GAUGE],
  [/^(tpi|unc|unf|unef|npt)$/i, 'belongs to a thread, not to a figure: write the length alone, e.g. 5/8 in'],
];

export function emptyEntry(kind: Kind | null): string {
  return `Nothing is entered where ${wanted(kind)} is wanted: write e.g. ${example(kind)}.`;
}

export function longEntry(length: number, most: number, kind: Kind | null): string {
  return `The entry is ${length} characters long and at most ${most} are read: write only the figure and its unit, e.g. ${example(kind)}.`;
}

export function noFigure(text: string, entry: NoEntry, kind: Kind | null): string {
  switch (entry.fault) {
    case 'none':
      if (/\b[as]wg\b/i.test(text)) return `${quote(text)} ${WIRE_GAUGE}.`;
      return `${quote(text)} is not a number, and ${wanted(kind)} is wanted here: write e.g. ${example(kind)}.`;
    case 'two-readings': {
      const [point, whole] = entry.readings;
      return `${quote(entry.written)} in ${quote(text)} can be ${point} or ${whole}: write the one you mean without the comma.`;
    }
    case 'broken':
      return `${quote(entry.written)} in ${quote(text)} is not a number that can be read: write e.g. ${example(kind)}.`;
    case 'nought-below':
      return `The fraction ${quote(entry.written)} divides by nought: write a fraction such as 5/8.`;
    case 'left-over':
      return `${quote(entry.written)} in ${quote(text)} cannot be read: write only the figure and its unit, e.g. ${example(kind)}.`;
  }
}

function kindNoun(kind: Kind): string {
  return KINDS[kind].noun;
}

/** "lbf·ft", or "ft-lb (lbf·ft)" where it was written another way. */
function written(text: string, id: string): string {
  return text === id ? id : `${quote(text)} (${id})`;
}

export function unknownUnit(text: string, unit: string, kind: Kind | null): string {
  const other = NO_UNITS.find(([pattern]) => pattern.test(unit.replaceAll('.', '')));
  if (other) return `${quote(unit)} in ${quote(text)} ${other[1]}.`;
  const elsewhere = kind ? unitsAnywhere(unit) : [];
  const hit = elsewhere[0];
  if (hit && kind) {
    return `${quote(text)}: ${written(unit, hit.unit.id)} is ${kindNoun(hit.kind)}, ${wanted(kind)} is wanted here: write e.g. ${example(kind)}.`;
  }
  const near = nearestUnit(unit, kind);
  const advice = near ? `did you mean ${near}?` : `write e.g. ${example(kind)}.`;
  return `${quote(text)} has the unknown unit ${quote(unit)}, and ${wanted(kind)} is wanted here: ${advice}`;
}

export function ambiguousUnit(text: string, unit: string, found: readonly Found[]): string {
  const readings = found.map((each) => `${kindNoun(each.kind)} in ${each.unit.id}`).join(' or ');
  return `${quote(unit)} in ${quote(text)} can be ${readings}: say which of them is meant.`;
}

export function ambiguousSymbol(text: string, unit: string, symbols: readonly string[]): string {
  const names = symbols.join(' or ');
  return `${quote(unit)} in ${quote(text)} can mean ${names}: write ${names}.`;
}

export function missingUnit(text: string, kind: Kind | null): string {
  return `${quote(text)} has no unit, and ${wanted(kind)} is wanted here: write e.g. ${example(kind)}.`;
}

export function unitOnLowOnly(text: string, unit: string): string {
  return `${quote(text)} has a unit on its first figure only: write the unit behind the second figure, as in 7–9 ${unit}.`;
}

export function notOne(text: string, kind: Kind | null): string {
  return `${quote(text)} is a range, and one figure is wanted here: write e.g. ${example(kind)}.`;
}

export function falling(text: string, low: string, high: string, turned: string): string {
  return `${quote(text)} falls from ${low} to ${high}: write the low end first, as in ${turned}.`;
}

export function mixedOrRange(text: string, whole: string, fraction: string, unit: string): string {
  return `${quote(text)} can be read as ${whole} ${fraction} or as a range from ${whole} down to ${fraction}: write ${withUnit(`${whole} ${fraction}`, unit)}, or the low end first.`;
}

export function threadLike(text: string): string {
  return `${quote(text)} looks like a thread, not like a range of lengths: write both ends with their unit, e.g. 5/8 in to 7/8 in.`;
}

export function badTolerance(text: string, why: string): string {
  return `${quote(text)} has a tolerance that cannot be used: ${why}.`;
}

export function badCompound(text: string): string {
  return `${quote(text)} joins two figures that do not belong together: write one figure and one unit, or e.g. 5 ft 3 in, 1 h 30 min, 2 lb 4 oz.`;
}

export function tooLarge(text: string): string {
  return `${quote(text)} is too large to be computed with: check the figure and its exponent.`;
}

export function belowNought(text: string, kind: Kind): string {
  return `${quote(text)} is below nought, and ${wanted(kind)} never is: leave out the minus or check the figure.`;
}

export function belowAbsoluteZero(text: string): string {
  return `${quote(text)} is below absolute zero (−273.15 °C): check the figure and its unit.`;
}
