/** The pages of docs that are made from the program, by their paths from the root of the project. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { standalone } from '../../src/draw/palette.ts';
import { svgText } from '../../src/draw/svg.ts';
import type { Machine } from '../../src/machine/definition.ts';
import { writeMachineWords } from '../../src/machine/file-words.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { readingPage } from '../../src/paper/reading-page.ts';
import { still } from '../../src/paper/still.ts';

/** The invented bikes of the readings page: the second has the sense wire that the first lacks. */
const SHOWN = ['ardmoor-650-pathway.json', 'pemburrow-900-carillon.json'];

function machine(root: string, name: string): Machine {
  const read = readMachine(readFileSync(join(root, 'machines', name), 'utf8'), name);
  if (!read.ok) throw new Error(`${name} is no machine file`);
  return read.machine;
}

export function madePages(root: string): ReadonlyMap<string, string> {
  const { text, drawings } = readingPage(SHOWN.map((name) => machine(root, name)));
  return new Map([
    ['docs/machine-file.md', writeMachineWords()],
    ['docs/readings.md', text],
    ...[...drawings].map(([id, drawing]): [string, string] => [
      `docs/readings/${id}.svg`,
      `${svgText(standalone(still(drawing), 'paper'))}\n`,
    ]),
  ]);
}
