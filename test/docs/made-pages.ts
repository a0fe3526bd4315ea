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
import { workedExample } from './worked-example.ts';

/** The invented bikes of the readings page: the second has the sense wire that the first lacks. */
const SHOWN = ['ardmoor-650-pathway.json', 'pemburrow-900-carillon.json'];

function machine(root: string, name: string): Machine {
  const read = readMachine(readFileSync(join(root, 'machines', name), 'utf8'), name);
  if (!read.ok) throw new Error(`${name} is no machine file`);
  return read.machine;
}

/** A page that is written by hand but for what stands between two marks. */
function withMade(page: string, name: string, made: string): string {
  const [before, after] = page.split(new RegExp(`(?<=<!-- made: ${name} -->\n)[^]*?(?=<!-- end -->)`));
  if (before === undefined || after === undefined) throw new Error(`the marks of "${name}" are missing`);
  return `${before}\n${made}\n\n${after}`;
}

export function madePages(root: string): ReadonlyMap<string, string> {
  const machines = SHOWN.map((name) => machine(root, name));
  const { text, drawings } = readingPage(machines);
  const sure = readFileSync(join(root, 'docs/how-sure.md'), 'utf8');
  return new Map([
    ['docs/machine-file.md', writeMachineWords()],
    ['docs/readings.md', text],
    ['docs/how-sure.md', withMade(sure, 'example', workedExample(machines[0]!))],
    ...[...drawings].map(([id, drawing]): [string, string] => [
      `docs/readings/${id}.svg`,
      `${svgText(standalone(still(drawing), 'paper'))}\n`,
    ]),
  ]);
}
