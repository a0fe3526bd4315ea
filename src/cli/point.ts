/** `point`: what every meter would show at one engine speed. */
import { solvePoint } from '../circuit/point.ts';
import { CIRCUMSTANCES, readCircumstances, rpmOf } from './circumstances.ts';
import type { Command } from './command.ts';
import { NEW_PART, openMachine, titleOf } from './open-machine.ts';
import { pointFigures, pointObject } from './point-columns.ts';
import { figure } from './table.ts';

export const point: Command = {
  name: 'point',
  about: 'Show what every meter would show at one engine speed',
  takes: 'MACHINE',
  more: [
    'Computes the charging circuit of the machine file, sound or with the faults you put in, in the middle of its tolerances.',
  ],
  options: [
    { name: '--rpm', value: 'RPM', about: 'engine speed; 3000 unless said' },
    ...CIRCUMSTANCES,
    NEW_PART,
    { name: '--json', about: 'write one JSON object' },
  ],
  example: {
    line: 'point machines/ardmoor-650-pathway.json --rpm 1000 --fault plug-pin:0.5:a',
    shows: 'the Ardmoor at idle with low beam and a burnt pin',
  },
  words: [1, 1],
  run: async (given, world) => {
    const opened = await openMachine(given.words[0]!, given, world);
    const { spec } = opened;
    const rpm = rpmOf(given, '--rpm', 3000);
    const { bike, stateAt, words } = readCircumstances(given, spec);
    const solved = solvePoint(bike, stateAt(rpm));
    if (given.has('--json')) {
      const state = { rpm, circumstances: words };
      return `${JSON.stringify({ machine: titleOf(opened), ...state, ...pointObject(solved, spec.alternator.phases) })}\n`;
    }
    const figures = pointFigures(spec.alternator.phases);
    const widest = Math.max(...figures.map((one) => one.words.length));
    const lines = figures.map(({ words: name, unit, decimals, of }) => {
      return `  ${name.padEnd(widest)}  ${figure(of(solved), decimals).padStart(7)} ${unit.replace(' rms', '')}`;
    });
    return `${titleOf(opened)}: ${rpm} rpm, ${words}\n${lines.join('\n')}\n`;
  },
};
