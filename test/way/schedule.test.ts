/** The scheduler: against every order by hand, properties, what cannot be done, and files that cannot be read. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkSchedule } from '../../src/way/check-schedule.ts';
import type { Project } from '../../src/way/project.ts';
import { readSch } from '../../src/way/sch-file.ts';
import { scheduleProject } from '../../src/way/schedule.ts';
import { randomJob, randomProject } from './random-project.ts';

/** The least time by trying every start of every task: for a handful of short tasks. */
function byHand(project: Project, horizon: number): number | null {
  const n = project.tasks.length;
  const starts: number[] = new Array(n).fill(0);
  let best: number | null = null;
  const fits = (placed: number): boolean => {
    for (const { from, to, least } of project.lags)
      if (from < placed && to < placed && starts[to]! < starts[from]! + least) return false;
    return project.capacity.every((most, r) => {
      for (let i = 0; i < placed; i++) {
        let taken = 0;
        for (let j = 0; j < placed; j++)
          if (starts[j]! <= starts[i]! && starts[j]! + project.tasks[j]!.duration > starts[i]!)
            taken += project.tasks[j]!.demand[r]!;
        if (taken > most) return false;
      }
      return true;
    });
  };
  const place = (i: number, end: number): void => {
    if (best !== null && end >= best) return;
    if (i === n) {
      best = end;
      return;
    }
    const { duration, attended } = project.tasks[i]!;
    for (let start = 0; start + duration <= horizon; start++) {
      if (
        attended &&
        duration > 0 &&
        project.shut.some(({ from, to }) => start < to && start + duration > from)
      )
        continue;
      starts[i] = start;
      if (fits(i + 1)) place(i + 1, Math.max(end, start + duration));
    }
  };
  place(0, 0);
  return best;
}

function small(seed: number): Project {
  const project = randomProject(seed, { activities: 5, resources: 2, windows: 0.35, strength: 0.2 });
  const tasks = project.tasks.map((task, i) => ({
    ...task,
    duration: 1 + (task.duration % 3),
    attended: (seed + i) % 3 === 0,
  }));
  const lags = project.lags.map((lag) => ({ ...lag, least: Math.max(-6, Math.min(3, lag.least)) }));
  return { ...project, tasks, lags, shut: seed % 2 ? [{ from: 3, to: 5 }] : [] };
}

describe('against every order by hand', () => {
  it('300 projects of five tasks with lags, windows, two resources and shut hours', () => {
    let impossible = 0;
    for (let seed = 0; seed < 300; seed++) {
      const project = small(seed);
      const found = scheduleProject(project);
      const least = byHand(project, 24);
      if (least === null) {
        expect(found.ok, `seed ${seed}`).toBe(false);
        impossible++;
      } else {
        expect(found.ok && found.proved && found.makespan, `seed ${seed}`).toBe(least);
        if (found.ok) expect(checkSchedule(project, found.starts), `seed ${seed}`).toEqual([]);
      }
    }
    expect(impossible).toBeGreaterThan(10);
    expect(impossible).toBeLessThan(290);
  });
});

describe('properties', () => {
  const projects = Array.from({ length: 40 }, (_, seed) =>
    randomProject(seed, { activities: 14, resources: 3, windows: 0.1, strength: 0.2 }),
  );
  const least = (project: Project): number => {
    const found = scheduleProject(project, { steps: 20_000 });
    if (!found.ok) return Number.POSITIVE_INFINITY;
    expect(found.proved).toBe(true);
    return found.makespan;
  };

  it('more of a resource is never later, nor is a lag loosened', () => {
    for (const project of projects) {
      const before = least(project);
      expect(least({ ...project, capacity: project.capacity.map((most) => most + 3) })).toBeLessThanOrEqual(
        before,
      );
      const lags = project.lags.map((lag, n) => (n % 3 === 0 ? { ...lag, least: lag.least - 2 } : lag));
      expect(least({ ...project, lags })).toBeLessThanOrEqual(before);
    }
  });

  it('the same project gives the same schedule', () => {
    for (const project of projects.slice(0, 8))
      expect(scheduleProject(project)).toEqual(scheduleProject(project));
  });

  it('stopped early, what it has is a schedule and its bound holds', () => {
    for (let seed = 0; seed < 12; seed++) {
      const job = randomJob(seed, 40, 1);
      const full = scheduleProject(job, { steps: 5000 });
      const cut = scheduleProject(job, { steps: 3 });
      if (full.ok && full.proved) expect(cut.bound).toBeLessThanOrEqual(full.makespan);
      if (cut.ok) expect(checkSchedule(job, cut.starts)).toEqual([]);
    }
  });
});

