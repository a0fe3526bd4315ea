/** Looks a schedule over without knowing how it was made: lags, capacities, shut hours. */
import type { Project } from './project.ts';

/** What is wrong with these starts, a sentence each; empty where nothing is. */
export function checkSchedule(project: Project, starts: readonly number[]): string[] {
  const { tasks, lags, capacity, resources, shut } = project;
  const wrong: string[] = [];
  if (starts.length !== tasks.length) return [`${tasks.length} starts are due, got ${starts.length}`];
  tasks.forEach((task, i) => {
    const start = starts[i]!;
    if (!Number.isSafeInteger(start) || start < 0) wrong.push(`${task.name} starts at ${start}`);
    if (task.attended && task.duration > 0)
      for (const { from, to } of shut)
        if (start < to && start + task.duration > from)
          wrong.push(`${task.name} runs into the hours ${from} to ${to}`);
  });
  for (const { from, to, least } of lags)
    if (starts[to]! < starts[from]! + least)
      wrong.push(
        `${tasks[to]!.name} starts at ${starts[to]}, less than ${least} after ${tasks[from]!.name} at ${starts[from]}`,
      );
  capacity.forEach((most, r) => {
    for (const at of new Set(starts)) {
      let taken = 0;
      tasks.forEach((task, i) => {
        if (starts[i]! <= at && starts[i]! + task.duration > at) taken += task.demand[r] ?? 0;
      });
      if (taken > most) wrong.push(`at ${at} ${taken} of ${resources[r]} are taken and there are ${most}`);
    }
  });
  return wrong;
}
