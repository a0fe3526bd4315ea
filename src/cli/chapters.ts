/** `chapters`: chapters of a film from the clip marks and ticks of a job. */
import { DEMO_JOB } from '../job/demo.ts';
import { CHAPTER_FORMS, chapterText, clockTime } from '../paper/chapter-texts.ts';
import { filmOfJob } from '../paper/job-film.ts';
import { machineOf } from '../press/how-to-pack.ts';
import type { Command } from './command.ts';
import { clipAsked, handedOver } from './handover-job.ts';
import { inGarage } from './open-garage.ts';
import { oneOf } from './options.ts';
import { Refusal } from './refusal.ts';

export const chapters: Command = {
  name: 'chapters',
  about: 'Write the chapters of a film from the marks and ticks of a job',
  takes: 'JOB',
  more: [
    'JOB is the name in the address of the job. At the bench a clip is started and stopped, and steps are ticked meanwhile: a chapter is a step, from the tick before it to its own. Chapters shorter than ten seconds go into the one before. A clip that was never stopped ends with its last entry, and it is said.',
    'Without --clip every clip is listed with its plain times. "ffmpeg -i film.mp4 -i FILE -map_metadata 1 -map_chapters 1 -codec copy out.mp4" puts ffmetadata into a film.',
  ],
  options: [
    { name: '--clip', value: 'N', about: 'this clip alone, by its number on screen' },
    {
      name: '--as',
      value: 'FORM',
      about: `${CHAPTER_FORMS.join(', ')}; plain unless said. WebVTT and ffmetadata hold one clip`,
    },
  ],
  example: { line: `chapters ${DEMO_JOB}`, shows: 'the chapters of every clip of the demo job' },
  words: [1, 1],
  run: (given) =>
    inGarage(false, async (garage) => {
      const form = oneOf(given, '--as', CHAPTER_FORMS, 'plain');
      const { events, machine } = await handedOver(garage, given.words[0]!);
      const { clips, says } = filmOfJob(events, machineOf(machine));
      const asked = given.one('--clip');
      if (asked !== null) return chapterText(clipAsked(clips, asked), form);
      if (form !== 'plain') {
        const [only, ...more] = clips;
        if (!only) throw new Refusal('This job was not filmed: no clip was started at the bench.');
        if (more.length > 0)
          throw new Refusal(
            `A file of this form holds one clip: say which with --clip, ${clips.map(({ number }) => number).join(', ')}.`,
          );
        return chapterText(only, form);
      }
      const each = clips.map(
        (clip) =>
          `Clip ${clip.number}, ${clockTime(clip.length)}\n${chapterText(clip, 'plain')}${clip.says.map((one) => `${one}\n`).join('')}`,
      );
      const none = clips.length === 0 ? ['This job was not filmed: no clip was started at the bench.\n'] : [];
      return [...none, ...each, ...says.map((one) => `${one}\n`)].join('\n');
    }),
};
