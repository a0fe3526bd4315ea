/** `check`: whether machine files are in order, and what to know about them. */
import { writeProblem } from '../machine/problem.ts';
import { readMachine } from '../machine/read-machine.ts';
import type { Command } from './command.ts';
import { Refusal } from './refusal.ts';

export const check: Command = {
  name: 'check',
  about: 'Check machine files, and say where their sources differ',
  takes: 'MACHINE…',
  more: [
    'Every problem is named with its file, line, place and remedy, and the exit code is 2. A file in order is listed with its notes.',
  ],
  options: [{ name: '--json', about: 'write one JSON object a file' }],
  example: {
    line: 'check machines/ardmoor-650-pathway.json',
    shows: 'that the file is in order, and its notes',
  },
  words: [1, 100],
  run: async (given, world) => {
    const problems: string[] = [];
    const lines: string[] = [];
    for (const file of given.words) {
      const read = readMachine(await world.read(file), file);
      if (!read.ok) problems.push(...read.problems.map(writeProblem));
      else if (given.has('--json'))
        lines.push(JSON.stringify({ file, about: read.machine.about, notes: read.notes }));
      else lines.push(`${file}: in order.`, ...read.notes.map((note) => `  ${note}`));
    }
    if (problems.length > 0) throw new Refusal(...problems);
    return `${lines.join('\n')}\n`;
  },
};
