/**
 * Reminders as iCalendar, RFC 5545: whole-day events, lines of at most 75 octets that end in CRLF (3.1), text escaped
 * (3.3.11), an alarm on the day (3.6.6). The name of an event never changes and its SEQUENCE only grows (3.8.4.7,
 * 3.8.7.4): a calendar that takes the file in again replaces what it has instead of doubling it. Of the owner nothing is
 * in it but the job's title.
 */
import type { Reminder } from './reminders.ts';

export interface CalendarOf {
  readonly reminders: readonly Reminder[];
  /** Id of the job; only a mark made of it gets into the file. */
  readonly job: string;
  /** When the job was opened, ISO 8601 in UTC: two garages may have given two jobs one id. */
  readonly openedAt: string;
  readonly title: string;
  readonly invented: boolean;
  /** When the file was put together, ISO 8601 in UTC. */
  readonly at: string;
  /** Grows with the job's log: the count of its entries. */
  readonly sequence: number;
}

/** Octets a line may have besides its CRLF, RFC 5545, 3.1. */
const LINE = 75;
/** The alarm: nine in the morning of the day, wherever the calendar is. */
const ALARM = 'PT9H';

/** The calendar as text. Throws RangeError for a time that is none. */
export function calendarText(of: CalendarOf): string {
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Chargewright//Reminders//EN',
    'CALSCALE:GREGORIAN',
    ...of.reminders.flatMap((reminder) => eventLines(reminder, of)),
    'END:VCALENDAR',
  ];
  return lines.map((line) => `${fold(line)}\r\n`).join('');
}

function eventLines(reminder: Reminder, of: CalendarOf): readonly string[] {
  const { id, day, title, does, source, orAfter } = reminder;
  const summary = `${title}: ${of.title}${of.invented ? ' (invented)' : ''}`;
  const words = [...does, ...(orAfter === null ? [] : [orAfter]), source].join('\n');
  return [
    'BEGIN:VEVENT',
    `UID:${escaped(`${id}.${mark(`${of.job} ${of.openedAt}`)}@chargewright.invalid`)}`,
    `DTSTAMP:${stamp(of.at)}`,
    `SEQUENCE:${of.sequence}`,
    `DTSTART;VALUE=DATE:${plainDay(day)}`,
    `DTEND;VALUE=DATE:${plainDay(nextDay(day))}`,
    `SUMMARY:${escaped(summary)}`,
    `DESCRIPTION:${escaped(words)}`,
    'TRANSP:TRANSPARENT',
    'BEGIN:VALARM',
    'ACTION:DISPLAY',
    `TRIGGER:${ALARM}`,
    `DESCRIPTION:${escaped(summary)}`,
    'END:VALARM',
    'END:VEVENT',
  ];
}

/** A text as a value, RFC 5545, 3.3.11. Control characters may not be in it. */
function escaped(text: string): string {
  return text
    .replace(/\r\n?/g, '\n')
    .replace(/(?!\n)\p{Cc}|\p{Cs}/gu, ' ')
    .replace(/[\\;,]/g, '\\$&')
    .replaceAll('\n', '\\n');
}

/** A line cut into pieces of at most 75 octets, each but the first after CRLF and a space; never inside a letter. */
export function fold(line: string): string {
  const pieces: string[] = [];
  let piece = '';
  let octets = 0;
  for (const letter of line) {
    const more = octetsOf(letter.codePointAt(0)!);
    // The space that marks a piece as going on counts too.
    if (octets + more > LINE) {
      pieces.push(piece);
      piece = '';
      octets = 1;
    }
    piece += letter;
    octets += more;
  }
  return [...pieces, piece].join('\r\n ');
}

/** Octets of a letter in UTF-8, RFC 3629, 3. */
function octetsOf(point: number): number {
  if (point < 0x80) return 1;
  if (point < 0x800) return 2;
  return point < 0x10000 ? 3 : 4;
}

/** A job's mark, 16 hexadecimal digits: its id may be somebody's name. FNV-1a, 64 bits, over UTF-16 units. */
function mark(text: string): string {
  let hash = 0xcbf29ce484222325n;
  for (let i = 0; i < text.length; i++)
    hash = BigInt.asUintN(64, (hash ^ BigInt(text.charCodeAt(i))) * 0x100000001b3n);
  return hash.toString(16).padStart(16, '0');
}

/** "20260117T210405Z". */
function stamp(iso: string): string {
  const ms = Date.parse(iso);
  if (!Number.isFinite(ms)) throw new RangeError(`at must be a time in UTC, got ${iso}`);
  return `${new Date(ms).toISOString().slice(0, 19).replace(/[-:]/g, '')}Z`;
}

function plainDay(day: string): string {
  return day.replaceAll('-', '');
}

function nextDay(day: string): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) + 86_400_000).toISOString().slice(0, 10);
}
