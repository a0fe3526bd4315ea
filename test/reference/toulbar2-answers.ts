/** Asks toulbar2 about every network and writes its answers to test/fixtures/toulbar2: see toulbar2.ts. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { evidenceTextOf, NETWORKS, uaiOf } from './diagnosis-networks.ts';
import { askToulbar2 } from './toulbar2.ts';

const folder = 'test/fixtures/toulbar2';
mkdirSync(folder, { recursive: true });
for (const network of NETWORKS) {
  const answers = askToulbar2(network);
  writeFileSync(`${folder}/${network.name}.uai`, uaiOf(network));
  writeFileSync(`${folder}/${network.name}.uai.evid`, evidenceTextOf(network));
  const { solutions, ...rest } = answers;
  const rows = solutions.map((row) => `    ${JSON.stringify(row)}`).join(',\n');
  const head = JSON.stringify(rest, null, 2).replace(/\n\}$/, '');
  writeFileSync(`${folder}/${network.name}.json`, `${head},\n  "solutions": [\n${rows}\n  ]\n}\n`);
  console.log(`${network.name}: ${solutions.length} solutions, log Z ${rest.logEvidence.join(' … ')}`);
}
