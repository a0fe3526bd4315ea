/** Chapters of a film: what a mark and a tick make of a clip. The ten seconds are common practice, no source. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { EventBody, JobEvent } from '../../src/job/event.ts';
import { writeEvent } from '../../src/job/stamp.ts';
import { filmOf, SHORTEST } from '../../src/paper/chapters.ts';

const START = Date.UTC(2026, 0, 17, 19);
type Line = readonly [second: number, body: EventBody, device?: string, clockAhead?: number];

const mark = (what: 'start' | 'stop' | 'clap', number = 1, step = ''): EventBody => ({
  type: 'clipMarked',
  what,
  number,
  step,
});
const done = (step: string): EventBody => ({ type: 'stepDone', step, seen: null });
const begun = (step: string): EventBody => ({ type: 'stepBegun', step, seen: null });

/** A log of devices that hear of each other at once; `clockAhead`, s, is how wrong a device's clock is. */
function log(lines: readonly Line[]): JobEvent[] {
  const events: JobEvent[] = [];
  for (const [second, body, device = 'phone', clockAhead = 0] of lines)
    events.push(
      writeEvent(
        { job: 'j', who: '', device },
        body,
        events.at(-1)?.id ?? null,
        START + (second + clockAhead) * 1000,
      ),
    );
  return events;
}
const film = (...lines: readonly Line[]) => filmOf(log(lines), (step) => `Do ${step}`);
const told = (...lines: readonly Line[]) =>
  film(...lines).clips[0]!.chapters.map(({ from, title }) => [from / 1000, title]);

describe('a clip', () => {
  it('has a chapter a step, from the tick before to its own, counted from its start', () => {
    expect(
      told([100, mark('start')], [160, done('a')], [400, done('b')], [450, mark('stop', 1, 'c')]),
    ).toEqual([
      [0, 'Do a'],
      [60, 'Do b'],
      [300, 'Do c'],
    ]);
  });

  it('that ends with a tick has no rest, and one without any tick is one chapter', () => {
    expect(told([0, mark('start')], [60, done('a')], [60, mark('stop', 1, 'b')])).toEqual([[0, 'Do a']]);
    expect(told([0, mark('start', 1, 'a')], [60, mark('stop')])).toEqual([[0, 'Do a']]);
    expect(told([0, mark('start', 7)], [60, mark('stop', 7)])).toEqual([[0, 'Clip 7']]);
    expect(told([0, mark('start')], [60, done('a')], [90, mark('stop')])).toEqual([
      [0, 'Do a'],
      [60, 'The rest'],
    ]);
  });

  it('leaves out what was ticked before it and after it', () => {
    expect(
      told([0, done('x')], [10, mark('start')], [70, done('a')], [70, mark('stop')], [500, done('y')]),
    ).toEqual([[0, 'Do a']]);
  });

  it('keeps claps, in ms from its start, for laying sound on film', () => {
    const { clips, says } = film(
      [0, mark('clap', 1)],
      [10, mark('start')],
      [12.34, mark('clap', 2)],
      [80, mark('stop')],
    );
    expect(clips[0]!.claps).toEqual([{ number: 2, at: 2340 }]);
    expect(says).toEqual(['Clap 1 fell into no clip.']);
  });

  it('that was never stopped ends with its last entry, and it is said', () => {
    const { clips } = film([0, mark('start')], [60, done('a')], [100, { type: 'noteAdded', text: 'x' }]);
    expect(clips[0]).toMatchObject({ open: true, length: 100_000 });
    expect(clips[0]!.says.join()).toMatch(/Clip 1 was never stopped.*last entry, at 1:40/);
  });

  it('that was never stopped ends before the next one of its device', () => {
    const { clips } = film(
      [0, mark('start')],
      [60, done('a')],
      [3600, mark('start', 2)],
      [3700, done('b')],
      [3700, mark('stop', 2)],
    );
    expect(clips.map(({ number, length, open }) => [number, length, open])).toEqual([
      [1, 60_000, true],
      [2, 100_000, false],
    ]);
  });

  it('that was started by nobody has no chapters, and it is said', () => {
    expect(film([0, mark('stop', 4)])).toEqual({
      clips: [],
      says: ['Clip 4 was stopped but never started: it has no chapters.'],
    });
  });

  it('of two devices that counted the same has a name of its own', () => {
    const names = film(
      [0, mark('start', 3), 'phone'],
      [5, mark('start', 3), 'tablet'],
      [60, done('a'), 'phone'],
      [90, mark('stop', 3), 'phone'],
      [95, mark('stop', 3), 'tablet'],
    ).clips.map(({ name, length, chapters }) => [name, length, chapters[0]?.to]);
    expect(names).toEqual([
      ['clip-03', 90_000, 60_000],
      ['clip-03-b', 90_000, 55_000],
    ]);
  });

  it('struck is none', () => {
    const events = log([
      [0, mark('start')],
      [60, done('a')],
    ]);
    const strike = writeEvent(
      { job: 'j', who: '', device: 'phone' },
      { type: 'entryStruck', event: events[0]!.id },
      events[1]!.id,
      START + 70_000,
    );
    expect(filmOf([...events, strike], String).clips).toEqual([]);
  });
});

