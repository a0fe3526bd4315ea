/** The clock: moments by hand, coverage against another simulator, windows, nights, seizing, drivers. */
import { describe, expect, it } from 'vitest';
import { quantileOf, runClock } from '../../src/way/clock.ts';
import type { Uncertain } from '../../src/way/draw-times.ts';
import type { Project } from '../../src/way/project.ts';
import { scheduleProject } from '../../src/way/schedule.ts';
import { timeAt, varianceOf } from '../../src/way/spread.ts';
import { meanOf } from '../../src/way/work.ts';
import { randomJob } from './random-project.ts';

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

describe('late work', () => {
  const task = (id: string, duration: number) => ({ id, name: id, duration, demand: [1], attended: true });
  const sure = (minutes: number): Uncertain => ({
    minutes: { low: minutes, likely: minutes, high: minutes },
  });
  const night = [{ from: 60, to: 600 }];
  const days = (tasks: Project['tasks'], lags: Project['lags'] = []): Project => ({
    tasks,
    lags,
    capacity: [1],
    resources: ['hands'],
    shut: night,
  });
  const end = (project: Project, starts: readonly number[], times: readonly Uncertain[]) =>
    runClock(project, starts, times, { pace: 0, runs: 1 }).ends[0];

  it('is begun where its usual time fits, as the order of work does it, and finished in the morning', () => {
    // Planned for 50 min and begun at once, it takes 90: 60 in the evening, 30 after the night.
    const project = days([task('a', 50)]);
    expect(scheduleProject(project)).toMatchObject({ starts: [0] });
    expect(end(project, [0], [sure(90)])).toBe(630);
  });

  it('is left for the morning where its usual time does not fit, also where it would have', () => {
    const project = days([task('a', 40), task('b', 30)]);
    const found = scheduleProject(project);
    expect(found).toMatchObject({ ok: true, makespan: 630 });
    expect(end(project, [0, 600], [sure(40), sure(10)])).toBe(610);
  });

  it('goes on through as many nights as it takes', () => {
    const project = { ...days([task('a', 50)]), shut: [...night, { from: 620, to: 1000 }] };
    expect(end(project, [0], [sure(90)])).toBe(1010);
  });

  it('opens no window that the night would close', () => {
    // Bead 5, close within 10 of its end, 10 long: the first step takes 20 more, and at 50 the close would not fit.
    const tasks = [task('first', 30), task('bead', 5), task('close', 10)];
    const project = days(tasks, [
      { from: 0, to: 1, least: 30, fromEnd: true },
      { from: 1, to: 2, least: 5, fromEnd: true },
      { from: 2, to: 1, least: -15, fromEnd: true },
    ]);
    const starts = [0, 30, 35];
    const { ends, missed } = runClock(project, starts, [sure(50), sure(5), sure(10)], { pace: 0, runs: 1 });
    expect(missed[0]!.chance).toBe(0);
    expect(ends[0]).toBe(615);
    // In time, all of it is done in the evening.
    expect(end(project, starts, [sure(44), sure(5), sure(10)])).toBe(59);
  });

  it('a window counts from the start of what opened it where the file says so', () => {
    // It skins 12 min after the bead is begun, and the bead may take 5 to 15.
    const tasks = [task('bead', 10), task('close', 5)];
    const lags = (fromEnd: boolean) => [
      { from: 0, to: 1, least: 10, fromEnd: true },
      { from: 1, to: 0, least: -12, fromEnd },
    ];
    const chance = (fromEnd: boolean) =>
      runClock(
        { ...days(tasks, lags(fromEnd)), shut: [] },
        [0, 10],
        [{ minutes: { low: 5, likely: 15, high: 15 } }, sure(5)],
        { pace: 0 },
      ).missed[0]!.chance;
    // A triangle that rises to 15: above 12 lies 1 − (7/10)².
    expect(chance(false)).toBeCloseTo(1 - 0.49, 1);
    expect(chance(true)).toBe(0);
  });
});

describe('a helper who leaves', () => {
  const task = (id: string, duration: number, hands = 1) => ({
    id,
    name: id,
    duration,
    demand: [hands],
    attended: true,
  });
  const sure = (minutes: number): Uncertain => ({
    minutes: { low: minutes, likely: minutes, high: minutes },
  });
  it('takes one pair of hands along', () => {
    const tasks = [task('a', 30), task('b', 30), task('c', 30), task('d', 30)];
    const project: Project = { tasks, lags: [], capacity: [2], resources: ['hands'], shut: [] };
    const times = tasks.map(() => sure(30));
    const ends = (gone: number | null) =>
      runClock(project, [0, 0, 30, 30], times, { pace: 0, runs: 1 }, gone).ends[0];
    expect(ends(null)).toBe(60);
    // Alone from minute 30 on: two of thirty one after the other.
    expect(ends(30)).toBe(90);
    // Gone at 40: nobody begins half an hour's work at 30 with who leaves in ten minutes.
    expect(ends(40)).toBe(90);
    expect(ends(60)).toBe(60);
  });
});

