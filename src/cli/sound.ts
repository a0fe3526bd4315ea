/** `sound`: what a sound bike of this kind shows, reading by reading. */
import { describeReading } from '../reading/describe.ts';
import { readKey } from '../reading/key.ts';
import { openAssessor } from '../verdict/assess.ts';
import type { Command } from './command.ts';
import { NEW_PART, openMachine, titleOf } from './open-machine.ts';
import { readKeyText } from './read-readings.ts';
import { Refusal } from './refusal.ts';
import { showSound } from './write-answer.ts';

export const sound: Command = {
  name: 'sound',
  about: 'Show what a sound bike of this kind shows, reading by reading',
  takes: 'MACHINE READING…',
  more: [
    'The band is computed for this machine, at this engine speed and these lights, with the tolerances of its book and of ordinary meters. A reading is a kind with its state, in quotes.',
  ],
  options: [NEW_PART, { name: '--json', about: 'write one JSON object a line' }],
  example: {
    line: 'sound machines/ardmoor-650-pathway.json "batt_volts lights=low rpm=idle" "ripple rpm=3000"',
    shows: 'battery volts at idle and ripple at 3000 rpm on a sound Ardmoor',
  },
  words: [2, 200],
  run: async (given, world) => {
    const [file, ...texts] = given.words;
    const opened = await openMachine(file!, given, world);
    const checked = texts.map((text) => readKeyText(text, opened.spec));
    const faults = checked.flatMap((one) => (one.ok ? [] : [`${one.why}.`]));
    if (faults.length > 0) throw new Refusal(...faults);
    const assessor = openAssessor(opened.spec);
    const lines = checked.flatMap((one) => {
      if (!one.ok) return [];
      const shows = assessor.sound(one.canonical);
      if (given.has('--json')) return [JSON.stringify({ key: one.canonical, unit: one.kind.unit, ...shows })];
      const key = readKey(one.canonical)!;
      return [`  ${one.canonical}: ${showSound(one.canonical, shows)}  (${describeReading(key)})`];
    });
    return given.has('--json')
      ? `${lines.join('\n')}\n`
      : `${titleOf(opened)}, sound:\n${lines.join('\n')}\n`;
  },
};
