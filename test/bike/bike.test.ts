/** What several jobs of one bike say together: hours, minutes learnt, readings over the years, money. */
import { describe, expect, it } from 'vitest';
import { costOf } from '../../src/bike/cost.ts';
import { hoursOf } from '../../src/bike/hours.ts';
import { FILE_COUNTS, learnedSteps, withLearned } from '../../src/bike/learn.ts';
import { seriesOf } from '../../src/bike/series.ts';
import type { EventBody, JobEvent } from '../../src/job/event.ts';
import { foldJob } from '../../src/job/fold.ts';
import { writeEvent } from '../../src/job/stamp.ts';
import { workOf } from '../../src/machine/work.ts';
import { machineOf } from '../bench/bench-job.ts';

const machine = machineOf('ardmoor-650-pathway');
const START = Date.UTC(2026, 0, 17, 19);

/** A job whose entries come at given minutes. */
function jobAt(job: string, tale: readonly (readonly [minute: number, body: EventBody])[], from = START) {
  const events: JobEvent[] = [];
  for (const [minute, body] of [
    [0, { type: 'jobOpened', machine: 'ardmoor-650-pathway', title: job, invented: true }] as const,
    ...tale,
  ])
    events.push(
      writeEvent(
        { job, who: '', device: job.replaceAll('-', '') },
        body,
        events.at(-1)?.id ?? null,
        from + minute * 60_000,
      ),
    );
  return foldJob(events);
}
const done = (step: string): EventBody => ({ type: 'stepDone', step, seen: null });

describe('hours', () => {
  it('a step took from the tick before it to its own; pauses, bunches and what runs by itself are no times', () => {
    const state = jobAt('a', [
      [0, done('raise-alone')],
      [4, done('gear-lever')],
      // Ticked in one go with the one before.
      [4.1, done('footrest-off')],
      // A night between.
      [600, done('exhaust-shield')],
      [606, done('cover-off')],
    ]);
    const hours = hoursOf(state, machine);
    const taken = Object.fromEntries(hours.steps.map(({ step, taken: minutes }) => [step, minutes]));
    expect(taken['raise-alone']).toBeNull();
    expect(taken['gear-lever']).toBeCloseTo(4, 9);
    expect(taken['footrest-off']).toBeNull();
    expect(taken['exhaust-shield']).toBeNull();
    expect(taken['cover-off']).toBeCloseTo(6, 9);
    expect(hours.taken).toBeCloseTo(10, 9);
    expect(hours.untimed).toBe(3);
    const likely = hours.steps.filter(({ taken: t }) => t !== null).map(({ planned }) => planned.likely);
    expect(hours.plannedOfTaken).toBeCloseTo(likely[0]! + likely[1]!, 9);
  });

  it('steps of no known machine file are passed over', () => {
    expect(hoursOf(jobAt('b', [[1, done('no-such-step')]]), machine).steps).toEqual([]);
  });
});

/** Conjugate mean of a normal with known spread: Gelman et al., Bayesian Data Analysis, 3rd ed., §2.5 (from memory). */
describe('minutes learnt', () => {
  const likelyOf = (file: typeof machine, step: string) => {
    const work = workOf(file, 2026)!;
    return work.actions.find(({ id }) => id === step)!.minutes.likely;
  };

  it('are the file’s own counted as two jobs, and each job once, on the log scale', () => {
    const own = likelyOf(machine, 'gear-lever');
    const learned = learnedSteps(machine, [
      [{ step: 'gear-lever', minutes: 9 }],
      [{ step: 'gear-lever', minutes: 16 }],
    ]);
    const expected = Math.exp((FILE_COUNTS * Math.log(own) + Math.log(9) + Math.log(16)) / (FILE_COUNTS + 2));
    expect(learned.get('gear-lever')!.likely).toBeCloseTo(expected, 9);
  });

  it('change the plan’s times of that step alone, and the range holds what was seen', () => {
    const learned = learnedSteps(machine, [[{ step: 'gear-lever', minutes: 30 }]]);
    const taught = withLearned(machine, learned);
    const [before, after] = [workOf(machine, 2026)!, workOf(taught, 2026)!];
    expect(after.actions.find(({ id }) => id === 'gear-lever')!.minutes.high).toBeGreaterThanOrEqual(30);
    expect(likelyOf(taught, 'gear-lever')).toBeGreaterThan(likelyOf(machine, 'gear-lever'));
    for (const action of before.actions)
      if (action.id !== 'gear-lever')
        expect(after.actions.find(({ id }) => id === action.id)!.minutes).toEqual(action.minutes);
  });

  it('with nothing learnt the machine is the same, and a step that it does not have teaches nothing', () => {
    expect(withLearned(machine, new Map())).toBe(machine);
    expect(learnedSteps(machine, [[{ step: 'no-such-step', minutes: 5 }]]).size).toBe(0);
  });

  it('taken back, they are forgotten', () => {
    const teach: EventBody = { type: 'minutesLearned', steps: [{ step: 'gear-lever', minutes: 9 }] };
    const state = jobAt('c', [[1, teach]]);
    expect(state.learned?.steps).toEqual([{ step: 'gear-lever', minutes: 9 }]);
    const forgot = jobAt('c', [
      [1, teach],
      [2, { type: 'entryStruck', event: state.learned!.event }],
    ]);
    expect(forgot.learned).toBeNull();
  });
});

describe('readings over the years', () => {
  const read = (key: string, value: number, after?: string): EventBody => ({
    type: 'readingTaken',
    key,
    value,
    entered: String(value),
    over: null,
    ...(after ? { after } : {}),
  });
  const AC = 'stator_ac pair=ab rpm=3000 temp=cold';

  it('the same reading of several jobs is one series, oldest first; once taken it is none', () => {
    const year = 365 * 24 * 60;
    const first = jobAt('first', [
      [1, read(AC, 51)],
      [2, read('keyoff_mA', 1)],
    ]);
    const second = jobAt('second', [[1, read(AC, 47)]], START + year * 60_000);
    const series = seriesOf([second, first]);
    expect(series).toHaveLength(1);
    expect(series[0]!.points.map(({ value, job }) => [value, job])).toEqual([
      [51, 'first'],
      [47, 'second'],
    ]);
  });

  it('tells what was read after a repair from what was found', () => {
    const made: EventBody = { type: 'repairsMade', repairs: [], left: [], noneOfThese: 0.01 };
    const once = jobAt('third', [
      [1, read(AC, 40)],
      [2, made],
    ]);
    const state = jobAt('third', [
      [1, read(AC, 40)],
      [2, made],
      [3, read(AC, 51, once.proof.made!.event)],
    ]);
    expect(seriesOf([state])[0]!.points.map(({ repaired }) => repaired)).toEqual([false, true]);
  });
});

describe('what it cost', () => {
  it('money against what the verdict reckoned, with the rest besides', () => {
    const cost = costOf(
      jobAt('d', [
        [1, { type: 'repairsMade', repairs: ['replace-stator'], left: [], noneOfThese: 0.01 }],
        [2, { type: 'costNoted', what: 'part', of: 'replace-stator', words: '', amount: 140 }],
        [3, { type: 'costNoted', what: 'other', of: '', words: 'oil', amount: 12.5 }],
      ]),
      machine,
    );
    expect(cost.lines).toEqual([{ repair: 'replace-stator', reckoned: 160, paid: 140 }]);
    expect([cost.paid, cost.besides, cost.reckoned]).toEqual([152.5, 12.5, 160]);
  });
});
