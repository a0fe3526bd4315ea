/** The calendar, read back by ical.js, a parser that is not ours, and held to RFC 5545 where a parser is lenient. */
import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { type CalendarOf, calendarText, fold } from '../../src/paper/calendar-text.ts';
import type { Reminder } from '../../src/paper/reminders.ts';

const REMINDER: Reminder = {
  id: 'slack.primary',
  day: '2026-02-28',
  km: 500,
  orAfter: 'Or after 500 km (311 miles), whichever comes first.',
  title: 'Primary chain: slack again',
  does: ['Measure it, cold; at the tight spot: 5/8–7/8 in.', 'Then as the book says.'],
  source: 'Common practice, no source.',
};
const CALENDAR: CalendarOf = {
  reminders: [REMINDER],
  job: 'anas-bike',
  openedAt: '2026-01-17T19:30:00.000Z',
  title: 'Fades; again, at the ferry \\ “力”',
  invented: false,
  at: '2026-01-20T10:00:00.250Z',
  sequence: 41,
};
const octets = (text: string) => new TextEncoder().encode(text).length;

function eventsOf(text: string) {
  const calendar = new ICAL.Component(ICAL.parse(text));
  return calendar.getAllSubcomponents('vevent').map((event) => ({
    event: new ICAL.Event(event),
    component: event,
    value: (name: string) => event.getFirstPropertyValue(name),
  }));
}

describe('a reminder in the calendar', () => {
  const [{ event, component, value }] = eventsOf(calendarText(CALENDAR)) as [
    ReturnType<typeof eventsOf>[number],
  ];

  it('is a whole day, 3.6.1: a date to the day after', () => {
    expect([event.startDate.isDate, event.startDate.toString(), event.endDate.toString()]).toEqual([
      true,
      '2026-02-28',
      '2026-03-01',
    ]);
  });

  it('says what to do, when by distance, and who says so', () => {
    expect(event.summary).toBe('Primary chain: slack again: Fades; again, at the ferry \\ “力”');
    expect(event.description).toBe([...REMINDER.does, REMINDER.orAfter, REMINDER.source].join('\n'));
  });

  it('rings at nine in the morning of its day', () => {
    const alarm = component.getFirstSubcomponent('valarm')!;
    expect(alarm.getFirstPropertyValue('action')).toBe('DISPLAY');
    const trigger = alarm.getFirstPropertyValue('trigger') as ICAL.Duration;
    expect(trigger.toSeconds()).toBe(9 * 3600);
    expect(alarm.getFirstPropertyValue('description')).toBe(event.summary);
  });

  it('carries the time that was passed in, in UTC', () => {
    expect(String(value('dtstamp'))).toBe('2026-01-20T10:00:00Z');
  });

  it('keeps its name when it is made again, with a sequence that grows: taken in twice it is one', () => {
    const later = { ...CALENDAR, at: '2026-03-01T10:00:00.000Z', sequence: 44, title: 'Renamed' };
    const moved = { ...later, reminders: [{ ...REMINDER, day: '2026-03-05' }] };
    // As RFC 5546, 2.1.5 has a calendar keep them: by UID, the greater SEQUENCE.
    const kept = new Map<string, { sequence: number; start: string }>();
    for (const text of [calendarText(CALENDAR), calendarText(CALENDAR), calendarText(moved)])
      for (const { event: one } of eventsOf(text)) {
        const before = kept.get(one.uid);
        if (!before || one.sequence >= before.sequence)
          kept.set(one.uid, { sequence: one.sequence, start: one.startDate.toString() });
      }
    expect([...kept.values()]).toEqual([{ sequence: 44, start: '2026-03-05' }]);
  });

  it('of another job, or of a job of the same id opened at another time, has another name', () => {
    const names = [
      CALENDAR,
      { ...CALENDAR, job: 'another' },
      { ...CALENDAR, openedAt: '2026-01-18T19:30:00.000Z' },
    ].map((one) => eventsOf(calendarText(one))[0]!.event.uid);
    expect(new Set(names).size).toBe(3);
    // The job's id may be somebody's name.
    expect(names.join()).not.toMatch(/ana|another/);
  });

  it('of an invented job says so', () => {
    expect(eventsOf(calendarText({ ...CALENDAR, invented: true }))[0]!.event.summary).toMatch(
      /\(invented\)$/,
    );
  });
});

const words = fc.oneof(
  fc.string({ unit: 'grapheme', maxLength: 200 }),
  fc.string({
    unit: fc.constantFrom('\\', ';', ',', '\n', ':', '"', 'n', 'N', ' ', '力', '🛠', 'é'),
    maxLength: 120,
  }),
);

it('whatever the words: lines of at most 75 octets end in CRLF, no letter is cut, and the parser gives the words back', () => {
  fc.assert(
    fc.property(words, words, words, (title, does, source) => {
      const text = calendarText({
        ...CALENDAR,
        title,
        reminders: [{ ...REMINDER, does: [does], orAfter: null, source }],
      });
      expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
      expect(text.endsWith('\r\n')).toBe(true);
      const lines = text.slice(0, -2).split('\r\n');
      for (const line of lines) {
        expect(octets(line)).toBeLessThanOrEqual(75);
        expect(line.isWellFormed()).toBe(true);
      }
      const [{ event }] = eventsOf(text) as [ReturnType<typeof eventsOf>[number]];
      const plain = (said: string) => said.replace(/\r\n?/g, '\n').replace(/(?!\n)\p{Cc}|\p{Cs}/gu, ' ');
      expect(event.description).toBe(plain(`${does}\n${source}`));
      expect(event.summary).toBe(plain(`${REMINDER.title}: ${title}`));
    }),
    { numRuns: 1000 },
  );
});

it('a line is folded only where it must be, and unfolded it is what it was, RFC 5545, 3.1', () => {
  expect(fold('x'.repeat(75))).toBe('x'.repeat(75));
  expect(fold('x'.repeat(76))).toBe(`${'x'.repeat(75)}\r\n x`);
  expect(fold(`${'x'.repeat(73)}力`)).toBe(`${'x'.repeat(73)}\r\n 力`);
  expect(fold('x'.repeat(75 + 74))).toBe(`${'x'.repeat(75)}\r\n ${'x'.repeat(74)}`);
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme-composite', maxLength: 300 }), (line) => {
      const folded = fold(line.replace(/[\r\n]/g, ''));
      expect(folded.replaceAll('\r\n ', '')).toBe(line.replace(/[\r\n]/g, ''));
      const pieces = folded.split('\r\n');
      // A piece that has room for the next letter would not have been ended.
      for (const [n, piece] of pieces.slice(0, -1).entries())
        expect(octets(piece) + octets([...pieces[n + 1]!.slice(1)][0]!)).toBeGreaterThan(75);
    }),
  );
});

it('refuses a time that is none', () => {
  expect(() => calendarText({ ...CALENDAR, at: 'yesterday' })).toThrow(RangeError);
});
