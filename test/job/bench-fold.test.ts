import { describe, expect, it } from 'vitest';
import { checkEvent } from '../../src/job/check.ts';
import type { EventBody, JobEvent } from '../../src/job/event.ts';
import { foldJob } from '../../src/job/fold.ts';
import { writeEvent } from '../../src/job/stamp.ts';
import { liveEvents } from '../../src/job/struck.ts';

const T0 = Date.UTC(2026, 0, 17, 18);

/** Writes events one after another, a minute apart, on one device. */
function log(): { write: (body: EventBody) => JobEvent; all: JobEvent[] } {
  const all: JobEvent[] = [];
  return {
    all,
    write: (body) => {
      const at = T0 + 60_000 * all.length;
      const event = writeEvent({ job: 'j', who: '', device: 'bench' }, body, all.at(-1)?.id ?? null, at);
      all.push(event);
      return event;
    },
  };
}

const record = (step: string, ask = 'torque'): EventBody => ({
  type: 'recordMade',
  step,
  ask,
  yes: ['all'],
  figures: { torqueNm: 12 },
  words: { set: '12 N·m' },
});

describe('striking (rule 17)', () => {
  it('what was struck counts as if it never was, and comes back when the strike is struck', () => {
    const { write, all } = log();
    const tick = write({ type: 'stepDone', step: 'seat', seen: null });
    const without = foldJob([]).way.ticks;
    const strike = write({ type: 'entryStruck', event: tick.id });
    expect(foldJob(all).way.ticks).toEqual(without);
    const again = write({ type: 'entryStruck', event: strike.id });
    expect(foldJob(all).way.ticks.map(({ step }) => step)).toEqual(['seat']);
    write({ type: 'entryStruck', event: again.id });
    expect(foldJob(all).way.ticks).toEqual([]);
  });

  it('a strike of an un-ticking gives the tick and its record back', () => {
    const { write, all } = log();
    write(record('nut'));
    write({ type: 'stepDone', step: 'nut', seen: null });
    const undone = write({ type: 'stepUndone', step: 'nut' });
    expect(foldJob(all).bench.records).toEqual([]);
    expect(foldJob(all).way.ticks).toEqual([]);
    write({ type: 'entryStruck', event: undone.id });
    expect(foldJob(all).bench.records).toHaveLength(1);
    expect(foldJob(all).way.ticks).toHaveLength(1);
  });

  it('never strikes a reading, a verdict or the opening', () => {
    const { write, all } = log();
    const opened = write({ type: 'jobOpened', machine: 'm', title: 't', invented: true });
    const taken = write({
      type: 'readingTaken',
      key: 'rest_volts',
      value: 12.6,
      entered: '12.6',
      over: null,
    });
    write({ type: 'entryStruck', event: opened.id });
    write({ type: 'entryStruck', event: taken.id });
    expect(foldJob(all).opened?.machine).toBe('m');
    expect(liveEvents(all)).toHaveLength(4);
  });

  it('gives one state in whatever order the events arrive', () => {
    const { write, all } = log();
    const tick = write({ type: 'stepDone', step: 'seat', seen: null });
    write(record('nut'));
    write({ type: 'entryStruck', event: tick.id });
    expect(foldJob(all.toReversed())).toEqual(foldJob(all));
  });
});

describe('records (rule 18)', () => {
  it('count until their step is un-ticked', () => {
    const { write, all } = log();
    write(record('nut'));
    write(record('nut'));
    expect(foldJob(all).bench.records).toHaveLength(2);
    write({ type: 'stepUndone', step: 'nut' });
    write({ type: 'holdOverridden', step: 'nut', ask: 'torque', why: 'no wrench here' });
    const { bench } = foldJob(all);
    expect(bench.records).toEqual([]);
    expect(bench.overrides.map(({ why }) => why)).toEqual(['no wrench here']);
  });
});

describe('the door for bench entries', () => {
  const through = (body: EventBody) =>
    checkEvent(writeEvent({ job: 'j', who: '', device: 'bench' }, body, null, T0));

  it('lets through what the bench writes', () => {
    for (const body of [
      record('nut'),
      {
        type: 'recordMade',
        step: 's',
        ask: 'slack',
        yes: [],
        figures: { slackM: [0.016, 0.018] },
        words: {},
      },
      { type: 'holdOverridden', step: 's', ask: 'torque', why: 'none at hand' },
      { type: 'deviationNoted', step: 's', what: 'locker', used: 'high', why: '' },
      { type: 'photoAdded', photo: 'a'.repeat(64), step: '', about: '' },
      { type: 'clipMarked', what: 'clap', number: 3, step: '' },
      { type: 'noteAdded', text: 'a note', step: 's' },
    ] satisfies EventBody[])
      expect(through(body)).toMatchObject({ ok: true });
  });

  it.each([
    [{ ...record('nut'), figures: { torqueNm: Number.NaN } }, 'figures.torqueNm'],
    [{ ...record('nut'), figures: { 'torque nm': 1 } }, 'figures'],
    [
      { ...record('nut'), figures: Object.fromEntries([...Array(21)].map((_, n) => [`f${n}`, n])) },
      'figures',
    ],
    [{ ...record('nut'), words: { set: 'x'.repeat(401) } }, 'words.set'],
    [{ ...record('nut'), yes: ['no word!'] }, 'yes[0]'],
    [{ type: 'holdOverridden', step: 's', ask: 'torque', why: ' ' }, 'why'],
    [{ type: 'photoAdded', photo: '../../etc/passwd', step: '', about: '' }, 'photo'],
    [{ type: 'clipMarked', what: 'clap', number: 0, step: '' }, 'number'],
    [{ type: 'deviationNoted', step: 's', what: 'glue', used: 'x', why: '' }, 'what'],
  ] as const)('refuses %j and names %s', (body, field) => {
    expect(through(body as unknown as EventBody)).toMatchObject({ ok: false, field });
  });
});
