/** Prints quantities: the unit that suits the size, digits that make sense, fractions of an inch where exact. */
import type { Kind } from './kind.ts';
import { LADDERS, NOUGHT, type System } from './ladder.ts';
import { inUnit, type Quantity, type Range } from './quantity.ts';
import type { UnitOf } from './table.ts';

export type { System } from './ladder.ts';

/** Signs that stand close to the figure. */
const CLOSE = new Set(['°']);

/** Figure and symbol as one text; the bare unit 1 shows nothing. */
export function withUnit(figure: string, unit: string): string {
  if (unit === '1') return figure;
  return CLOSE.has(unit) ? figure + unit : `${figure} ${unit}`;
}

/** A double as decimal text without an exponent, as long as that stays readable. */
function plainDecimal(value: number, digits: number): string {
  const text = value.toPrecision(digits);
  if (!text.includes('e')) return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  const size = Math.abs(value);
  if (size >= 1e15 || size < 1e-9) {
    const [mantissa = '', exponent = ''] = value.toExponential(digits - 1).split('e');
    return `${mantissa.includes('.') ? mantissa.replace(/\.?0+$/, '') : mantissa}e${Number(exponent)}`;
  }
  if (size >= 1) return Number(text).toFixed(0);
  return value.toFixed(Math.min(20, digits - 1 - Math.floor(Math.log10(size)))).replace(/\.?0+$/, '');
}

/**
 * A finite number with sensible digits: all of them when six tell it exactly (15.875), otherwise four
 * (47.4536… gives 47.45), and never a whole number shortened (123456.7 gives 123457).
 * Throws RangeError unless finite.
 */
export function printNumber(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`value must be a finite number, got ${value}`);
  if (value === 0) return '0';
  const six = Number(value.toPrecision(6));
  const wholeDigits = Math.floor(Math.log10(Math.abs(value))) + 1;
  const exact = Math.abs(six - value) <= 1e-12 * Math.abs(value);
  const digits = exact ? 6 : Math.min(15, Math.max(4, wholeDigits));
  return plainDecimal(value, digits).replace('-', '−').replace('e−', 'e-');
}

/** An inch figure as a fraction when it is exact to 1/64 ("1 5/8"), otherwise null. */
export function inchFraction(inches: number): string | null {
  const parts = Math.round(Math.abs(inches) * 64);
  if (parts === 0 || Math.abs(Math.abs(inches) * 64 - parts) > 1e-9 * Math.max(1, parts)) return null;
  const whole = Math.floor(parts / 64);
  let top = parts % 64;
  let bottom = 64;
  while (top % 2 === 0 && bottom > 1) {
    top /= 2;
    bottom /= 2;
  }
  const sign = inches < 0 ? '−' : '';
  if (top === 0) return `${sign}${whole}`;
  return `${sign}${whole > 0 ? `${whole} ` : ''}${top}/${bottom}`;
}

/** The figure alone, in a unit. */
function figureIn<K extends Kind>(of: Quantity<K>, unit: UnitOf<K>): string {
  const value = inUnit(of, unit);
  return (unit === 'in' ? inchFraction(value) : null) ?? printNumber(value);
}

/** Symbol of the unit that suits the size of a quantity in a system. */
export function unitFor<K extends Kind>(of: Quantity<K>, system: System): UnitOf<K> {
  const rungs = LADDERS[of.kind][system];
  const nought = NOUGHT[of.kind];
  if (of.si === 0 && nought !== undefined) return nought;
  let chosen: UnitOf<K> = rungs[0]![0];
  for (const [unit, least] of rungs.slice(1)) {
    // A hair of rounding must not push a figure that is exactly on the rung below it.
    if (Math.abs(inUnit(of, unit)) >= least * (1 - 1e-12)) chosen = unit;
  }
  // A 64th of an inch is written as such, however small.
  if (chosen === 'thou' && inchFraction(inUnit(of, 'in' as UnitOf<K>))) return 'in' as UnitOf<K>;
  return chosen;
}

/** A quantity in a unit of one's choice: "15.875 mm". */
export function printIn<K extends Kind>(of: Quantity<K>, unit: UnitOf<K>): string {
  return withUnit(figureIn(of, unit), unit);
}

/** A quantity in one system: "15.875 mm" or "5/8 in". Kinds with no inch units print the same in both. */
export function printQuantity<K extends Kind>(of: Quantity<K>, system: System): string {
  return printIn(of, unitFor(of, system));
}

/** A range in one system, both ends in the unit that suits the larger: "9.491–12.2 N·m". */
export function printRange<K extends Kind>(range: Range<K>, system: System): string {
  if (range.low.si === range.high.si) return printQuantity(range.high, system);
  const larger = Math.abs(range.low.si) > Math.abs(range.high.si) ? range.low : range.high;
  const unit = unitFor(larger, system);
  const low = figureIn(range.low, unit);
  const high = figureIn(range.high, unit);
  // A dash before a minus reads badly.
  return withUnit(high.startsWith('−') || low.startsWith('−') ? `${low} to ${high}` : `${low}–${high}`, unit);
}

/** A quantity in both systems: "15.875 mm (5/8 in)"; once only where they agree. */
export function printBoth<K extends Kind>(of: Quantity<K>): string {
  const metric = printQuantity(of, 'metric');
  const inch = printQuantity(of, 'inch');
  return metric === inch ? metric : `${metric} (${inch})`;
}

/** A range in both systems: "9.491–12.2 N·m (7–9 lbf·ft)"; once only where they agree. */
export function printRangeBoth<K extends Kind>(range: Range<K>): string {
  const metric = printRange(range, 'metric');
  const inch = printRange(range, 'inch');
  return metric === inch ? metric : `${metric} (${inch})`;
}
