/** The routes of what is handed over: the record, the owner's page, the how-to pack, the calendar, the chapters of a clip. Each is made anew when it is asked for. */
import type { Context } from 'hono';
import type { JobEvent } from '../job/event.ts';
import { foldJob } from '../job/fold.ts';
import type { PhotoShelf } from '../log/photo-shelf.ts';
import type { JobStore } from '../log/store.ts';
import { type ChapterForm, chapterText } from '../paper/chapter-texts.ts';
import { calendarOfJob } from '../paper/job-calendar.ts';
import { filmOfJob } from '../paper/job-film.ts';
import { eastOf } from '../press/east-of.ts';
import { ENDINGS, machineOf, packHowTo } from '../press/how-to-pack.ts';
import { type PaperKind, paperPdf } from '../press/job-paper.ts';
import { fail, noJob } from './jobs.ts';

export interface HandoverParts {
  readonly store: JobStore;
  readonly photos: PhotoShelf;
  /** Text of a machine file; null where it is not here. */
  readonly machineText: (id: string) => Promise<string | null>;
}

interface Asked {
  readonly events: readonly JobEvent[];
  readonly machine: string | null;
  readonly at: string;
  readonly east: number;
}

const TYPES: Readonly<Record<ChapterForm, string>> = {
  vtt: 'text/vtt; charset=utf-8',
  ffmetadata: 'text/plain; charset=utf-8',
  plain: 'text/plain; charset=utf-8',
};

async function asked({ store, machineText }: HandoverParts, job: string): Promise<Asked | null> {
  const events = (await store.since(job, 0)).map(({ event }) => event);
  if (events.length === 0) return null;
  const id = foldJob(events).opened?.machine;
  return {
    events,
    machine: id === undefined ? null : await machineText(id),
    at: new Date().toISOString(),
    east: eastOf(events),
  };
}

/** A file to be kept under this name. */
function filed(c: Context, name: string, type: string, content: string | Uint8Array<ArrayBuffer>): Response {
  return c.body(content, 200, {
    'content-type': type,
    'content-disposition': `attachment; filename="${name}"`,
  });
}

export async function giveHowTo(c: Context, parts: HandoverParts, job: string): Promise<Response> {
  const may = { owner: false, photos: false, notes: false };
  for (const name of ['owner', 'photos', 'notes'] as const) {
    const said = c.req.query(name) ?? 'false';
    if (said !== 'true' && said !== 'false')
      return fail(c, 400, `${name} may be true or false: whether it may be in the how-to.`, name);
    may[name] = said === 'true';
  }
  const found = await asked(parts, job);
  if (!found) return fail(c, 404, noJob(job));
  const packed = await packHowTo({
    ...found,
    may,
    photo: async (photo) => {
      const got = await parts.photos.get(photo);
      return got.ok ? got.bytes : null;
    },
  });
  if (!packed.ok) return fail(c, 409, packed.why);
  return filed(c, 'how-to.zip', 'application/zip', new Uint8Array(packed.bytes));
}

export async function giveReminders(c: Context, parts: HandoverParts, job: string): Promise<Response> {
  const found = await asked(parts, job);
  if (!found) return fail(c, 404, noJob(job));
  const { events, machine, at, east } = found;
  const made = calendarOfJob(events, machineOf(machine), { at, east });
  if (!made.ok) return fail(c, 409, made.why);
  return filed(c, 'reminders.ics', 'text/calendar; charset=utf-8', made.text);
}

export async function giveChapters(
  c: Context,
  parts: HandoverParts,
  job: string,
  form: ChapterForm,
): Promise<Response> {
  const found = await asked(parts, job);
  if (!found) return fail(c, 404, noJob(job));
  const { clips } = filmOfJob(found.events, machineOf(found.machine));
  const said = c.req.query('clip') ?? clips[0]?.name ?? '';
  const clip = clips.find(({ name, number }) => name === said || String(number) === said);
  if (!clip) {
    const names = clips.map(({ name }) => name).join(', ');
    const why =
      clips.length === 0
        ? 'This job was not filmed: no clip was started at the bench.'
        : `There is no such clip: clip may be ${names}.`;
    return fail(c, 404, why, 'clip');
  }
  return filed(c, `${clip.name}.${ENDINGS[form]}`, TYPES[form], chapterText(clip, form));
}

/** Papers that wait for another to be made, most: each holds its photographs in memory. */
const MOST_WAITING = 4;
let waiting = 0;
let last: Promise<unknown> = Promise.resolve();

/** A paper as a PDF; one is made at a time. */
export async function givePaper(
  c: Context,
  parts: HandoverParts,
  job: string,
  kind: PaperKind,
): Promise<Response> {
  const found = await asked(parts, job);
  if (!found) return fail(c, 404, noJob(job));
  if (waiting >= MOST_WAITING)
    return c.json({ error: 'Other papers are being made now: ask again in a few seconds.' }, 503, {
      'retry-after': '5',
    });
  waiting += 1;
  const made = last.then(() => paperPdf(kind, { ...found, photos: parts.photos }));
  last = made.catch(() => undefined);
  try {
    return filed(c, `${kind}.pdf`, 'application/pdf', new Uint8Array((await made).bytes));
  } finally {
    waiting -= 1;
  }
}
