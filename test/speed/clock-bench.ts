/**
 * Times the clock: 10,000 runs of a job of forty steps, and how much slower the other simulator of the tests is; when to
 * begin for a ride, and the plan anew when something is seized, on the shipped machines. Processor time: other programs
 * on the machine are not counted. The first clock of a program, which the engine has not compiled yet, is told apart.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { judgeFile } from '../../src/machine/judge-file.ts';
import { workOf } from '../../src/machine/work.ts';
import { runClock } from '../../src/way/clock.ts';
import { planJob } from '../../src/way/plan.ts';
import type { PlanRequest } from '../../src/way/plan-shape.ts';
import { replan } from '../../src/way/replan.ts';
import { START_CHANCES } from '../../src/way/say-start.ts';
import { scheduleProject } from '../../src/way/schedule.ts';
import { startBy } from '../../src/way/start-by.ts';
import { shutNights } from '../../src/way/to-project.ts';
import { otherEnds } from '../way/other-clock.ts';
import { randomJob } from '../way/random-project.ts';

/** Processor time of the whole program so far, ms. */
function cpuMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

// All orders of work first, and a rest: what the engine compiles of the scheduler meanwhile is no time of the clock.
const jobs = Array.from({ length: 24 }, (_, seed) => {
  const project = randomJob(seed, 40, seed % 2 ? 2 : 1);
  const uncertain = project.tasks.map(({ duration, attended }, i) => {
    if (!attended) return { minutes: { low: duration, likely: duration, high: duration } };
    const minutes = { low: 0.7 * duration, likely: duration, high: 1.8 * duration };
    const seizes = { chance: 0.1, adds: { low: 10, likely: 20, high: 60 }, cause: 'rust' };
    return i % 5 === 0 ? { minutes, seizes } : { minutes };
  });
  return { seed, project, uncertain, found: scheduleProject(project, { steps: 2000 }) };
}).flatMap(({ found, ...rest }) => (found.ok ? [{ ...rest, starts: found.starts }] : []));
await new Promise((done) => setTimeout(done, 1000));
const clocks = jobs.map(({ seed, project, starts, uncertain }) => {
  const start = cpuMs();
  const { p90 } = runClock(project, starts, uncertain, { seed });
  return { ms: cpuMs() - start, p90 };
});
const times = clocks.map(({ ms }) => ms);
const ours = times.reduce((a, b) => a + b, 0);
let covered = 0;
let others = 0;
let theirs = 0;
for (const [n, { seed, project, starts, uncertain }] of jobs.entries()) {
  const before = cpuMs();
  const ends = otherEnds(project, starts, uncertain, 500, seed + 9, { pace: 0.12, correlation: 0.5 });
  theirs += (cpuMs() - before) * 20;
  covered += ends.filter((end) => end <= clocks[n]!.p90).length;
  others += ends.length;
}
const first = times.shift()!;
/** "p50 30  p99 41  max 45". */
function shares(list: readonly number[]): string {
  const sorted = [...list].sort((a, b) => a - b);
  const at = (share: number) =>
    sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!.toFixed(0);
  return `p50 ${at(0.5)}  p99 ${at(0.99)}  max ${at(1)}`;
}
console.log(
  `clock, 10,000 runs of 40 steps, ms              ${shares(times)}, the first ${first.toFixed(0)}  (asked 40)`,
);
console.log(
  `P90 covers ${((100 * covered) / others).toFixed(1)} % of the other simulator's runs (asked 88–92)`,
);
console.log(`the other simulator takes ${(theirs / ours).toFixed(0)} times as long`);

const now = { at: 0, did: [], facts: [] };
const NIGHTS = { from: 22 * 60, to: 7 * 60 };
const begins: number[] = [];
/** Plans made anew by a program just begun, whose engine has yet to compile it, and by the same a second time. */
const replans: { readonly first: number[]; readonly later: number[] } = { first: [], later: [] };
let proved = 0;
const works = ['ardmoor-650-pathway', 'oskerlund-420-fellgate', 'pemburrow-900-carillon'].flatMap((name) => {
  const { machine } = judgeFile(readFileSync(`machines/${name}.json`, 'utf8'), name, 2026);
  return (machine && workOf(machine, 2026)) ?? [];
});

function planAnew(request: PlanRequest, into: number[]): void {
  const plan = planJob(request);
  if (!plan.ok) return;
  const { actions } = request.work;
  for (const action of plan.least.actions.filter((id) => actions.find((a) => a.id === id)?.seizes))
    for (const adds of [20, 'never'] as const) {
      const before = cpuMs();
      const made = replan(request, plan.least, now, { what: 'seized', action, adds });
      // That there is no way round is known at once, and would flatter the figures.
      if (!made.answer.ok) continue;
      into.push(cpuMs() - before);
      if (into === replans.later && made.answer.least.ride.proved) proved += 1;
    }
}

for (const round of ['first', 'later'] as const)
  for (const work of works)
    for (const people of [1, 2] as const)
      for (const startsAt of [9 * 60, 18 * 60]) {
        const shut = shutNights(startsAt, NIGHTS.from, NIGHTS.to);
        const request = { work, targets: ['stator'], people, shut };
        const deadline = 3 * 1440 + 9 * 60 - startsAt;
        const start = cpuMs();
        if (round === 'first') {
          startBy(request, {
            deadline,
            now: 0,
            chances: START_CHANCES,
            startsAt,
            nights: NIGHTS,
            aim: 'least',
          });
          begins.push(cpuMs() - start);
        }
        planAnew(request, replans[round]);
      }
console.log(`when to begin for a ride, shipped machines, ms  ${shares(begins)}`);
console.log(
  `plan anew when seized, ${replans.later.length} of the shipped machines, ms  ${shares(replans.later)}  (asked 50), ${proved} proved the soonest for their way; by a program just begun ${shares(replans.first)}`,
);
const cli = [
  'dist/cli/main.js',
  'way',
  'machines/ardmoor-650-pathway.json',
  '--to',
  'stator',
  '--ride-by',
  '9:00',
];
const begun = performance.now();
const told = spawnSync(process.execPath, cli, { encoding: 'utf8' });
if (told.status !== 0) throw new Error(told.stderr);
console.log(
  `"way --ride-by" on the command line, the clock on the wall, ms  ${(performance.now() - begun).toFixed(0)}`,
);