describe('ticks', () => {
  it('said twice, or of what ran by itself, make one chapter', () => {
    expect(
      told(
        [0, mark('start')],
        [60, begun('charge')],
        [120, done('a')],
        [180, done('a'), 'tablet'],
        [240, done('charge')],
        [300, done('b')],
        [300, mark('stop')],
      ),
    ).toEqual([
      [0, 'Do charge'],
      [60, 'Do a'],
      [120, 'Do b'],
    ]);
  });

  it('taken back and given again count again', () => {
    expect(
      told(
        [0, mark('start')],
        [60, done('a')],
        [90, { type: 'stepUndone', step: 'a' }],
        [180, done('a')],
        [180, mark('stop')],
      ),
    ).toEqual([
      [0, 'Do a'],
      [60, 'Do a'],
    ]);
  });

  it('closer than ten seconds go into the chapter before, the first into the one after', () => {
    expect(
      told(
        [0, mark('start')],
        [2, done('a')],
        [100, done('b')],
        [105, done('c')],
        [109, done('d')],
        [119, done('e')],
        [119, mark('stop')],
      ),
    ).toEqual([
      [0, 'Do a · Do b · Do c and 1 more'],
      [109, 'Do e'],
    ]);
  });

  it('of a clock that is wrong stay in their order, and it is said', () => {
    const { clips } = film(
      [0, mark('start')],
      [60, done('a')],
      [120, done('b'), 'tablet', -3600],
      [180, done('c')],
      [240, done('d'), 'tablet', 3600],
      [300, mark('stop')],
    );
    expect(clips[0]!.length).toBe(300_000);
    expect(clips[0]!.chapters.map(({ title, to }) => [title, to])).toEqual([
      ['Do a · Do b', 60_000],
      ['Do c', 180_000],
      ['Do d', 300_000],
    ]);
    expect(clips[0]!.says.join()).toMatch(/clocks of two devices are apart/);
  });

  it('of kinds that this version does not know change nothing', () => {
    const events = log([
      [0, mark('start')],
      [60, done('a')],
      [90, mark('stop')],
    ]);
    const later = { ...events[1]!, id: events[1]!.id.replace('phone', 'zzz'), type: 'weatherNoted' } as never;
    expect(filmOf([...events, later], String)).toEqual(filmOf(events, String));
  });
});

const line: fc.Arbitrary<Line> = fc.tuple(
  fc.integer({ min: 0, max: 4000 }),
  fc.oneof(
    fc
      .record({
        what: fc.constantFrom('start' as const, 'stop' as const, 'clap' as const),
        number: fc.integer({ min: 1, max: 4 }),
      })
      .map(({ what, number }) => mark(what, number)),
    fc.constantFrom('a', 'b', 'c', 'd', 'e').map(done),
    fc.constantFrom('a', 'b').map(begun),
    fc.constantFrom('a', 'b', 'c').map((step): EventBody => ({ type: 'stepUndone', step })),
  ),
  fc.constantFrom('phone', 'tablet', 'laptop'),
  fc.constantFrom(0, 0, 0, -700, 4000),
);

it('whatever the log: chapters begin at 0, follow each other without gaps, and are as long as the clip', () => {
  let clips = 0;
  fc.assert(
    fc.property(
      fc.array(line, { minLength: 4, maxLength: 40, size: 'max' }),
      fc.boolean(),
      (lines, shuffled) => {
        const sorted = [...lines].sort(([a], [b]) => a - b);
        const events = log(sorted);
        const told = filmOf(shuffled ? events.toReversed() : events, (step) => step);
        expect(told).toEqual(filmOf(events, (step) => step));
        const names = told.clips.map(({ name }) => name);
        expect(new Set(names).size).toBe(names.length);
        for (const { chapters, claps, length } of told.clips) {
          clips++;
          expect(length).toBeGreaterThanOrEqual(0);
          expect(chapters[0]!.from).toBe(0);
          expect(chapters.at(-1)!.to).toBe(length);
          for (const [n, chapter] of chapters.entries()) {
            expect(chapter.title).not.toBe('');
            if (n > 0) expect(chapter.from).toBe(chapters[n - 1]!.to);
            if (chapters.length > 1) expect(chapter.to - chapter.from).toBeGreaterThanOrEqual(SHORTEST);
          }
          for (const { at } of claps) expect(at >= 0 && at <= length).toBe(true);
        }
      },
    ),
    { numRuns: 500 },
  );
  expect(clips).toBeGreaterThan(500);
});
