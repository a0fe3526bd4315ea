/**
 * Seeded projects like those of the public sets (ProGen/max: Schwindt 1998): layers of activities with minimum lags, some
 * maximum lags back, resources of a given strength; and jobs on a bike: down, bottom, up, with cures, windows and nights.
 */
import { openStream } from '../../src/numbers/random.ts';
import type { Project, StartLag, Task } from '../../src/way/project.ts';

export interface Shape {
  readonly activities: number;
  readonly resources: number;
  /** Share of lags that have a maximum lag back, 0–1. */
  readonly windows: number;
  /** From 0, where the largest demand is all there is, to 1, where all may run at once. */
  readonly strength: number;
}

export function randomProject(seed: number, { activities, resources, windows, strength }: Shape): Project {
  const stream = openStream(seed);
  const whole = (least: number, most: number) => least + Math.floor(stream() * (most - least + 1));
  const tasks: Task[] = Array.from({ length: activities }, (_, i) => ({
    id: String(i),
    name: `activity ${i}`,
    duration: whole(1, 10),
    demand: Array.from({ length: resources }, () => (stream() < 0.75 ? whole(1, 9) : 0)),
    attended: false,
  }));
  const lags: StartLag[] = [];
  for (let j = 1; j < activities; j++) {
    const many = whole(1, 3);
    for (let n = 0; n < many; n++) {
      const i = whole(Math.max(0, j - 9), j - 1);
      const least = whole(0, Math.ceil(1.5 * tasks[i]!.duration));
      lags.push({ from: i, to: j, least });
      if (stream() < windows) lags.push({ from: j, to: i, least: -(least + whole(2, 16)) });
    }
  }
  const capacity = Array.from({ length: resources }, (_, r) => {
    const most = Math.max(...tasks.map((task) => task.demand[r]!));
    const all = tasks.reduce((sum, task) => sum + task.demand[r]!, 0);
    return Math.max(most, Math.round(most + strength * 0.25 * (all - most)));
  });
  return { tasks, lags, capacity, resources: capacity.map((_, r) => `resource ${r + 1}`), shut: [] };
}

/** A job on a bike: minutes, one or two people, nights from ten to seven, a start at six in the evening. */
export function randomJob(seed: number, steps: number, people: 1 | 2): Project {
  const stream = openStream(seed);
  const whole = (least: number, most: number) => least + Math.floor(stream() * (most - least + 1));
  const tasks: Task[] = [];
  const lags: StartLag[] = [];
  const add = (duration: number, demand: readonly number[], attended = true): number => {
    tasks.push({ id: String(tasks.length), name: `step ${tasks.length}`, duration, demand, attended });
    return tasks.length - 1;
  };
  const down: number[] = [];
  const tools = () => [stream() < 0.3 ? 1 : 0, stream() < 0.2 ? 1 : 0];
  const half = Math.floor((steps - 4) / 2);
  for (let n = 0; n < half; n++) {
    const i = add(whole(2, 25), [people === 2 && stream() < 0.15 ? 2 : 1, ...tools()]);
    if (n > 0) {
      const before = down[whole(Math.max(0, n - 3), n - 1)]!;
      lags.push({ from: before, to: i, least: tasks[before]!.duration, fromEnd: true });
    }
    down.push(i);
  }
  const bottom = add(whole(20, 60), [1, 0, 0]);
  for (const i of down) lags.push({ from: i, to: bottom, least: tasks[i]!.duration, fromEnd: true });
  let last = bottom;
  const up: number[] = [];
  for (let n = 0; n < half; n++) {
    const i = add(whole(2, 20), [1, ...tools()]);
    const before = n === 0 || stream() < 0.6 ? last : up[whole(Math.max(0, n - 3), n - 1)]!;
    lags.push({ from: before, to: i, least: tasks[before]!.duration, fromEnd: true });
    if (stream() < 0.12)
      lags.push({ from: i, to: before, least: -(tasks[before]!.duration + whole(10, 20)), fromEnd: true });
    up.push(i);
    last = i;
  }
  const cure = add(whole(8, 24) * 60, [0, 0, 0], false);
  lags.push({ from: last, to: cure, least: tasks[last]!.duration, fromEnd: true });
  const charge = add(whole(4, 10) * 60, [0, 0, 0], false);
  const fill = add(10, [1, 0, 0]);
  for (const i of [cure, ...up]) lags.push({ from: i, to: fill, least: tasks[i]!.duration, fromEnd: true });
  const prove = add(15, [1, 0, 0]);
  for (const i of [fill, charge]) lags.push({ from: i, to: prove, least: tasks[i]!.duration, fromEnd: true });
  const shut = Array.from({ length: 10 }, (_, day) => ({ from: day * 1440 + 240, to: day * 1440 + 780 }));
  return { tasks, lags, capacity: [people, 1, 1], resources: ['hands', 'lift', 'wrench'], shut };
}
