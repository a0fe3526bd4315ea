/**
 * The how-to pack as one zip for those who film: the how-to as a page and as text, chapters of every clip in three forms, the
 * loop and the dip as drawings and pictures, the reminders as a calendar, and what each file is. Nothing of the owner is in
 * it unless it was ticked. What is in it is told in docs/handover.md. The same job at the same time makes the same bytes.
 */

import { standalone } from '../draw/palette.ts';
import { type SvgNode, svgText } from '../draw/svg.ts';
import type { JobEvent } from '../job/event.ts';
import { foldJob } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import { readMachine } from '../machine/read-machine.ts';
import { CHAPTER_FORMS, type ChapterForm, chapterText } from '../paper/chapter-texts.ts';
import { type HowToMay, howToOf } from '../paper/how-to.ts';
import { htmlText } from '../paper/html-text.ts';
import { calendarOfJob } from '../paper/job-calendar.ts';
import { filmOfJob } from '../paper/job-film.ts';
import { markdownText } from '../paper/markdown-text.ts';
import { drawPng } from './draw-png.ts';
import { faceRules } from './faces.ts';
import { withSums } from './sums.ts';
import { utf8, writeZip } from './zip-write.ts';

export const HOW_TO_FORMAT = 'chargewright-how-to';
/** Version of the format that is written, no unit. */
export const HOW_TO_VERSION = 1;

export const ENDINGS: Readonly<Record<ChapterForm, string>> = {
  vtt: 'vtt',
  ffmetadata: 'ffmetadata',
  plain: 'txt',
};

export interface HowToContent {
  readonly events: readonly JobEvent[];
  /** Text of the machine file; null where it is not here. */
  readonly machine: string | null;
  readonly may: HowToMay;
  /** When it is put together, ISO 8601 in UTC. */
  readonly at: string;
  /** How far the garage's clock is ahead of UTC, min. */
  readonly east: number;
  /** Bytes of a photograph; null where it is not here. Asked for only when photographs may be in it. */
  readonly photo: (photo: string) => Promise<Uint8Array | null>;
}

export type HowToPacked =
  | {
      readonly ok: true;
      readonly bytes: Uint8Array;
      readonly files: readonly string[];
      /** What the pack goes without and what is uncertain in it, a sentence each. */
      readonly says: readonly string[];
    }
  | { readonly ok: false; readonly why: string };

/** A machine file that can be read; null for none, and for one that cannot. */
export function machineOf(text: string | null): Machine | null {
  if (text === null) return null;
  const read = readMachine(text, 'machine.json');
  return read.ok ? read.machine : null;
}

/** The pack of a job, with an opening event among its events. */
export async function packHowTo(content: HowToContent): Promise<HowToPacked> {
  const { events, may, at, east } = content;
  const state = foldJob(events);
  if (state.opened === null)
    return { ok: false, why: 'The job has no opening event: there is no how-to yet.' };
  const machine = machineOf(content.machine);
  const { document, loop, dip, photos } = howToOf(state, machine, at, may);
  const says: string[] = [];
  if (machine === null)
    says.push(
      'The machine file is not here or cannot be read: the how-to has neither steps nor figures, nor the two drawings.',
    );
  const pictures = new Map<string, { readonly name: string; readonly bytes: Uint8Array }>();
  for (const photo of photos) {
    const bytes = await content.photo(photo);
    const name = `photos/${String(pictures.size + 1).padStart(2, '0')}.jpg`;
    if (bytes !== null) pictures.set(photo, { name, bytes });
    else says.push('A photograph that the log names is not here: the how-to says where it would stand.');
  }
  const files = new Map<string, Uint8Array>();
  const about = new Map<string, string>();
  const put = (name: string, what: string, bytes: Uint8Array): void => {
    files.set(name, bytes);
    about.set(name, what);
  };
  const drawings: readonly (readonly [string, SvgNode | null, string])[] = [
    ['loop', loop, 'The loop: the charging circuit'],
    ['dip', dip, 'The dip: the way in and back over time'],
  ];
  put(
    'how-to.html',
    'The how-to as a page: opens in any browser, needs no network',
    utf8(
      htmlText(document, {
        faces: await faceRules(),
        photo: (photo) => {
          const picture = pictures.get(photo);
          return picture ? `data:image/jpeg;base64,${Buffer.from(picture.bytes).toString('base64')}` : null;
        },
      }),
    ),
  );
  put(
    'how-to.md',
    'The same as text, Markdown',
    utf8(
      markdownText(document, {
        drawing: (sheet) => {
          const found = drawings.find(([, drawing]) => drawing === sheet);
          return found ? `${found[0]}.png` : null;
        },
        photo: (photo) => pictures.get(photo)?.name ?? null,
      }),
    ),
  );
  for (const [name, drawing, what] of drawings) {
    if (drawing === null) continue;
    put(`${name}.svg`, what, utf8(`${svgText(standalone(drawing, 'paper'))}\n`));
    put(`${name}.png`, `${what}, as a picture`, await drawPng(drawing));
  }
  if (dip === null && machine !== null) says.push('There is no plan of the way in, so there is no dip.');
  for (const { name, bytes } of pictures.values()) put(name, 'A photograph of the job', bytes);

  const film = filmOfJob(events, machine);
  if (film.clips.length === 0)
    says.push('The log has no clip: mark start and stop at the bench, then there are chapters.');
  says.push(...film.says, ...film.clips.flatMap((clip) => clip.says));
  for (const clip of film.clips)
    for (const form of CHAPTER_FORMS)
      put(
        `chapters/${clip.name}.${ENDINGS[form]}`,
        `Chapters of clip ${clip.number}, ${form === 'plain' ? 'plain times' : form === 'vtt' ? 'WebVTT' : 'ffmetadata'}`,
        utf8(chapterText(clip, form)),
      );

  const title = machine === null ? 'a motorcycle' : `${machine.about.maker} ${machine.about.model}`;
  const calendar = calendarOfJob(events, machine, { at, east, ...(may.owner ? {} : { title }) });
  if (calendar.ok) {
    put('reminders.ics', 'What to look at again and when, for any calendar', utf8(calendar.text));
    says.push(...calendar.says);
  } else says.push(calendar.why);

  put('contents.json', 'This list', contents());
  return { ok: true, bytes: writeZip(withSums(files), 'pack'), files: [...files.keys()].sort(), says };

  function contents(): Uint8Array {
    const head = {
      format: HOW_TO_FORMAT,
      version: HOW_TO_VERSION,
      at,
      invented: state.opened?.invented ?? false,
      holds: may,
      files: [...about].sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, what]) => ({ name, what })),
      clips: film.clips.map(({ number, name, length, open, claps }) => ({
        number,
        name,
        lengthMs: length,
        open,
        claps: claps.map((clap) => ({ number: clap.number, atMs: clap.at })),
      })),
      says: [...new Set(says)],
    };
    return utf8(`${JSON.stringify(head, null, 2)}\n`);
  }
}
