/** Long trials of the log and the door, with printed figures: `npm run soak [PARTITIONS] [REQUESTS]`. */
import { demoJob } from '../../src/job/demo.ts';
import { fuzz } from '../serve/fuzz.ts';
import { openGarage } from '../serve/garage.ts';
import { partitions } from './partitions.ts';

const [, , runs = '1000', requests = '10000'] = process.argv;
const begun = performance.now();
const split = partitions(Number(runs), 7);
console.log(
  `${split.runs} partitions of three devices, clocks up to an hour off: ${split.events} events, ${split.deliveries} deliveries, ${split.apart} not one state, ${split.lost} lost (${((performance.now() - begun) / 1000).toFixed(1)} s)`,
);
const garage = await openGarage();
await garage.store.append(demoJob());
const odd = await fuzz(garage, Number(requests), 11);
const told = [...odd.statuses].sort(([a], [b]) => a - b).map(([status, count]) => `${status}: ${count}`);
console.log(
  `${odd.sent} odd requests: ${told.join(', ')}; ${odd.bad.length} bad, ${garage.faults.length} faults`,
);
for (const line of odd.bad.slice(0, 10)) console.log(`  ${line}`);
const alive = (await garage.ask('/api/health')).status === 200;
await garage.close();
process.exitCode = split.apart + split.lost + odd.bad.length + garage.faults.length > 0 || !alive ? 1 : 0;