describe('a job on a bike', () => {
  it('cures run through the night and people do not', () => {
    for (const people of [1, 2] as const) {
      const job = randomJob(3, 40, people);
      const found = scheduleProject(job, { steps: 5000 });
      if (!found.ok) throw new Error(found.why);
      expect(checkSchedule(job, found.starts)).toEqual([]);
      const cure = job.tasks.findIndex((task) => !task.attended && task.duration >= 480);
      const end = found.starts[cure]! + job.tasks[cure]!.duration;
      expect(job.shut.some(({ from, to }) => found.starts[cure]! < to && end > from)).toBe(true);
    }
  });
});

describe('what cannot be done', () => {
  const task = (id: string, duration: number, need = 1) => ({
    id,
    name: id,
    duration,
    demand: [need],
    attended: true,
  });
  const base = { capacity: [1], resources: ['hands'], shut: [] };

  it('lags that fight name their tasks in a circle', () => {
    const found = scheduleProject({
      ...base,
      tasks: [task('lay the bead', 5), task('wait', 30, 0), task('close the cover', 5), task('other', 1)],
      lags: [
        { from: 0, to: 1, least: 5 },
        { from: 1, to: 2, least: 30 },
        { from: 2, to: 0, least: -12 },
      ],
    });
    expect(found).toMatchObject({ ok: false, why: 'lags' });
    if (!found.ok) expect([...found.fight].sort()).toEqual([0, 1, 2]);
  });

  it('a task that needs more than there is is named', () => {
    const found = scheduleProject({ ...base, tasks: [task('a', 1), task('b', 2, 2)], lags: [] });
    expect(found).toMatchObject({ ok: false, why: 'resources', fight: [1] });
  });

  it('a window in which two tasks of one hand cannot both be done has no schedule', () => {
    const tasks = [task('a', 5), task('b', 5), task('c', 5)];
    const lags = [
      { from: 0, to: 1, least: 0 },
      { from: 0, to: 2, least: 0 },
      { from: 1, to: 0, least: -9 },
      { from: 2, to: 0, least: -9 },
    ];
    expect(scheduleProject({ ...base, tasks, lags })).toMatchObject({ ok: false, why: 'resources' });
  });

  it('nothing to do takes no time; figures that are none are refused by name', () => {
    expect(scheduleProject({ ...base, tasks: [], lags: [] })).toMatchObject({ ok: true, makespan: 0 });
    expect(() => scheduleProject({ ...base, tasks: [task('a', 1.5)], lags: [] })).toThrow(
      /duration of task 0/,
    );
    expect(() =>
      scheduleProject({ ...base, tasks: [task('a', 1)], lags: [{ from: 0, to: 3, least: 1 }] }),
    ).toThrow(/lag 0 must join two tasks/);
    const shut = [
      { from: 9, to: 12 },
      { from: 10, to: 14 },
    ];
    expect(() => scheduleProject({ ...base, tasks: [], lags: [], shut })).toThrow(/shut hours must be/);
  });
});

describe('a file of the benchmark format', () => {
  const text = readFileSync('test/fixtures/schedule/seven.sch', 'utf8');
  const lines = text.trim().split('\n');
  it('is read', () => {
    const read = readSch(text);
    expect(read.ok && read.project.tasks.length).toBe(9);
  });
  it.each([
    ['', /ends before its first line/],
    ['seven 1 0 0', /Line 1: the number of activities must be a whole number/],
    [lines.slice(0, 5).join('\n'), /ends before the successors of activity 4/],
    [text.replace(lines[2]!, lines[2]!.replace(/\[\S+\]/, '')), /Line 3: .*lags in brackets/],
    [`${text}9 9\n`, /nothing is due after the capacities/],
    [[...lines.slice(0, -1), '1\t2'].join('\n'), /capacities are due, got 2/],
  ])('is refused with its line: %#', (broken, why) => {
    const read = readSch(broken);
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.why).toMatch(why);
  });
});
