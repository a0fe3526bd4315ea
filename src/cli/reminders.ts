/** `reminders`: what to look at again after the repair, as a list or a calendar. */
import { DEMO_JOB } from '../job/demo.ts';
import { foldJob } from '../job/fold.ts';
import { calendarOfJob } from '../paper/job-calendar.ts';
import { remindersOf } from '../paper/reminders.ts';
import { machineOf } from '../press/how-to-pack.ts';
import { utf8 } from '../press/zip-write.ts';
import type { Command } from './command.ts';
import { counted } from './counted.ts';
import { write } from './export-job.ts';
import { handedOver } from './handover-job.ts';
import { inGarage } from './open-garage.ts';
import { Refusal } from './refusal.ts';

export const reminders: Command = {
  name: 'reminders',
  about: 'List what to look at again after a repair, or write it as a calendar',
  takes: 'JOB',
  more: [
    'JOB is the name in the address of the job. Days count from the last step ticked; where wear goes by distance the reminder says so. The calendar holds nothing of the owner but the title of the job, and a calendar that takes the file in again replaces what it has.',
  ],
  options: [{ name: '--ics', value: 'FILE', about: 'write an iCalendar file instead; never over another' }],
  example: { line: `reminders ${DEMO_JOB}`, shows: 'what to look at again after the demo job' },
  words: [1, 1],
  run: (given) =>
    inGarage(false, async (garage) => {
      const { events, machine, at, east } = await handedOver(garage, given.words[0]!);
      const file = given.one('--ics');
      if (file !== null) {
        const made = calendarOfJob(events, machineOf(machine), { at, east });
        if (!made.ok) throw new Refusal(made.why);
        await write(file, utf8(made.text));
        return `Wrote ${file}: ${counted(made.count, 'reminder')}.\n${made.says.map((one) => `${one}\n`).join('')}`;
      }
      const found = remindersOf(foldJob(events), machineOf(machine), east);
      if (!found.ok) return `${found.why}\n`;
      const each = found.reminders.map(({ day, title, orAfter, does, source }) =>
        [`${day}  ${title}`, ...does, ...(orAfter === null ? [] : [orAfter]), source].join('\n            '),
      );
      return `${[...each, ...found.says].join('\n')}\n`;
    }),
};
