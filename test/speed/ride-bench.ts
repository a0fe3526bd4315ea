/**
 * `npm run bench`: a month on the road, the three months of a balance, and the balance with its advice. Processor time of
 * this process, median of several; the tables of the alternator are filled once beforehand and timed by themselves.
 */
import { adviseRide } from '../../src/circuit/ride-advice.ts';
import { balanceRide, monthOf, rideMachine } from '../../src/circuit/ride-balance.ts';
import type { RideLife } from '../../src/circuit/ride-legs.ts';
import { SHIPPED, specOf } from '../machine/shipped.ts';

const LIFE: RideLife = {
  legs: [
    { name: 'town', rpm: 1600, minutes: 25, lights: 'low' },
    { name: 'motorway', rpm: 4500, minutes: 60, lights: 'high' },
    { name: 'ferry queue', rpm: 0, minutes: 40, lights: 'park' },
    { name: 'parked', rpm: 0, minutes: 420, lights: 'off' },
    { name: 'town', rpm: 1100, minutes: 45, lights: 'low' },
  ],
  loads: [
    { name: 'jacket', watts: 65, when: 'riding' },
    { name: 'tracker', watts: 0.3, when: 'always' },
  ],
  celsius: 3,
  days: 30,
  everyDays: 1,
  startCharge: 0.95,
};

let sink = 0;

/** Median processor time of a call, ms. */
function milliseconds(work: () => number, calls = 15): number {
  const times: number[] = [];
  for (let n = 0; n < calls; n++) {
    const before = process.cpuUsage();
    sink += work();
    const { user, system } = process.cpuUsage(before);
    times.push((user + system) / 1000);
  }
  return times.sort((a, b) => a - b)[calls >> 1]!;
}

console.log('Ride balance, 30 days of 5 legs, processor time on one core, ms');
for (const name of SHIPPED) {
  const spec = specOf(name);
  const opened = milliseconds(() => balanceRide(rideMachine(spec), { ...LIFE, days: 1 }).legs.length, 5);
  const machine = rideMachine(spec);
  const month = milliseconds(() => monthOf(machine, LIFE, 'likely').lowest);
  const balance = milliseconds(() => balanceRide(machine, LIFE).legs.length);
  const now = balanceRide(machine, LIFE);
  const advice = milliseconds(() => adviseRide(machine, LIFE, now).single.length, 5);
  const mark = `≤ 20${month > 20 ? ' !' : ''}`;
  console.log(
    `${name.padEnd(24)} month ${month.toFixed(1)} (${mark})  three months ${balance.toFixed(1)}  advice ${advice.toFixed(0)}  tables ${opened.toFixed(0)}`,
  );
}
if (!Number.isFinite(sink)) throw new Error('a month without a figure');
