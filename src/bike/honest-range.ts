/** Figures as they may honestly be written after they were measured: a range as wide as meter and hand leave it. */
import { type EntryKind, readAs } from '../machine/entry.ts';
import type { Json, JsonObject } from '../machine/json-value.ts';

export interface Span {
  readonly low: number;
  readonly high: number;
}

/** Standard deviations to each side of a range, dimensionless: nineteen in twenty of a normal error lie within. */
export const SIGMAS = 2;

/** The smallest span that holds them all. Throws RangeError for none. */
export function spanOf(spans: readonly Span[]): Span {
  if (spans.length === 0) throw new RangeError('spans must not be empty, got none');
  return { low: Math.min(...spans.map((one) => one.low)), high: Math.max(...spans.map((one) => one.high)) };
}

/** A range as text, rounded outwards to a tenth of its half width, so that it never claims more than was measured. */
export function writeSpan({ low, high }: Span, unit: string): string {
  const half = (high - low) / 2;
  const size = Math.max(half, Math.abs(high) * 1e-4, 1e-9);
  const digits = Math.min(9, Math.max(0, -Math.floor(Math.log10(size) + 1e-9)));
  const step = 10 ** -digits;
  const [from, to] = [
    (Math.floor(low / step + 1e-6) * step).toFixed(digits),
    (Math.ceil(high / step - 1e-6) * step).toFixed(digits),
  ];
  return from === to ? `${from} ${unit}` : `${from}–${to} ${unit}`;
}

/** Whether two spans say the same thing: the middle of either lies in the other. */
export function agree(a: Span, b: Span): boolean {
  const inside = (value: number, of: Span) =>
    value >= of.low - 1e-9 * Math.abs(of.low) && value <= of.high + 1e-9 * Math.abs(of.high);
  return inside((a.low + a.high) / 2, b) || inside((b.low + b.high) / 2, a);
}

/** What a figure of the file says, in its SI unit; null where its text is none. */
export function readSpan(said: JsonObject, kind: EntryKind): Span | null {
  const read = typeof said.is === 'string' ? readAs(said.is, kind) : null;
  return read?.ok ? { low: read.low, high: read.high } : null;
}

/** The engine speed at which a figure holds, rpm; null where it names none. */
export function speedOf(at: Json | undefined): number | null {
  const read = typeof at === 'string' ? readAs(at, 'rpm') : null;
  return read?.ok ? (read.low + read.high) / 2 : null;
}
