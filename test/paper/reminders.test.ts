/** What is to be looked at again: which, when, and in whose words. Days and distances are common practice, no source. */
import { describe, expect, it } from 'vitest';
import type { EventBody } from '../../src/job/event.ts';
import { foldJob } from '../../src/job/fold.ts';
import { type Reminder, remindersOf } from '../../src/paper/reminders.ts';
import { benchJob, machineOf } from '../bench/bench-job.ts';
import { filmedJob, NEVER, OWNERS } from './filmed-job.ts';

const MACHINE = machineOf('ardmoor-650-pathway');

/** A job that came so far as to have done and signed these. */
function worked(steps: readonly string[], more: readonly EventBody[] = []) {
  const job = benchJob(MACHINE);
  job.write({ type: 'jobOpened', machine: 'ardmoor-650-pathway', title: 'Fades', invented: true });
  job.write({
    type: 'wayChosen',
    targets: ['stator'],
    people: 1,
    startsAt: '2026-01-17T19:00:00.000Z',
    nights: false,
    aim: 'least',
    leave: [],
    km: null,
  });
  for (const body of more) job.write(body);
  job.done(...steps);
  return job.state();
}
function told(state: ReturnType<typeof worked>, east = 0): readonly Reminder[] {
  const found = remindersOf(state, MACHINE, east);
  if (!found.ok) throw new Error(found.why);
  return found.reminders;
}
const of = (all: readonly Reminder[], id: string): Reminder => {
  const found = all.find((one) => one.id === id);
  if (!found) throw new Error(`no reminder ${id} in ${all.map((one) => one.id).join(', ')}`);
  return found;
};

