/**
 * The long form of test/verdict/random-bikes.test.ts: `node scripts/run-ts.mjs test/soak/random-bikes.ts [BIKES] [FIRST SEED]`.
 * A thousand bikes unless told otherwise, the engine running on every second one. Exit code 1 where anything is wrong.
 */
import { tryBike } from '../verdict/answer-checks.ts';

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
console.log(`${many} bikes from seed ${first}: ${wrong} wrong`);
process.exitCode = wrong > 0 ? 1 : 0;
