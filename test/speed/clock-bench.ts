/** Times the clock: 10,000 runs of a job of forty steps, and how much slower the other simulator of the tests is. */
import { runClock } from '../../src/way/clock.ts';
import { scheduleProject } from '../../src/way/schedule.ts';
import { otherEnds } from '../way/other-clock.ts';
import { randomJob } from '../way/random-project.ts';

const times: number[] = [];
let covered = 0;
let others = 0;
let theirs = 0;
for (let seed = 0; seed < 24; seed++) {
  const project = randomJob(seed, 40, seed % 2 ? 2 : 1);
  const found = scheduleProject(project, { steps: 2000 });
  if (!found.ok) continue;
  const uncertain = project.tasks.map(({ duration, attended }, i) => {
    if (!attended) return { minutes: { low: duration, likely: duration, high: duration } };
    const minutes = { low: 0.7 * duration, likely: duration, high: 1.8 * duration };
    const seizes = { chance: 0.1, adds: { low: 10, likely: 20, high: 60 }, cause: 'rust' };
    return i % 5 === 0 ? { minutes, seizes } : { minutes };
  });
  const start = performance.now();
  const { p90 } = runClock(project, found.starts, uncertain, { seed });
  times.push(performance.now() - start);
  const before = performance.now();
  const ends = otherEnds(project, found.starts, uncertain, 500, seed + 9, { pace: 0.12, correlation: 0.5 });
  theirs += (performance.now() - before) * 20;
  covered += ends.filter((end) => end <= p90).length;
  others += ends.length;
}
times.sort((a, b) => a - b);
const at = (share: number) => times[Math.min(times.length - 1, Math.floor(share * times.length))]!.toFixed(0);
console.log(`clock, 10,000 runs of 40 steps, ms              p50 ${at(0.5)}  p99 ${at(0.99)}  (asked 40)`);
console.log(
  `P90 covers ${((100 * covered) / others).toFixed(1)} % of the other simulator's runs (asked 88–92)`,
);
console.log(
  `the other simulator takes ${(theirs / times.reduce((a, b) => a + b, 0)).toFixed(0)} times as long`,
);