describe('what drives it', () => {
  const task = (id: string, duration: number) => ({ id, name: id, duration, demand: [1], attended: true });
  const plain = (tasks: Project['tasks'], lags: Project['lags'], capacity: number): Project => ({
    tasks,
    lags,
    capacity: [capacity],
    resources: ['hands'],
    shut: [],
  });

  it('is what the step itself adds: the pace of the day is nobody’s', () => {
    // Long and sure beside short and vague: only the pace makes the long one late.
    const project = plain(
      [task('long', 300), task('vague', 30)],
      [{ from: 0, to: 1, least: 300, fromEnd: true }],
      1,
    );
    const times = [
      { minutes: { low: 299, likely: 300, high: 301 } },
      { minutes: { low: 20, likely: 30, high: 40 } },
    ];
    const { drivers } = runClock(project, [0, 300], times, { pace: 0.3 });
    const share = (of: number) => drivers.find((each) => each.task === of)!.share;
    expect(drivers[0]!.task).toBe(1);
    // Var of the pace on 330 min is (0.3·330)²; that of the vague step 10²/6, that of the long one a hundredth of it.
    expect(share(1)).toBeLessThan(0.01);
    expect(share(0)).toBeLessThan(0.001);
  });

  it('is not its neighbour of the same rust', () => {
    // Two screws of one rust, side by side: one before an hour's work, the other never in the way.
    const project = plain(
      [task('in the way', 10), task('work', 200), task('aside', 10)],
      [{ from: 0, to: 1, least: 10, fromEnd: true }],
      2,
    );
    const seizes = { chance: 0.3, adds: { low: 20, likely: 30, high: 40 }, cause: 'rust' };
    const short = { low: 9, likely: 10, high: 11 };
    const sure = { low: 200, likely: 200, high: 200 };
    const { drivers } = runClock(
      project,
      [0, 10, 0],
      [{ minutes: short, seizes }, { minutes: sure }, { minutes: short, seizes }],
      { pace: 0 },
    );
    expect(drivers[0]).toMatchObject({ task: 0 });
    expect(drivers[0]!.share).toBeGreaterThan(0.95);
    expect(drivers.find((each) => each.task === 2)!.share).toBeLessThan(0.005);
  });

  it('names the step that is uncertain, and the ends ascend', () => {
    const project = randomJob(2, 40, 1);
    const found = scheduleProject(project, { steps: 2000 });
    if (!found.ok) throw new Error('the job must have an order');
    const last = project.tasks.length - 1;
    const uncertain = project.tasks.map(({ duration }, i) => ({
      minutes:
        i === last ? { low: 10, likely: 15, high: 200 } : { low: duration, likely: duration, high: duration },
    }));
    const { drivers, ends, p50, p90 } = runClock(project, found.starts, uncertain, { pace: 0, runs: 2000 });
    expect(drivers).toHaveLength(1);
    expect(drivers[0]!.task).toBe(last);
    expect(drivers[0]!.share).toBeGreaterThan(0.9);
    expect([...ends]).toEqual([...ends].sort((a, b) => a - b));
    expect(p50).toBe(quantileOf(ends, 0.5));
    expect(p90).toBeGreaterThan(p50);
  });
});

describe('what is no input', () => {
  const fine = { low: 5, likely: 6, high: 9 };
  const project: Project = {
    tasks: [{ id: 'a', name: 'a', duration: 6, demand: [1], attended: true }],
    lags: [],
    capacity: [1],
    resources: ['hands'],
    shut: [],
  };
  const run = (options: object, starts = [0], gone: number | null = null) =>
    runClock(project, starts, [{ minutes: fine }], options, gone);
  it.each([
    ['runs', { runs: 0 }, 'runs must be a whole number from 1 to 100000, got 0'],
    ['runs', { runs: 2.5 }, 'got 2.5'],
    ['runs', { runs: Number.NaN }, 'got NaN'],
    ['seed', { seed: Number.NaN }, 'seed must be a whole number, got NaN'],
    ['seed', { seed: 0.5 }, 'got 0.5'],
    ['pace', { pace: -0.1 }, 'pace must be from 0 to 2, got -0.1'],
    ['pace', { pace: Number.NaN }, 'got NaN'],
  ])('is refused by name: %s', (_, options, words) => {
    expect(() => run(options)).toThrow(RangeError);
    expect(() => run(options)).toThrow(words);
  });
  it('nor is a start, a leaving, a spread or a share', () => {
    expect(() => run({}, [Number.NaN])).toThrow('start of task 0 must be a finite number ≥ 0, got NaN');
    expect(() => run({}, [-1])).toThrow('got -1');
    expect(() => run({}, [0], Number.NaN)).toThrow('gone must be minutes or null, got NaN');
    expect(() => one({ low: -1, likely: 3, high: 9 })).toThrow('got -1, 3 and 9');
    expect(() => one({ low: 1, likely: 3, high: Number.NaN })).toThrow('got 1, 3 and NaN');
    expect(() => quantileOf(Float64Array.of(1, 2), 1.1)).toThrow('share must be from 0 to 1, got 1.1');
    expect(() => quantileOf(Float64Array.of(1, 2), Number.NaN)).toThrow('got NaN');
    expect(() => quantileOf(new Float64Array(0), 0.5)).toThrow('at least 1 value');
    expect(() => timeAt(fine, 2)).toThrow('share must be from 0 to 1, got 2');
    expect(() => varianceOf({ low: 3, likely: 1, high: 2 })).toThrow('low ≤ likely ≤ high');
  });
});
