/** One person before a night: bounds and schedules against the trial of every order (no source: common practice). */
import { describe, expect, it } from 'vitest';
import { openStream } from '../../src/numbers/random.ts';
import { eveningFills } from '../../src/way/evening-fills.ts';
import { openOrders } from '../../src/way/open-orders.ts';
import type { Project, StartLag, Task } from '../../src/way/project.ts';
import { scheduleProject } from '../../src/way/schedule.ts';

/** Seven steps of one person, some after others, some after a wait; the evening ends before they are done. */
function evening(seed: number): Project {
  const stream = openStream(seed);
  const whole = (least: number, most: number) => least + Math.floor(stream() * (most - least + 1));
  const tasks = Array.from({ length: 7 }, (_, i): Task => {
    return { id: `${i}`, name: `step ${i}`, duration: whole(4, 17), demand: [1], attended: true };
  });
  const lags: StartLag[] = [];
  for (let to = 1; to < 7; to++)
    for (let from = 0; from < to; from++)
      if (stream() < 0.25) {
        const wait = stream() < 0.2 ? whole(5, 60) : 0;
        lags.push({ from, to, least: tasks[from]!.duration + wait, fromEnd: true });
      }
  const dusk = whole(20, 55);
  const shut = [0, 1, 2].map((day) => ({ from: dusk + 300 * day, to: dusk + 300 * day + 200 }));
  return { tasks, lags, capacity: [1], resources: ['hands'], shut };
}

/** The least end over every order of the steps, each begun as soon as it can be. */
function leastEnd({ tasks, lags, shut }: Project): number {
  const starts = tasks.map(() => -1);
  let best = Number.POSITIVE_INFINITY;
  const go = (left: number, at: number): void => {
    if (at >= best) return;
    if (left === 0) {
      best = at;
      return;
    }
    tasks.forEach(({ duration }, i) => {
      if (starts[i] !== -1) return;
      const own = lags.filter(({ to }) => to === i);
      if (own.some(({ from }) => starts[from] === -1)) return;
      let start = own.reduce((most, { from, least }) => Math.max(most, starts[from]! + least), at);
      for (const { from, to } of shut) if (start < to && start + duration > from) start = to;
      starts[i] = start;
      go(left - 1, start + duration);
      starts[i] = -1;
    });
  };
  go(tasks.length, 0);
  return best;
}

describe('one person before a night', () => {
  it('has the least end of every order of the steps', () => {
    let short = 0;
    for (let seed = 0; seed < 150; seed++) {
      const project = evening(seed);
      const found = scheduleProject(project);
      expect(found.ok && found.proved && found.makespan, `seed ${seed}`).toBe(leastEnd(project));
      const fills = eveningFills(
        project,
        project.tasks.map((_, i) => i),
        project.tasks.map(() => 0),
        openOrders(project)!.longest!,
      )!;
      const room = Math.max(
        ...fills.map((fill) => fill.reduce((sum, i) => sum + project.tasks[i]!.duration, 0)),
      );
      expect(room).toBeLessThanOrEqual(project.shut[0]!.from);
      if (room < project.shut[0]!.from) short += 1;
    }
    // Or nothing was tried that matters.
    expect(short).toBeGreaterThan(50);
  });

  it('lists the sets that nothing can be added to', () => {
    // b after a; an evening of 20: a and b, or a and c, which leaves no room for the others.
    const task = (id: string, duration: number): Task => {
      return { id, name: id, duration, demand: [1], attended: true };
    };
    const project: Project = {
      tasks: [task('a', 8), task('b', 9), task('c', 11)],
      lags: [{ from: 0, to: 1, least: 8 }],
      capacity: [1],
      resources: ['hands'],
      shut: [{ from: 20, to: 100 }],
    };
    const fills = eveningFills(project, [0, 1, 2], [0, 8, 0], openOrders(project)!.longest!);
    expect(fills?.map((fill) => [...fill].sort()).sort()).toEqual([
      [0, 1],
      [0, 2],
    ]);
  });
});
