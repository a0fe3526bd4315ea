/** What a unit is: its printed symbol, its UCUM code, its exact factor and the names people write for it. */
import { decimal, type Rational, rational } from './rational.ts';

export interface Unit<Id extends string = string> {
  /** Symbol as printed; it also names the unit in code. */
  readonly id: Id;
  /** Code in the Unified Code for Units of Measure. */
  readonly ucum: string;
  /** SI value = entered value × factor + offset, exactly. */
  readonly factor: Rational;
  readonly offset: Rational;
  /** False where the factor holds π, cut after 50 places: no double can tell the difference. */
  readonly exact: boolean;
  /** Names that mean this unit wherever they stand. Spaces, dots and hyphens in them do not matter. */
  readonly names: readonly string[];
  /** Names that mean this unit only where its kind is wanted ("lb" for a force, "C" for a temperature). */
  readonly loose: readonly string[];
}

const ZERO = rational(0n);

function split(names: string): readonly string[] {
  return names === '' ? [] : names.split(',').map((name) => name.trim());
}

/** A unit proportional to its SI unit. `factor` is a decimal text or a fraction; names are separated by commas. */
export function unit<const Id extends string>(
  id: Id,
  ucum: string,
  factor: string | Rational,
  names = '',
  loose = '',
): Unit<Id> {
  const exactFactor = typeof factor === 'string' ? decimal(factor) : factor;
  return {
    id,
    ucum,
    factor: exactFactor,
    offset: ZERO,
    exact: true,
    names: split(names),
    loose: split(loose),
  };
}

/** A unit whose nought is not the SI unit's nought. */
export function offsetUnit<const Id extends string>(
  id: Id,
  ucum: string,
  factor: Rational,
  offset: Rational,
  names: string,
  loose: string,
): Unit<Id> {
  return { ...unit(id, ucum, factor, names, loose), offset };
}

/** A unit whose factor holds π, so that no fraction is exact. */
export function roundUnit<const Id extends string>(
  id: Id,
  ucum: string,
  factor: Rational,
  names: string,
): Unit<Id> {
  return { ...unit(id, ucum, factor, names), exact: false };
}
