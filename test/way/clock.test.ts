/** The clock: moments by hand, coverage against another simulator, windows, nights, seizing, drivers. */
import { describe, expect, it } from 'vitest';
import { quantileOf, runClock, type Uncertain } from '../../src/way/clock.ts';
import type { Project } from '../../src/way/project.ts';
import { scheduleProject } from '../../src/way/schedule.ts';
import { timeAt, varianceOf } from '../../src/way/spread.ts';
import { meanOf } from '../../src/way/work.ts';
import { otherEnds } from './other-clock.ts';
import { randomJob } from './random-project.ts';

function vague(project: Project, seed: number): Uncertain[] {
  return project.tasks.map((task, i) => {
    const likely = task.duration;
    const minutes = { low: 0.7 * likely, likely, high: (1.4 + ((i + seed) % 3) * 0.3) * likely };
    if (!task.attended) return { minutes: { low: likely, likely, high: likely } };
    const seizes = { chance: 0.1, adds: { low: 10, likely: 20, high: 60 }, cause: i % 2 ? 'rust' : 'heat' };
    return i % 5 === 0 ? { minutes, seizes } : { minutes };
  });
}

function job(seed: number, people: 1 | 2) {
  const project = randomJob(seed, 40, people);
  const found = scheduleProject(project, { steps: 2000 });
  if (!found.ok) return null;
  return { project, starts: found.starts, uncertain: vague(project, seed) };
}

const one = (minutes: { low: number; likely: number; high: number }, rest: Partial<Uncertain> = {}) => {
  const project: Project = {
    tasks: [{ id: 'a', name: 'a', duration: minutes.likely, demand: [1], attended: true }],
    lags: [],
    capacity: [1],
    resources: ['hands'],
    shut: [],
  };
  return runClock(project, [0], [{ minutes, ...rest }], { pace: 0 });
};

describe('one step', () => {
  it('has the mean and the variance of a triangle (closed forms)', () => {
    const minutes = { low: 10, likely: 15, high: 40 };
    const { ends } = one(minutes);
    const mean = ends.reduce((a, b) => a + b, 0) / ends.length;
    const variance = ends.reduce((a, b) => a + (b - mean) ** 2, 0) / ends.length;
    expect(mean).toBeCloseTo(meanOf(minutes), 0);
    expect(Math.abs(variance / varianceOf(minutes) - 1)).toBeLessThan(0.05);
    expect(timeAt(minutes, 0)).toBe(10);
    expect(timeAt(minutes, 1)).toBe(40);
    // A share of (likely − low)/(high − low) lies below the likely time.
    expect(timeAt(minutes, 5 / 30)).toBeCloseTo(15, 9);
  });

  it('is seized as often as it says, and then takes longer', () => {
    const adds = { low: 100, likely: 100, high: 100 };
    const { ends } = one({ low: 5, likely: 5, high: 5 }, { seizes: { chance: 0.2, adds } });
    const late = ends.filter((end) => end > 50).length / ends.length;
    expect(Math.abs(late - 0.2)).toBeLessThan(0.015);
  });

  it('runs a step after the one it waits for, where both are planned for one moment', () => {
    // Task 0 waits for task 1 to begin; 1 waits for 2, whose time varies; 1 and 0 are planned for the same moment.
    const task = (id: string, duration: number) => ({ id, name: id, duration, demand: [1], attended: false });
    const project: Project = {
      tasks: [task('c', 10), task('b', 10), task('a', 20)],
      lags: [
        { from: 1, to: 0, least: 0 },
        { from: 2, to: 1, least: 20 },
      ],
      capacity: [3],
      resources: ['hands'],
      shut: [],
    };
    const sure = { low: 10, likely: 10, high: 10 };
    const uncertain = [sure, { low: 1, likely: 1, high: 1 }, { low: 0, likely: 20, high: 100 }];
    const { ends } = runClock(
      project,
      [20, 20, 0],
      uncertain.map((minutes) => ({ minutes })),
      { pace: 0 },
    );
    // Each run ends ten minutes after task 2: a share 0–1 of the triangle plus ten.
    expect(quantileOf(ends, 0.5)).toBeCloseTo(timeAt(uncertain[2]!, 0.5) + 10, 0);
    expect(quantileOf(ends, 0.9)).toBeCloseTo(timeAt(uncertain[2]!, 0.9) + 10, 0);
  });

  it('refuses times that are none, by name', () => {
    expect(() => one({ low: 5, likely: 3, high: 9 })).toThrow(
      /minutes of task 0 must have 0 ≤ low ≤ likely ≤ high/,
    );
    expect(() =>
      one({ low: 5, likely: 5, high: 9 }, { seizes: { chance: 2, adds: { low: 0, likely: 0, high: 0 } } }),
    ).toThrow(/chance that task 0 is seized/);
  });
});

