/** Figures as they stand in a sentence of this room: both systems, and no more digits than a garage can use. */
import { printBoth, printNumber } from '../units/print.ts';
import { type Quantity, quantity } from '../units/quantity.ts';
import type { Interval } from './require.ts';

/** Three digits or as many as asked, as text without an exponent. */
function digits(value: number, count = 3): string {
  return printNumber(Number(value.toPrecision(count)));
}

const LBF_FT = quantity('torque', 1, 'lbf·ft').si;
const LBF_IN = quantity('torque', 1, 'lbf·in').si;
const LBF = quantity('force', 1, 'lbf').si;

/** "12.2 N·m (9 lbf·ft)"; below 5 lbf·ft in lbf·in. */
export function sayTorque(newtonMetres: number): string {
  const small = Math.abs(newtonMetres) < 5 * LBF_FT;
  const inch = newtonMetres / (small ? LBF_IN : LBF_FT);
  return `${digits(newtonMetres)} N·m (${digits(inch)} ${small ? 'lbf·in' : 'lbf·ft'})`;
}

function torques({ low, high }: Interval, count: number): string {
  const small = Math.abs(high) < 5 * LBF_FT;
  const factor = small ? LBF_IN : LBF_FT;
  const pair = (a: number, b: number) => {
    const [first, last] = [digits(a, count), digits(b, count)];
    return first === last ? last : `${first}–${last}`;
  };
  return `${pair(low, high)} N·m (${pair(low / factor, high / factor)} ${small ? 'lbf·in' : 'lbf·ft'})`;
}

/** "9.5–12.2 N·m (7–9 lbf·ft)". */
export function sayTorques(of: Interval): string {
  return torques(of, 3);
}

/** "9.5–12 N·m (7–8.9 lbf·ft)": two digits, for what is only estimated. */
export function sayEstimate(of: Interval): string {
  return torques(of, 2);
}

/** "225 N (50.6 lbf)". */
export function sayForce(newtons: number): string {
  return `${digits(newtons)} N (${digits(newtons / LBF)} lbf)`;
}

/** "0.6 m (23.6 in)", "102 mm (4 in)". */
export function sayLength(metres: number): string {
  const inches = digits(metres / 0.0254);
  return metres >= 0.5 ? `${digits(metres)} m (${inches} in)` : `${digits(metres * 1000)} mm (${inches} in)`;
}

/** "20 °C (68 °F)". */
export function sayCelsius(celsius: number): string {
  const of: Quantity<'temperature'> = quantity('temperature', Math.round(celsius), '°C');
  return printBoth({ kind: of.kind, si: of.si });
}

/** "12 %". */
export function sayShare(share: number): string {
  return `${digits(share * 100)} %`;
}

/** "12 min", "3.5 h", "2 days": two digits. */
export function sayTime(seconds: number): string {
  const two = (value: number) => printNumber(Number(value.toPrecision(2)));
  if (seconds < 90 * 60) return `${two(seconds / 60)} min`;
  if (seconds < 48 * 3600) return `${two(seconds / 3600)} h`;
  return `${two(seconds / 86400)} days`;
}

/** "10 min to 2 h". */
export function sayTimes({ low, high }: Interval): string {
  const [first, last] = [sayTime(low), sayTime(high)];
  if (first === last) return first;
  const [a = '', unit] = first.split(' ');
  return last.endsWith(` ${unit}`) ? `${a}–${last}` : `${first} to ${last}`;
}

/** "1, 3 and 4". */
export function sayList(items: readonly (number | string)[]): string {
  if (items.length < 2) return `${items[0] ?? ''}`;
  return `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}
