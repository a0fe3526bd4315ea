/** `npm run bench`: the physics beside ngspice, then the verdict. `npm run bench -- verdict` or `-- circuit` runs one half. */
import { benchCircuit } from './circuit-bench.ts';
import { benchVerdict } from './verdict-bench.ts';

const only = process.argv[2];
const print = (line: string) => console.log(line);
if (only !== undefined && only !== 'circuit' && only !== 'verdict') {
  console.error(`bench: there is no half called "${only}"; leave it out, or say circuit or verdict.`);
  process.exit(2);
}
if (only !== 'verdict') await benchCircuit(print);
if (only !== 'circuit') {
  print('');
  await benchVerdict(print);
}
