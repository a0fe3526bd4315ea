/** `sharpen`: which figure of a machine file would narrow the verdict most, were it known. */
import { sharpen as sharpenMachine } from '../start/sharpen.ts';
import type { Command } from './command.ts';
import { openMachine, titleOf } from './open-machine.ts';
import { wrap } from './table.ts';

/** Pairs told apart, and share of a band, under which a figure is only named, 1. */
const LITTLE = 0.05;

export const sharpen: Command = {
  name: 'sharpen',
  about: 'Say which figure of a machine file is most worth finding out',
  takes: 'MACHINE',
  more: [
    'Figures that are wide, guessed or missing, the most telling first. For each the circuit is worked out with the figure known: how many pairs of faults that need different repairs would be told apart that are not, and how much narrower a sound bike would read.',
  ],
  options: [{ name: '--json', about: 'write one JSON object' }],
  example: {
    line: 'sharpen machines/pemburrow-900-carillon.json',
    shows: 'that nothing is left to find out on a bike read off its book and labels',
  },
  words: [1, 1],
  run: async (given, world) => {
    const opened = await openMachine(given.words[0]!, given, world);
    const list = sharpenMachine(opened.machine);
    if (given.has('--json')) return `${JSON.stringify({ file: opened.file, figures: list })}\n`;
    if (list.length === 0)
      return `${titleOf(opened)}: no figure of the charging circuit is so wide that the verdict would gain by it.\n`;
    const lines = [`${titleOf(opened)}: the figures worth finding out, the most telling first.`, ''];
    const telling = list.filter(({ gain }) => gain.told >= LITTLE || gain.narrows >= LITTLE);
    for (const { label, path, now, why, gain } of telling) {
      lines.push(`${label}, now ${now}`, wrap(why, 2));
      const narrows = Math.round(100 * gain.narrows);
      const bands = narrows < 1 ? 'hardly' : `${narrows} %`;
      lines.push(
        wrap(
          `Of ${gain.pairs} pairs of faults ${gain.apart} more would be told apart; sound bikes would read ${bands} more alike. ${path.slice(2)}`,
          2,
        ),
        '',
      );
    }
    const rest = list.filter((one) => !telling.includes(one)).map(({ label }) => label);
    if (rest.length > 0) lines.push(wrap(`These would change little: ${rest.join(', ')}.`, 0), '');
    return lines.join('\n');
  },
};
