/** A result as one line: figure or interval in both systems, with no more digits than it can bear. */
import type { Kind } from '../units/kind.ts';
import { printNumber, printRange, type System, unitFor } from '../units/print.ts';
import { inUnit, type Quantity, quantity } from '../units/quantity.ts';
import type { Line } from './sum.ts';

interface Interval {
  readonly low: number;
  readonly high: number;
}

function shownIn<K extends Kind>(kind: K, { low, high }: Interval, digits: number, system: System): string {
  const larger: Quantity<K> = { kind, si: Math.abs(low) > Math.abs(high) ? low : high };
  const unit = unitFor(larger, system);
  const round = (si: number) =>
    quantity(kind, Number(inUnit({ kind, si } as Quantity<K>, unit).toPrecision(digits)), unit);
  return printRange({ low: round(low), high: round(high) }, system);
}

/** An SI interval in both systems with so many significant digits: "2.83 N·m (25 lbf·in)". */
export function shown(kind: Kind, interval: Interval, digits = 3): string {
  const metric = shownIn(kind, interval, digits, 'metric');
  const inch = shownIn(kind, interval, digits, 'inch');
  return metric === inch ? metric : `${metric} (${inch})`;
}

/** A line for a quantity; `says` gets the figure in both systems. */
export function figureLine(
  id: string,
  words: string,
  kind: Kind,
  interval: Interval,
  digits: number,
  says: (figure: string) => string,
): Line {
  return {
    id,
    words,
    metric: shownIn(kind, interval, digits, 'metric'),
    inch: shownIn(kind, interval, digits, 'inch'),
    says: says(shown(kind, interval, digits)),
  };
}

/** A length in one system, to a decimal place no finer than `place`, m. */
function lengthTo({ low, high }: Interval, place: number, system: System): string {
  const unit = unitFor({ kind: 'length', si: Math.abs(low) > Math.abs(high) ? low : high }, system);
  const one = quantity('length', 1, unit).si;
  // The decimal place at or under it, in the unit that is shown; a hair of rounding must not take the next finer.
  const decimals = Math.max(0, -Math.floor(Math.log10(place / one) + 1e-9));
  const round = (si: number) => quantity('length', Number((si / one).toFixed(decimals)), unit);
  return printRange({ low: round(low), high: round(high) }, system);
}

/** A length in both systems to a decimal place: "6.22–6.48 mm (0.245–0.255 in)". */
export function shownTo(interval: Interval, place: number): string {
  return `${lengthTo(interval, place, 'metric')} (${lengthTo(interval, place, 'inch')})`;
}

/** A line for a length that is known to a decimal place, not to so many digits. */
export function placedLine(
  id: string,
  words: string,
  interval: Interval,
  place: number,
  says: (figure: string) => string,
): Line {
  const metric = lengthTo(interval, place, 'metric');
  const inch = lengthTo(interval, place, 'inch');
  return { id, words, metric, inch, says: says(shownTo(interval, place)) };
}

/** A line whose figure has no unit, or is a word. */
export function wordLine(id: string, words: string, figure: string | number, says: string): Line {
  const text = typeof figure === 'number' ? printNumber(figure) : figure;
  return { id, words, metric: text, inch: text, says };
}
