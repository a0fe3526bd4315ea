/** Lengths as they stand in a sentence, in both systems: "15.9 mm (0.625 in)". */
import { printBoth } from '../units/print.ts';
import { type Quantity, quantity } from '../units/quantity.ts';

/** A length to a hundredth of a millimetre: figures of this room come from rulers, gauges and formulas, not finer. */
export function printLength(metres: number): string {
  const rounded = Math.round(metres * 1e5) / 100;
  // A fraction of an inch that is exact stays exact: 5/8 in is 15.875 mm, not 15.88.
  const sixtyFourths = (metres / 0.0254) * 64;
  const exact = metres !== 0 && Math.abs(sixtyFourths - Math.round(sixtyFourths)) < 1e-6;
  const length: Quantity<'length'> = exact
    ? quantity('length', Math.round(sixtyFourths) / 64, 'in')
    : quantity('length', rounded, 'mm');
  return printBoth(length);
}
