/** `import`: takes in what `export` or `share` wrote. */
import { keep } from '../press/keep.ts';
import { GARAGE_LIMITS } from '../press/limits.ts';
import { readFileToImport } from '../press/read-file.ts';
import type { Command } from './command.ts';
import { counted } from './counted.ts';
import { importMachine, isMachine } from './import-machine.ts';
import { inGarage } from './open-garage.ts';
import { Refusal } from './refusal.ts';

export const importJob: Command = {
  name: 'import',
  about: 'Take in a job, a whole garage or a machine file that "export" or "share" wrote',
  takes: 'FROM',
  more: [
    'Everything in the file is checked first: check sums, sizes, every event. All of it is taken in, or nothing. Events that are here already are no trouble, so the same file may be taken in twice, and two that worked on one job apart may swap theirs. Nothing that is here is changed or overwritten: a machine file that differs from the one here stays in the zip, and that is said.',
    'A machine file, plain or packed by "share", becomes a machine of your own, or the next version of one; a shipped one is never replaced.',
    'The store is that of the server (DATABASE_URL, or CHARGEWRIGHT_HOME, else .chargewright in this folder); it is made where there is none. The server may run meanwhile.',
  ],
  options: [
    {
      name: '--as',
      value: 'ID',
      about: 'of a machine file: the name it is kept under; that of the bike unless said',
    },
    { name: '--look', about: 'only say what is in it and what would come of it; keep nothing' },
  ],
  example: {
    line: 'import --look test/press/demo-ferry-run.zip',
    shows: 'what is in an export of the demo job, without taking it in',
  },
  words: [1, 1],
  run: async (given, world) => {
    const bytes = await world.bytes(given.words[0]!, GARAGE_LIMITS.zip);
    const name = given.words[0] === '-' ? 'standard input' : given.words[0]!;
    const really = !given.has('--look');
    if (isMachine(bytes)) return importMachine(bytes, name, given.one('--as'), really);
    if (given.has('--as')) throw new Refusal('--as is for a machine file alone: leave it out.');
    const read = readFileToImport(bytes, name);
    if (!read.ok) throw new Refusal(read.why);
    const { jobs, machines } = read;
    return inGarage(really, async ({ storeName, ...into }) => {
      const answer = await keep(jobs, machines, into, name, really);
      if (!answer.ok) throw new Refusal(answer.why);
      const { kept } = answer;
      const lines = kept.jobs.map(({ job, fresh, known }, index) => {
        const { title, invented, machine } = jobs[index]!.head;
        if (machine === '')
          return `${job}, not opened yet: ${counted(fresh, 'new event')}, ${known} known already`;
        return `${job}, "${title}"${invented ? ' (invented)' : ''}: ${counted(fresh, 'new event')}, ${known} known already`;
      });
      if (kept.photos > 0)
        lines.push(`${really ? 'Kept' : 'Would keep'} ${counted(kept.photos, 'photograph')}.`);
      if (kept.machines.length > 0)
        lines.push(`${really ? 'Kept' : 'Would keep'} the machine files ${kept.machines.join(', ')}.`);
      lines.push(...kept.notes);
      const count = counted(kept.jobs.length, 'job');
      lines.push(
        really ? `${count} taken in; the store is ${storeName}.` : `${count} in it; nothing was taken in.`,
      );
      return `${lines.join('\n')}\n`;
    });
  },
};
