/** `how-to`: the how-to pack of a job for those who film. */
import { DEMO_JOB } from '../job/demo.ts';
import { foldJob } from '../job/fold.ts';
import { howToOf } from '../paper/how-to.ts';
import { markdownText } from '../paper/markdown-text.ts';
import { machineOf, packHowTo } from '../press/how-to-pack.ts';
import type { Command } from './command.ts';
import { counted } from './counted.ts';
import { kilobytes, write } from './export-job.ts';
import { handedOver } from './handover-job.ts';
import { inGarage } from './open-garage.ts';
import { either } from './options.ts';
import { Refusal } from './refusal.ts';

export const howTo: Command = {
  name: 'how-to',
  about: 'Write a how-to of a job, for those who film',
  takes: 'JOB',
  more: [
    'JOB is the name in the address of the job. The zip holds the how-to as a page and as text, chapters of every clip in three forms, the loop and the dip as SVG and PNG, the reminders as a calendar, and a list of it all.',
    'Nothing of the owner is in it unless it is said with --owner, --photos or --notes: look through it before you put it out.',
  ],
  options: [
    { name: '--zip', value: 'FILE', about: 'the file to write; never over another' },
    { name: '--text', about: 'print the how-to as Markdown instead, without pictures' },
    { name: '--owner', about: 'names, the title of the job and the complaint may be in it' },
    { name: '--photos', about: 'the photographs of the job may be in it' },
    { name: '--notes', about: 'notes, and words on what was done otherwise, may be in it' },
  ],
  example: { line: `how-to ${DEMO_JOB} --text`, shows: 'the how-to of the demo job as text' },
  words: [1, 1],
  run: (given) =>
    inGarage(false, async (garage) => {
      const how = either(given, '--zip', '--text');
      const may = {
        owner: given.has('--owner'),
        photos: given.has('--photos'),
        notes: given.has('--notes'),
      };
      const file = given.one('--zip');
      if (how === null || (how === '--zip' && file === null))
        throw new Refusal('"how-to" wants --zip FILE or --text, see "chargewright how-to --help".');
      const { events, machine, at, east } = await handedOver(garage, given.words[0]!);
      if (file === null) {
        const { document } = howToOf(foldJob(events), machineOf(machine), at, { ...may, photos: false });
        return markdownText(document, { drawing: () => null, photo: () => null });
      }
      const packed = await packHowTo({
        events,
        machine,
        may,
        at,
        east,
        photo: async (photo) => {
          const got = await garage.photos.get(photo);
          return got.ok ? got.bytes : null;
        },
      });
      if (!packed.ok) throw new Refusal(packed.why);
      await write(file, packed.bytes);
      return `Wrote ${file}: ${counted(packed.files.length, 'file')}, ${kilobytes(packed.bytes)}.\n${packed.says.map((one) => `${one}\n`).join('')}`;
    }),
};
