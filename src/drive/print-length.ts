/** Lengths as they stand in a sentence, in both systems, with the digits that a rule or a gauge can tell. */
import { printIn } from '../units/print.ts';
import { quantity } from '../units/quantity.ts';

const INCH = 0.0254;

function rounded(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}

/** "5/8 in", "0.827 in", "30 thou"; a fraction only where it is exact. */
function inchWords(metres: number, thouDecimals: number): string {
  const inches = metres / INCH;
  const sixtyFourths = Math.round(inches * 64);
  // A hair of a nanometre: a fraction that was typed, not one that was hit by chance.
  if (sixtyFourths !== 0 && Math.abs(inches * 64 - sixtyFourths) < 1e-6)
    return printIn(quantity('length', sixtyFourths / 64, 'in'), 'in');
  if (Math.abs(inches) < 0.1)
    return printIn(quantity('length', rounded(inches * 1000, thouDecimals), 'thou'), 'thou');
  // Rounding must not turn a decimal into a fraction that it is not.
  return `${rounded(inches, Math.abs(inches) < 10 ? 3 : 2)} in`.replace('-', '−');
}

/** A length read with a rule: "15.9 mm" beyond a centimetre, "8.22 mm" below; an exact 64th of an inch stays exact. */
export function printLength(metres: number): string {
  const inch = inchWords(metres, 0);
  const mm = metres * 1000;
  const exact = inch.includes('/');
  const metric = quantity('length', rounded(mm, exact ? 4 : Math.abs(mm) < 10 ? 2 : 1), 'mm');
  return metres === 0 ? '0 mm' : `${printIn(metric, 'mm')} (${inch})`;
}

/** A length read with a micrometer: "0.762 mm (30 thou)". */
export function printFine(metres: number): string {
  if (metres === 0) return '0 mm';
  const metric = quantity('length', rounded(metres * 1000, 3), 'mm');
  return `${printIn(metric, 'mm')} (${inchWords(metres, 1)})`;
}