describe('reminders', () => {
  it('are none while nothing is done, and it is said why', () => {
    expect(remindersOf(worked([]), MACHINE, 0)).toEqual({
      ok: false,
      why: expect.stringContaining('No step of this job is ticked yet'),
    });
  });

  it('of a chain that was set: by date and by distance, with the figure and who says it', () => {
    const slack = of(told(worked(['slack-set', 'shoe-nut'])), 'slack.primary');
    expect(slack).toMatchObject({ day: '2026-02-14', km: 500 });
    expect(slack.orAfter).toMatch(/500 km.*whichever comes first/);
    expect(slack.does.join(' ')).toContain('5/8–7/8 in');
    expect(slack.does.join(' ')).toContain('engine cold');
    expect(slack.source).toContain('workshop book');
    // The final chain was not touched.
    expect(told(worked(['slack-set'])).some(({ id }) => id === 'slack.final')).toBe(false);
  });

  it('of fasteners keep apart what a wrench may try and what its locker holds', () => {
    const all = of(told(worked(['cover-b-stage-2', 'engine-stage-2', 'drain-plug'])), 'fasteners');
    const [free, locked] = [
      all.does.find((one) => one.startsWith('Engine cold'))!,
      all.does.find((one) => one.includes('do not turn'))!,
    ];
    expect(free).toContain('primary cover screws');
    expect(free).toContain('primary drain plug');
    expect(free).not.toContain('engine sprocket nut');
    expect(locked).toContain('engine sprocket nut');
    expect(all).toMatchObject({ km: 500, source: 'Common practice, no source.' });
  });

  it('of a fluid that was filled: leaks soon, the change in a year or by the book', () => {
    const all = told(worked(['fill']));
    expect(of(all, 'leaks')).toMatchObject({ day: '2026-01-24', km: 100 });
    expect(of(all, 'leaks').does.join(' ')).toContain('primary oil');
    expect(of(all, 'fluid.primary-oil')).toMatchObject({ day: '2027-01-17', km: null });
    expect(of(all, 'fluid.primary-oil').orAfter).toMatch(/book/);
    expect(told(worked(['seat'])).some(({ id }) => id === 'leaks')).toBe(false);
  });

  it('of the battery come twice, with what can hurt', () => {
    const all = told(worked(['seat']));
    expect([of(all, 'battery.1').day, of(all, 'battery.2').day]).toEqual(['2026-02-14', '2026-07-18']);
    expect(of(all, 'battery.1').does.join(' ')).toMatch(/carbon monoxide/);
  });

  it('of an old gasket used again: look for leaks, soon', () => {
    const state = worked(
      ['cover-b-stage-2'],
      [
        {
          type: 'deviationNoted',
          step: 'cover-b-stage-2',
          what: 'used-again',
          used: 'the old gasket',
          why: '',
        },
      ],
    );
    const again = of(told(state), 'otherwise.cover-b-stage-2');
    expect(again).toMatchObject({ day: '2026-01-24', km: 100 });
    expect(again.does.join(' ')).toMatch(/gasket or seal .* look for leaks/);
  });

  it('of a locker too strong say what follows from it, with its figures', () => {
    const state = worked(
      ['retainer-on'],
      [{ type: 'deviationNoted', step: 'retainer-on', what: 'locker', used: 'high', why: '' }],
    );
    expect(of(told(state), 'otherwise.retainer-on').does.join(' ')).toMatch(/high-strength locker/);
  });

  it('of a repair that was made without a tick count from it, and ask for the proof until it is given', () => {
    const job = benchJob(MACHINE);
    job.write({ type: 'jobOpened', machine: 'ardmoor-650-pathway', title: 'Fades', invented: true });
    const made = job.write({ type: 'repairsMade', repairs: ['replace-battery'], left: [], noneOfThese: 0 });
    expect(told(job.state()).map(({ id }) => id)).toEqual(['proof', 'battery.1', 'battery.2']);
    const said = { type: 'proofSaid' as const, after: made.id, faultLeft: 0.01, sets: [], why: '' };
    job.write({ ...said, proven: false });
    expect(told(job.state()).some(({ id }) => id === 'proof')).toBe(true);
    job.write({ ...said, proven: true });
    expect(told(job.state()).some(({ id }) => id === 'proof')).toBe(false);
    // What was seen after it speaks louder.
    job.write({ type: 'proofLooked', after: made.id, check: 'leak', ok: false, words: '' });
    expect(told(job.state()).some(({ id }) => id === 'proof')).toBe(true);
  });

  it('fall on the garage’s day, not on that of Greenwich', () => {
    const state = worked(['seat']);
    const found = [-12 * 60, 0, 10 * 60].map((east) => {
      const reminders = remindersOf(state, MACHINE, east);
      return reminders.ok && reminders.from;
    });
    expect(found).toEqual(['2026-01-17', '2026-01-17', '2026-01-18']);
  });

  it('say that the bike is still open, and that the machine file is missing', () => {
    const open = remindersOf(worked(['cover-off']), MACHINE, 0);
    expect(open.ok && open.says.join()).toMatch(/not back together/);
    const lost = remindersOf(worked(['slack-set', 'fill']), null, 0);
    expect(lost.ok && lost.says.join()).toMatch(/machine file is not here/);
    expect(lost.ok && lost.reminders.map(({ id }) => id)).toEqual(['battery.1', 'battery.2']);
  });

  it('have a name each, the same when the job is told in another order', () => {
    const events = filmedJob();
    const a = remindersOf(foldJob(events), MACHINE, 0);
    expect(remindersOf(foldJob(events.toReversed()), MACHINE, 0)).toEqual(a);
    const ids = a.ok ? a.reminders.map(({ id }) => id) : [];
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.length).toBeGreaterThan(3);
  });

  it('hold no word that anybody typed', () => {
    const all = JSON.stringify(remindersOf(foldJob(filmedJob()), MACHINE, 0));
    for (const word of [...OWNERS.owner, ...OWNERS.notes, ...NEVER]) expect(all).not.toContain(word);
    expect(all).toContain('otherwise.cover-b-stage-2');
    const typed: EventBody[] = (['other', 'torque', 'sealant', 'locker'] as const).map((what) => ({
      type: 'deviationNoted',
      step: 'cover-b-stage-2',
      what,
      used: 'Wobblethorpe’s own',
      why: 'Mugglespring',
    }));
    const more = JSON.stringify(told(worked(['cover-b-stage-2'], typed)));
    expect(more).toContain('Something was done otherwise');
    expect(more).not.toMatch(/Wobblethorpe|Mugglespring/);
  });
});
