/**
 * Room `units`: quantities, the way people write them and the way a computer can trust them. Text is parsed once
 * at the door (parse.ts) into a quantity, a number in SI units whose kind is in its type, and printed again at the
 * way out in both systems (print.ts). Factors are exact fractions (table.ts); the only rounding is the last one,
 * to the nearest double. The room knows nothing of motorcycles.
 *
 * Tried and left: factors as doubles multiplied on the way (5/8 in came out as 15.874999999999998 mm), and one
 * table without kinds (a foot-pound then passed for a joule).
 */
import type { Kind } from './kind.ts';
import { fromNumber, minus, over, plus, type Rational, times, toNumber } from './rational.ts';
import { type UnitOf, unitNamed } from './table.ts';
import type { Unit } from './unit.ts';

export interface Quantity<K extends Kind> {
  readonly kind: K;
  /** Value in the SI unit of its kind (kind.ts); always finite. Rotation is in revolutions a second. */
  readonly si: number;
}

/** A quantity of whichever kind; narrow it by `kind`. */
export type AnyQuantity = { readonly [K in Kind]: Quantity<K> }[Kind];

export interface Range<K extends Kind> {
  readonly low: Quantity<K>;
  /** Never below low. */
  readonly high: Quantity<K>;
}

/** Exact SI value of a figure in a unit. */
export function exactSi(value: Rational, unit: Unit): Rational {
  return plus(times(value, unit.factor), unit.offset);
}

/** A quantity from a finite number in a unit: `quantity('torque', 8, 'lbf·ft')`. Throws RangeError otherwise. */
export function quantity<K extends Kind>(kind: K, value: number, unit: UnitOf<K>): Quantity<K> {
  if (!Number.isFinite(value)) throw new RangeError(`value must be a finite number, got ${value}`);
  const si = toNumber(exactSi(fromNumber(value), unitNamed(kind, unit)));
  if (!Number.isFinite(si)) throw new RangeError(`value must stay finite in SI units, got ${value} ${unit}`);
  return { kind, si };
}

/** Value of a quantity in a unit of its kind, the double nearest to the exact quotient, in that unit. */
export function inUnit<K extends Kind>(of: Quantity<K>, unit: UnitOf<K>): number {
  const known = unitNamed(of.kind, unit);
  return toNumber(over(minus(fromNumber(of.si), known.offset), known.factor));
}