describe('what is shared', () => {
  it('two screws of one rust seize together more often than apart', () => {
    const task = (id: string) => ({ id, name: id, duration: 1, demand: [1], attended: true });
    const project: Project = {
      tasks: [task('a'), task('b')],
      lags: [],
      capacity: [1],
      resources: ['hands'],
      shut: [],
    };
    const both = (cause: string | undefined) => {
      const seizes = { chance: 0.2, adds: { low: 100, likely: 100, high: 100 }, ...(cause ? { cause } : {}) };
      const minutes = { low: 1, likely: 1, high: 1 };
      const { ends } = runClock(
        project,
        [0, 1],
        [
          { minutes, seizes },
          { minutes, seizes },
        ],
        { pace: 0 },
      );
      return ends.filter((end) => end > 150).length / ends.length;
    };
    expect(both(undefined)).toBeGreaterThan(0.03);
    expect(both(undefined)).toBeLessThan(0.05);
    expect(both('rust')).toBeGreaterThan(0.07);
  });
});

describe('windows and nights', () => {
  const task = (id: string, duration: number, attended = true) => ({
    id,
    name: id,
    duration,
    demand: [attended ? 1 : 0],
    attended,
  });
  it('says how often the bead skins before the cover is on', () => {
    // Bead, then 8 to 20 minutes of other work, then close within 12 minutes of the bead's start.
    const project: Project = {
      tasks: [task('bead', 2), task('set', 8), task('close', 2)],
      lags: [
        { from: 0, to: 1, least: 2 },
        { from: 1, to: 2, least: 8 },
        { from: 2, to: 0, least: -14 },
      ],
      capacity: [1],
      resources: ['hands'],
      shut: [],
    };
    const fixed = { low: 2, likely: 2, high: 2 };
    const { missed } = runClock(
      project,
      [0, 2, 10],
      [{ minutes: fixed }, { minutes: { low: 8, likely: 8, high: 20 } }, { minutes: fixed }],
      {
        pace: 0,
      },
    );
    // Close starts after the bead's end + set; it is late when set takes more than 12: (20 − 12)²/12² of the triangle.
    expect(missed).toHaveLength(1);
    expect(Math.abs(missed[0]!.chance - 64 / 144)).toBeLessThan(0.02);
  });

  it('nobody works at night, and cures do', () => {
    const project: Project = {
      tasks: [task('work', 50), task('cure', 600, false), task('fill', 10)],
      lags: [
        { from: 0, to: 1, least: 50 },
        { from: 1, to: 2, least: 600 },
      ],
      capacity: [1],
      resources: ['hands'],
      shut: [{ from: 60, to: 700 }],
    };
    const sure = [50, 600, 10].map((minutes) => ({
      minutes: { low: minutes, likely: minutes, high: minutes },
    }));
    const { ends } = runClock(project, [0, 50, 700], sure, { pace: 0, runs: 10 });
    expect(ends[0]).toBe(710);
  });
});

describe('coverage', () => {
  it('of P90 is 88 to 92 % on runs of another simulator; a sum along the critical path covers less', () => {
    const covered: number[] = [];
    const naive: number[] = [];
    for (let seed = 0; seed < 12; seed++) {
      const made = job(seed, seed % 2 ? 2 : 1);
      if (!made) continue;
      const { project, starts, uncertain } = made;
      const { p90 } = runClock(project, starts, uncertain, { seed: 5 + seed });
      const others = otherEnds(project, starts, uncertain, 1500, seed + 77, 0.12, 0.5);
      covered.push(others.filter((end) => end <= p90).length / others.length);
      // PERT: mean and variance of the steps in the way of the end, no seizing, no nights, no pace.
      const end = Math.max(...project.tasks.map((task, i) => starts[i]! + task.duration));
      const variance = uncertain.reduce((sum, { minutes }) => sum + varianceOf(minutes), 0);
      naive.push(
        others.filter((other) => other <= end + 1.2816 * Math.sqrt(variance)).length / others.length,
      );
    }
    const mean = covered.reduce((a, b) => a + b, 0) / covered.length;
    expect(covered.length).toBeGreaterThan(8);
    expect(mean).toBeGreaterThan(0.88);
    expect(mean).toBeLessThan(0.92);
    expect(naive.reduce((a, b) => a + b, 0) / naive.length).toBeLessThan(mean);
  });
});

describe('what drives it', () => {
  it('names the step that is uncertain, and the ends ascend', () => {
    const made = job(2, 1)!;
    const { project, starts } = made;
    const sure = project.tasks.map(({ duration }) => ({
      minutes: { low: duration, likely: duration, high: duration },
    }));
    const last = project.tasks.length - 1;
    const uncertain = sure.map((each, i) =>
      i === last ? { minutes: { low: 10, likely: 15, high: 200 } } : each,
    );
    const { drivers, ends, p50, p90 } = runClock(project, starts, uncertain, { pace: 0, runs: 2000 });
    expect(drivers[0]!.task).toBe(last);
    expect(drivers[0]!.share).toBeGreaterThan(0.9);
    expect([...ends]).toEqual([...ends].sort((a, b) => a - b));
    expect(p50).toBe(quantileOf(ends, 0.5));
    expect(p90).toBeGreaterThan(p50);
  });
});
