/**
 * Event ids: a hybrid logical clock as one string, `<time>-<count>-<device>`, e.g. `0mk8q3z5s-0001-bench`.
 * Time is milliseconds since 1970 in base 36, nine digits; count is base 36, four digits; so plain string order is
 * the order of time, then count, then device. A device takes the greater of its own clock and the greatest stamp
 * it has seen, so an event written after reading another always sorts after it, even where clocks disagree.
 * Method: Kulkarni et al., "Logical Physical Clocks", 2014, with the counter and the time kept in one string.
 *
 * Rejected: UUIDv7 (random tail, so two events of one device in one millisecond may swap), a counter per device
 * alone (does not interleave two devices sensibly).
 */
import type { Envelope, EventBody, JobEvent } from './event.ts';

const TIME_DIGITS = 9;
const COUNT_DIGITS = 4;
const COUNT_LIMIT = 36 ** COUNT_DIGITS;
/** Stamps past this are refused: one broken clock must not use up the room that every later stamp needs. */
const LATEST_MS = Date.UTC(2200, 0, 1);

const STAMP = /^([0-9a-z]{9})-([0-9a-z]{4})-([a-z0-9]{1,16})$/;
const DEVICE = /^[a-z0-9]{1,16}$/;

export interface Stamp {
  /** Time, ms since 1970. */
  readonly ms: number;
  /** Which event of that millisecond, 0–1679615. */
  readonly count: number;
  readonly device: string;
}

/** Whether a text can be the name of a device: 1–16 of `a`–`z`, `0`–`9`. */
export function isDevice(text: string): boolean {
  return DEVICE.test(text);
}

/** Reads an id; null when the text is none, or lies after the year 2199. */
export function readStamp(id: string): Stamp | null {
  const match = STAMP.exec(id);
  if (!match) return null;
  const ms = Number.parseInt(match[1]!, 36);
  return ms < LATEST_MS ? { ms, count: Number.parseInt(match[2]!, 36), device: match[3]! } : null;
}

/** Writes an id. Throws RangeError outside 1970–2199, a count outside its four digits, or a device name with other signs. */
export function writeStamp(stamp: Stamp): string {
  if (!Number.isInteger(stamp.ms) || stamp.ms < 0 || stamp.ms >= LATEST_MS) {
    throw new RangeError(`stamp.ms must be whole milliseconds from 1970 to 2199, got ${stamp.ms}`);
  }
  if (!Number.isInteger(stamp.count) || stamp.count < 0 || stamp.count >= COUNT_LIMIT) {
    throw new RangeError(`stamp.count must be 0–${COUNT_LIMIT - 1}, got ${stamp.count}`);
  }
  if (!isDevice(stamp.device)) {
    throw new RangeError(`stamp.device must be 1–16 of a–z and 0–9, got ${JSON.stringify(stamp.device)}`);
  }
  const time = stamp.ms.toString(36).padStart(TIME_DIGITS, '0');
  return `${time}-${stamp.count.toString(36).padStart(COUNT_DIGITS, '0')}-${stamp.device}`;
}

/**
 * The id for a device's next event.
 * @param last greatest id this device has seen, its own or another's; null when none
 * @param nowMs what its clock says, ms since 1970
 * Throws RangeError when `last` is no id or the clock is out of range.
 */
export function nextStamp(last: string | null, nowMs: number, device: string): string {
  const now = Math.floor(nowMs);
  if (last === null) return writeStamp({ ms: now, count: 0, device });
  const seen = readStamp(last);
  if (!seen) throw new RangeError(`last must be an event id, got ${JSON.stringify(last)}`);
  if (now > seen.ms) return writeStamp({ ms: now, count: 0, device });
  const full = seen.count + 1 === COUNT_LIMIT;
  return writeStamp({ ms: full ? seen.ms + 1 : seen.ms, count: full ? 0 : seen.count + 1, device });
}

/** The greater of two ids, as the `last` of the next stamp; null counts as the least. */
export function laterStamp(a: string | null, b: string | null): string | null {
  if (a === null) return b;
  return b !== null && b > a ? b : a;
}

/** Puts an event together: stamps it and writes down the clock. `nowMs` is ms since 1970. */
export function writeEvent<B extends EventBody>(
  envelope: Pick<Envelope, 'job' | 'who' | 'device'>,
  body: B,
  last: string | null,
  nowMs: number,
): Envelope & B {
  const { job, who, device } = envelope;
  return { id: nextStamp(last, nowMs, device), job, at: new Date(nowMs).toISOString(), who, device, ...body };
}

/** Events in the one order everybody agrees on, each id once. Pure; the argument is left alone. */
export function inOrder(events: readonly JobEvent[]): readonly JobEvent[] {
  // A log mostly comes in order already: a long one is then looked over, not sorted and gathered anew.
  if (events.every((event, n) => n === 0 || events[n - 1]!.id < event.id)) return events;
  const byId = new Map<string, JobEvent>();
  for (const event of events) {
    const other = byId.get(event.id);
    // Two contents under one id can only come from a broken writer; whichever is kept must not depend on order.
    if (!other || canonical(event) < canonical(other)) byId.set(event.id, event);
  }
  return [...byId.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
}

/** An event as text with its fields sorted by name: equal texts are equal events. */
export function canonical(event: JobEvent): string {
  return JSON.stringify(sorted(event));
}

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (value === null || typeof value !== 'object') return value;
  const fields = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
  return Object.fromEntries(fields.map(([name, inner]) => [name, sorted(inner)]));
}
