/** `compare`: two machine files side by side. */
import { compare } from '../draft/compare.ts';
import { sayDifference } from '../draft/say-difference.ts';
import type { Command } from './command.ts';
import { counted } from './counted.ts';
import { openMachineFile } from './open-machine-file.ts';
import { Refusal } from './refusal.ts';

export const compareMachines: Command = {
  name: 'compare',
  about: 'Compare two machine files: each difference a line, with who says so',
  takes: 'A B',
  more: [
    'Each line names the place, what A says and what B says, each with its source. A file may be plain or a pack. The exit code is 0 where they say the same, 1 where they differ, 2 where one cannot be read.',
  ],
  options: [
    { name: '--json', about: 'write one JSON list: { at, here, there }, each as it stands in its file' },
  ],
  example: {
    line: 'compare machines/ardmoor-650-pathway.json machines/oskerlund-420-fellgate.json',
    shows: 'where the files of two bikes differ',
  },
  words: [2, 2],
  run: async (given, world) => {
    if (given.words.every((word) => word === '-'))
      throw new Refusal('Only one of the two files can come from standard input: name the other.');
    const here = await openMachineFile(given.words[0]!, world);
    const there = await openMachineFile(given.words[1]!, world);
    const found = compare(here.value, there.value);
    if (found.length > 0) process.exitCode = 1;
    if (given.has('--json'))
      return `${JSON.stringify(found.map(({ at, here: a, there: b }) => ({ at, here: a ?? null, there: b ?? null })))}\n`;
    if (found.length === 0) return `${here.from} and ${there.from} say the same.\n`;
    const lines = found.map((one) => {
      const said = sayDifference(one, here.value, there.value);
      return `${said.at}: ${said.here} | ${said.there}`;
    });
    return `${[...lines, `${counted(found.length, 'difference')}.`].join('\n')}\n`;
  },
};
