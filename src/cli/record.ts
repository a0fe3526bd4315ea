/** `record`: the record of a job, or the page for its owner, as a PDF. */
import { DEMO_JOB } from '../job/demo.ts';
import { foldJob } from '../job/fold.ts';
import { markdownText } from '../paper/markdown-text.ts';
import { ownerSheet } from '../paper/owner-sheet.ts';
import { jobRecord } from '../paper/record.ts';
import { machineOf } from '../press/how-to-pack.ts';
import { paperPdf } from '../press/job-paper.ts';
import { proveJob } from '../proof/prove-job.ts';
import type { Command } from './command.ts';
import { counted } from './counted.ts';
import { kilobytes, write } from './export-job.ts';
import { handedOver } from './handover-job.ts';
import { inGarage } from './open-garage.ts';
import { either } from './options.ts';
import { Refusal } from './refusal.ts';

export const record: Command = {
  name: 'record',
  about: 'Write the record of a job, or the page for its owner',
  takes: 'JOB',
  more: [
    'JOB is the name in the address of the job. The record holds complaint, readings, verdict, parts, what was found and how it was built back, torques, what was done otherwise, the proof, photographs and cautions, as a tagged PDF that can be read aloud; a file that is there already is never overwritten.',
    'With --owner it is the page for the owner instead, in words that need no workshop.',
  ],
  options: [
    { name: '--pdf', value: 'FILE', about: 'the file to write; never over another' },
    { name: '--text', about: 'print it as Markdown instead, without pictures' },
    { name: '--owner', about: 'the page for the owner' },
  ],
  example: { line: `record ${DEMO_JOB} --text`, shows: 'the record of the demo job as text' },
  words: [1, 1],
  run: (given) =>
    inGarage(false, async (garage) => {
      const how = either(given, '--pdf', '--text');
      const file = given.one('--pdf');
      if (how === null || (how === '--pdf' && file === null))
        throw new Refusal('"record" wants --pdf FILE or --text, see "chargewright record --help".');
      const { events, machine, at, east } = await handedOver(garage, given.words[0]!);
      const owner = given.has('--owner');
      if (file === null) {
        const make = owner ? ownerSheet : jobRecord;
        const bike = machineOf(machine);
        const proved = bike && proveJob(foldJob(events), bike);
        const document = make({ events, machine: bike, here: () => true, proved, at, east });
        return markdownText(document, { drawing: () => null, photo: () => null });
      }
      const { bytes, missing } = await paperPdf(owner ? 'owner' : 'record', {
        events,
        machine,
        photos: garage.photos,
        at,
        east,
      });
      await write(file, bytes);
      const without =
        missing > 0
          ? `Not in it: ${counted(missing, 'photograph')}; the record names what is missing.\n`
          : '';
      return `Wrote ${file}: ${kilobytes(bytes)}.\n${without}`;
    }),
};
