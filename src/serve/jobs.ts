/** The job routes: lists, events since a place, and appending. Every event passes `checkEvent` before the store. */
import type { Context } from 'hono';
import { checkEvent } from '../job/check.ts';
import type { JobEvent } from '../job/event.ts';
import { foldJob } from '../job/fold.ts';
import type { JobStore } from '../log/store.ts';
import { readBody } from './body.ts';
import type { Hub } from './stream.ts';

/** One line of the list of jobs. */
export interface JobLine {
  readonly job: string;
  readonly title: string;
  readonly machine: string;
  readonly invented: boolean;
  /** ISO 8601 UTC. */
  readonly openedAt: string;
  /** When the last event happened, ISO 8601 UTC. */
  readonly lastAt: string;
  /** How many readings count. */
  readonly readings: number;
  /** Whether a verdict was accepted. */
  readonly accepted: boolean;
  /** Greatest place of its events in the store. */
  readonly last: number;
}

type EventsRead =
  | { readonly ok: true; readonly events: readonly JobEvent[] }
  | { readonly ok: false; readonly response: Response };

export function fail(
  c: Context,
  status: 400 | 404 | 409 | 413 | 415,
  error: string,
  field?: string,
): Response {
  return c.json(field === undefined ? { error } : { error, field }, status);
}

/** Lines of the list as they were when a job was last written to: folding five hundred logs for each look is too slow. */
export type LineMemory = Map<string, JobLine>;

export async function listJobs(c: Context, store: JobStore, memory: LineMemory): Promise<Response> {
  const jobs: JobLine[] = [];
  for (const { job, machine, title, invented, openedAt, last } of await store.jobs()) {
    let line = memory.get(job);
    if (line?.last !== last) {
      const events = (await store.since(job, 0)).map((row) => row.event);
      const { readings, accepted } = foldJob(events);
      const lastAt = [openedAt, ...events.map(({ at }) => at)].sort().at(-1)!;
      line = {
        job,
        title,
        machine,
        invented,
        openedAt,
        lastAt,
        readings: readings.length,
        accepted: accepted !== null,
        last,
      };
      memory.set(job, line);
    }
    jobs.push(line);
  }
  return c.json({ jobs });
}

/** The place after which is asked, or the answer that says what it must be. */
function readSince(c: Context, said: string): number | Response {
  const since = Number(said);
  if (/^\d+$/.test(said) && Number.isSafeInteger(since)) return since;
  return fail(c, 400, 'since must be a whole number from 0: the last place that was read.', 'since');
}

export async function readJob(c: Context, store: JobStore, job: string): Promise<Response> {
  const since = readSince(c, c.req.query('since') ?? '0');
  if (typeof since !== 'number') return since;
  const count = await store.count(job);
  if (count === 0) return fail(c, 404, noJob(job));
  const events = await store.since(job, since);
  return c.json({ job, events, count, last: events.at(-1)?.seq ?? since });
}

/** The same, and then each event as it is kept, until the page goes. */
export async function followJob(c: Context, store: JobStore, hub: Hub, job: string): Promise<Response> {
  // A browser that connects again says itself where it stopped.
  const since = readSince(c, c.req.header('last-event-id') || (c.req.query('since') ?? '0'));
  if (typeof since !== 'number') return since;
  if ((await store.count(job)) === 0) return fail(c, 404, noJob(job));
  return hub.listen(c, job, since);
}

/** Opens a job: a list of events of one job with its `jobOpened` among them, or that event alone. */
export async function openJob(c: Context, store: JobStore, hub: Hub): Promise<Response> {
  const read = await readEvents(c, null);
  if (!read.ok) return read.response;
  const opening = read.events.find((event) => event.type === 'jobOpened');
  if (!opening) return fail(c, 400, 'A new job needs an event of type jobOpened.', 'type');
  const strange = read.events.findIndex((event) => event.job !== opening.job);
  if (strange >= 0)
    return fail(c, 400, 'All events sent with a new job must be of that job.', `[${strange}].job`);
  return append(c, store, hub, opening.job, read.events, 201);
}

export async function appendToJob(c: Context, store: JobStore, hub: Hub, job: string): Promise<Response> {
  const read = await readEvents(c, job);
  if (!read.ok) return read.response;
  const opens = read.events.some((event) => event.type === 'jobOpened');
  if (!opens && (await store.count(job)) === 0) return fail(c, 404, noJob(job));
  return append(c, store, hub, job, read.events, 200);
}

async function append(
  c: Context,
  store: JobStore,
  hub: Hub,
  job: string,
  events: readonly JobEvent[],
  created: 200 | 201,
): Promise<Response> {
  const appended = await store.append(events);
  if (!appended.ok) return fail(c, 409, appended.why, 'id');
  const { accepted, duplicate, last } = appended;
  if (accepted.length > 0) hub.kept(job);
  return c.json({ job, accepted, duplicate, last }, accepted.length > 0 ? created : 200);
}

export function noJob(job: string): string {
  return `There is no job ${JSON.stringify(job.slice(0, 64))} here; the list of jobs is at /api/jobs.`;
}

/** The events of the body, all of `job` where that is given. One bad event refuses the list: half a list is never kept. */
async function readEvents(c: Context, job: string | null): Promise<EventsRead> {
  const body = await readBody(c);
  if (!body.ok) return { ok: false, response: fail(c, body.status, body.why) };
  const single = job === null && !Array.isArray(body.value);
  const values: unknown = single ? [body.value] : body.value;
  if (!Array.isArray(values))
    return { ok: false, response: fail(c, 400, 'The body must be a list of events.') };
  const events: JobEvent[] = [];
  for (const [index, value] of values.entries()) {
    const place = (field: string | null): string => {
      const below = field ?? '';
      return single ? below : `[${index}]${below === '' ? '' : `.${below}`}`;
    };
    const checked = checkEvent(value);
    if (!checked.ok) return { ok: false, response: fail(c, 400, checked.why, place(checked.field)) };
    if (job !== null && checked.event.job !== job) {
      const why = `The event is of the job ${checked.event.job}, but was sent to ${JSON.stringify(job.slice(0, 64))}.`;
      return { ok: false, response: fail(c, 400, why, place('job')) };
    }
    events.push(checked.event);
  }
  return { ok: true, events };
}
