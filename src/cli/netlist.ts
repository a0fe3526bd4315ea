/** `netlist`: the same circuit for a SPICE simulator. */
import { writeNetlist } from '../circuit/netlist.ts';
import { CIRCUMSTANCES, readCircumstances, rpmOf } from './circumstances.ts';
import type { Command } from './command.ts';
import { NEW_PART, openMachine, titleOf } from './open-machine.ts';

export const netlist: Command = {
  name: 'netlist',
  about: 'Write the same circuit as a SPICE netlist',
  takes: 'MACHINE',
  more: ['The netlist is complete in itself; any SPICE with switches and .meas runs it.'],
  options: [
    { name: '--rpm', value: 'RPM', about: 'engine speed; 3000 unless said' },
    ...CIRCUMSTANCES,
    NEW_PART,
  ],
  example: {
    line: 'netlist machines/oskerlund-420-fellgate.json --rpm 1500 > oskerlund.cir',
    shows: 'the single-phase Oskerlund at 1500 rpm, for a simulator',
  },
  words: [1, 1],
  run: async (given, world) => {
    const opened = await openMachine(given.words[0]!, given, world);
    const rpm = rpmOf(given, '--rpm', 3000);
    const { bike, stateAt, words } = readCircumstances(given, opened.spec);
    return writeNetlist(bike, stateAt(rpm), { title: `${titleOf(opened)}: ${rpm} rpm, ${words}` });
  },
};
