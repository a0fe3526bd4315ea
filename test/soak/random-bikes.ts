/**
 * The long form of test/verdict/random-bikes.test.ts: `node scripts/run-ts.mjs test/soak/random-bikes.ts [BIKES] [FIRST SEED]`.
 * A thousand bikes unless told otherwise, the engine running on every second one, and a tenth as many more of each book
 * at the edge of what a book may say, with silly evidence. Exit code 1 where anything is wrong.
 */
import { openAssessor } from '../../src/verdict/assess.ts';
import { tryBike } from '../verdict/answer-checks.ts';
import { EDGES, trySpec } from '../verdict/silly-evidence.ts';

const [, , many = '1000', first = '1'] = process.argv;
let wrong = 0;
const start = performance.now();
for (let n = 0; n < Number(many); n++) {
  const seed = Number(first) + n;
  for (const sentence of tryBike(seed, seed % 2 === 0, 3)) {
    wrong++;
    console.log(sentence);
  }
  if ((n + 1) % 50 === 0)
    console.log(`${n + 1} bikes, ${wrong} wrong, ${((performance.now() - start) / 1000).toFixed(0)} s`);
}
const more = Math.ceil(Number(many) / 10);
for (const spec of EDGES) {
  const assessor = openAssessor(spec);
  for (let n = 0; n < more; n++) {
    for (const sentence of trySpec(spec, 1, Number(first) + n, n % 2 === 0, assessor)) {
      wrong++;
      console.log(sentence);
    }
  }
  console.log(`${spec.name}: ${more} bikes, ${wrong} wrong in all`);
}
console.log(`${many} bikes from seed ${first}: ${wrong} wrong`);
process.exitCode = wrong > 0 ? 1 : 0;
