/** The table of units: every unit of every kind. */
import { ELECTRICAL } from './electrical.ts';
import type { Kind } from './kind.ts';
import { MECHANICAL } from './mechanical.ts';
import type { Unit } from './unit.ts';

export const UNITS = { ...MECHANICAL, ...ELECTRICAL } as const satisfies Record<Kind, readonly Unit[]>;

/** Units a quantity of kind K can be given or shown in, by symbol. */
export type UnitOf<K extends Kind> = (typeof UNITS)[K][number]['id'];

/** The units of a kind, the SI unit among them. */
export function unitsOf(kind: Kind): readonly Unit[] {
  return UNITS[kind];
}

/** The unit with this symbol. Throws RangeError when the kind has none such. */
export function unitNamed(kind: Kind, id: string): Unit {
  const found = unitsOf(kind).find((unit) => unit.id === id);
  if (!found) throw new RangeError(`unit must be a unit of ${kind}, got "${id}"`);
  return found;
}
