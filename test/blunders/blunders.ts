/** `npm run blunders`: planted blunders and sound files, class by class; fails under the floor. */
import { PLANTS, SOUNDS } from './list.ts';
import { FLOOR, passes, score, table } from './score.ts';

const found = score(PLANTS, SOUNDS);
console.log(table(found));
for (const fault of found.faults) console.log(fault);
const floor = `floor: at least ${FLOOR.caught * 100} % caught for the right reason, at most ${FLOOR.alarmed * 100} % false alarms`;
console.log(`${floor}: ${passes(found) ? 'held' : 'NOT HELD'}`);
if (!passes(found)) process.exitCode = 1;
