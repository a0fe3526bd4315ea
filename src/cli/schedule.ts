/** `schedule`: the least time of a project in the public benchmark format, with proof. */
import { checkSchedule } from '../way/check-schedule.ts';
import type { Schedule } from '../way/project.ts';
import { readSch } from '../way/sch-file.ts';
import { scheduleProject } from '../way/schedule.ts';
import type { Command } from './command.ts';
import { numberOf } from './options.ts';
import { Refusal } from './refusal.ts';

function said(found: Schedule): string {
  if (found.ok)
    return found.proved ? String(found.makespan) : `best ${found.makespan}, at least ${found.bound}`;
  if (found.why !== 'time') return 'infeasible';
  return `none found, at least ${found.bound}`;
}

export const schedule: Command = {
  name: 'schedule',
  about: 'Find the least time of a project with lags and resources, with proof',
  takes: 'FILE',
  more: [
    'The file is in the ProGen/max text format of the public RCPSP/max benchmark sets. What comes out is the least time alone on a line when it is proved; "infeasible" when there is no schedule; or the best found with its bound.',
  ],
  options: [
    { name: '--seconds', value: 'N', about: 'look for at most so long; 20 unless said' },
    { name: '--json', about: 'write one JSON object, with every start' },
  ],
  example: {
    line: 'schedule test/fixtures/schedule/seven.sch',
    shows: 'the least time of seven activities on one resource',
  },
  words: [1, 1],
  run: async (given, world) => {
    const name = given.words[0]!;
    const seconds = numberOf(given, '--seconds', 0.01, 86400, 's', 20);
    const read = readSch(await world.read(name));
    if (!read.ok) throw new Refusal(`${name}: ${read.why}`);
    const until = performance.now() + 1000 * seconds;
    const found = scheduleProject(read.project, {
      steps: Number.POSITIVE_INFINITY,
      tick: () => performance.now() < until,
    });
    if (found.ok) {
      const wrong = checkSchedule(read.project, found.starts);
      if (wrong.length > 0) throw new Error(`the schedule found breaks the project: ${wrong[0]}`);
    }
    if (!given.has('--json')) return `${said(found)}\n`;
    // JSON has no infinity: where there is no schedule there is no bound either.
    const bound = Number.isFinite(found.bound) ? found.bound : null;
    const tasks = read.project.tasks.map(({ id }) => id);
    return `${JSON.stringify(found.ok ? { ...found, tasks } : { ...found, bound, tasks })}\n`;
  },
};
