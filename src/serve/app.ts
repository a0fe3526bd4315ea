/**
 * The routes. Everything under /api answers JSON; an error is `{ error, field? }`, where `error` is one sentence for
 * the mechanic and `field` the path of what is at fault in the body or the query.
 *
 * | route | answer |
 * |---|---|
 * | GET /api/health | `{ ok: true, name, offline }` |
 * | GET /api/machines | `{ machines: MachineLine[] }` |
 * | GET /api/machines/:id?version=n | the machine file, as it is; of one written here the newest, or a version |
 * | GET /api/machines/:id/read | `{ id, read }`, what reading the file gives: the machine, or every problem |
 * | POST /api/machines/:id | body `{ text }`: keeps it as the next version of a machine written here, whatever the check says of it; 201 `{ id, version, mark }` |
 * | GET /api/machines/:id/versions | `{ versions: number[], saved: { version, savedAt }[] }` |
 * | GET /api/machines/:id/pack.zip | the machine file as a pack to hand on; 409 while it cannot be read |
 * | POST /api/machines?as=id | body: a machine file or its pack, up to 8 MB: what it is, `{ id, is, differences, versions, text, name, invented, mark, problems }`; nothing is kept |
 * | GET /api/jobs | `{ jobs: JobLine[] }`, the one last written to first |
 * | POST /api/jobs | body: events of a new job with its `jobOpened`, or that event alone; 201 `{ job, accepted, duplicate, last }` |
 * | GET /api/jobs/:id?since=seq | `{ job, events: { seq, event }[], count, last }`, count of all it holds; ask again with `since=last` |
 * | GET /api/jobs/:id/machine | the same of the job's machine |
 * | GET /api/jobs/:id/stream?since=seq | server-sent events: `events` with `{ seq, event }[]` each time something is kept |
 * | POST /api/jobs/:id/events | body: a list of events of this job, each id once however often it is sent; 200 `{ job, accepted, duplicate, last }` |
 * | GET /api/jobs/:id/record.pdf, owner.pdf | the record, the page for the owner; 503 while too many are asked for at once |
 * | GET /api/jobs/:id/how-to.zip?owner=true&photos=true&notes=true | the how-to pack; nothing of the owner in it but what is said |
 * | GET /api/jobs/:id/reminders.ics | what to look at again, a calendar; 409 while nothing is done |
 * | GET /api/jobs/:id/chapters.vtt?clip=n, chapters.ffmetadata, chapters.txt | chapters of a clip, the first unless said |
 * | PUT /api/photos/:photo | a plain JPEG up to 2 MB under its SHA-256; 201, or 200 where it is here already, `{ photo, fresh }` |
 * | GET /api/photos/:photo | the picture; 404 not here, 410 damaged on the disk |
 *
 * Only on this computer: GET /api/devices, POST /api/devices/door, /api/devices/invite, /api/devices/:id/out. Only at the
 * encrypted door: POST /api/pair. See pairing.ts.
 *
 * 400 not JSON or no such event, 401 not let in, 403 from elsewhere, 404 no such thing, 405 no such verb, 409 an id with other
 * content, 410 a photograph that is damaged here, 413 too large, 415 not declared as
 * what it must be, 422 no plain JPEG or under another sum, 503 the store has a fault: send again, nothing is kept twice.
 */
import { type Context, Hono, type MiddlewareHandler } from 'hono';
import { compress } from 'hono/compress';
import { StoreFault } from '../disk/fault.ts';
import type { PhotoShelf } from '../log/photo-shelf.ts';
import type { JobStore } from '../log/store.ts';
import { CHAPTER_FORMS } from '../paper/chapter-texts.ts';
import { ENDINGS } from '../press/how-to-pack.ts';
import { openFiles } from './files.ts';
import { isApi, tellBrowser } from './guard.ts';
import { giveChapters, giveHowTo, givePaper, giveReminders } from './handover.ts';
import { appendToJob, followJob, type LineMemory, listJobs, openJob, readJob } from './jobs.ts';
import { givePack, lookAtMachine } from './machine-share.ts';
import { listMachines, machineText, saveMachine } from './machines.ts';
import { openOwnMachines } from './own-machines.ts';
import { givePhoto, takePhoto } from './photos.ts';
import { openReadMachines } from './read-machines.ts';
import { type Hub, openHub } from './stream.ts';

export interface Parts {
  readonly store: JobStore;
  readonly photos: PhotoShelf;
  /** Folder of the machine files. */
  readonly machinesFolder: string;
  /** Folder of the machine files written here. */
  readonly ownMachinesFolder: string;
  /** Folder of the built app. */
  readonly appFolder: string;
  /** Whether browsers may keep the app, to open it with this computer switched off. */
  readonly offline: boolean;
  /** Told of every fault that was not the caller's. */
  readonly report: (fault: unknown) => void;
}

/**
 * The service worker's end: a browser that keeps the app takes this for a newer one at its next visit, throws away what it
 * kept, and asks this computer from then on. For a build that went wrong.
 */
const LET_GO = `self.addEventListener('install', () => self.skipWaiting());
self.addEventListener('activate', (event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) if (name.startsWith('chargewright-app-')) await caches.delete(name);
  await self.registration.unregister();
})()));
`;

/** What the two doors to one garage share. */
export interface Garage {
  readonly hub: Hub;
  readonly lines: LineMemory;
}

export function openGarageOf(store: JobStore): Garage {
  return { hub: openHub(store), lines: new Map() };
}

/** One door: who may come in, and the routes only it has. */
export interface DoorOf {
  readonly may: readonly MiddlewareHandler[];
  readonly add: (app: Hono) => void;
  /** Verbs of the routes it adds. */
  readonly verbs: Readonly<Record<string, string>>;
}

/** The routes behind one door. */
export function openApp(parts: Parts, { hub, lines }: Garage, door: DoorOf): Hono {
  const { store, photos, machinesFolder, ownMachinesFolder, appFolder, offline, report } = parts;
  const app = new Hono();
  const own = openOwnMachines(ownMachinesFolder);
  const files = openFiles(appFolder);
  const textOf = async (id: string) => (await machineText(machinesFolder, id)) ?? (await own.text(id));
  const read = openReadMachines(store, textOf);
  app.use(tellBrowser);
  for (const may of door.may) app.use(may);
  // A stream of entries goes out as it comes, and a photograph is small already.
  app.use('/api/*', compress({ encoding: 'gzip', contentTypeFilter: /^application\/json/ }));
  app.use('/api/*', async (c, next) => {
    await next();
    // Only a photograph says otherwise of itself.
    if (!c.res.headers.has('cache-control')) c.header('cache-control', 'no-store');
  });

  app.get('/api/health', (c) => c.json({ ok: true, name: 'chargewright', offline }));
  app.get('/api/machines', async (c) => c.json({ machines: await listMachines(machinesFolder, own) }));
  app.get('/api/machines/:id', async (c) => {
    const id = c.req.param('id');
    const said = c.req.query('version');
    if (said !== undefined && !/^\d{1,4}$/.test(said))
      return c.json({ error: 'The version of a machine file is a whole number from 1 up to 9999.' }, 400);
    const version = said === undefined ? undefined : Number(said);
    const text = (await machineText(machinesFolder, id)) ?? (await own.text(id, version));
    if (text === null)
      return c.json(
        { error: 'There is no such machine here; the list of machines is at /api/machines.' },
        404,
      );
    return c.body(text, 200, { 'content-type': 'application/json; charset=utf-8' });
  });
  app.get('/api/machines/:id/read', (c) => read.give(c, c.req.param('id')));
  app.post('/api/machines', (c) =>
    lookAtMachine(c, { ...own, shipped: (id) => machineText(machinesFolder, id) }),
  );
  app.get('/api/machines/:id/pack.zip', async (c) => {
    const id = c.req.param('id');
    return givePack(c, id, await textOf(id));
  });
  app.post('/api/machines/:id', (c) => saveMachine(c, own, machinesFolder, c.req.param('id')));
  app.get('/api/machines/:id/versions', async (c) =>
    c.json({
      versions: await own.versions(c.req.param('id')),
      saved: await own.saved(c.req.param('id')),
    }),
  );
  app.get('/api/jobs', (c) => listJobs(c, store, lines));
  app.post('/api/jobs', (c) => openJob(c, store, hub));
  app.get('/api/jobs/:id', (c) => readJob(c, store, c.req.param('id')));
  app.get('/api/jobs/:id/machine', (c) => read.giveOfJob(c, c.req.param('id')));
  app.post('/api/jobs/:id/events', (c) => appendToJob(c, store, hub, c.req.param('id')));
  app.get('/api/jobs/:id/stream', (c) => followJob(c, store, hub, c.req.param('id')));

  const handover = { store, photos, machineText: textOf };
  for (const kind of ['record', 'owner'] as const)
    app.get(`/api/jobs/:id/${kind}.pdf`, (c) => givePaper(c, handover, c.req.param('id')!, kind));
  app.get('/api/jobs/:id/how-to.zip', (c) => giveHowTo(c, handover, c.req.param('id')));
  app.get('/api/jobs/:id/reminders.ics', (c) => giveReminders(c, handover, c.req.param('id')));
  for (const form of CHAPTER_FORMS)
    app.get(`/api/jobs/:id/chapters.${ENDINGS[form]}`, (c) =>
      giveChapters(c, handover, c.req.param('id') ?? '', form),
    );

  app.get('/api/photos/:photo', (c) => givePhoto(c, photos, c.req.param('photo')));
  app.put('/api/photos/:photo', (c) => takePhoto(c, photos, c.req.param('photo')));

  door.add(app);

  const verbs: Readonly<Record<string, string>> = {
    '/api/health': 'GET, HEAD',
    '/api/machines': 'GET, HEAD, POST',
    '/api/machines/:id': 'GET, HEAD, POST',
    '/api/machines/:id/versions': 'GET, HEAD',
    '/api/machines/:id/read': 'GET, HEAD',
    '/api/machines/:id/pack.zip': 'GET, HEAD',
    '/api/jobs': 'GET, HEAD, POST',
    '/api/jobs/:id': 'GET, HEAD',
    '/api/jobs/:id/machine': 'GET, HEAD',
    '/api/jobs/:id/events': 'POST',
    '/api/jobs/:id/stream': 'GET',
    '/api/jobs/:id/record.pdf': 'GET, HEAD',
    '/api/jobs/:id/owner.pdf': 'GET, HEAD',
    '/api/jobs/:id/how-to.zip': 'GET, HEAD',
    '/api/jobs/:id/reminders.ics': 'GET, HEAD',
    '/api/jobs/:id/chapters.vtt': 'GET, HEAD',
    '/api/jobs/:id/chapters.ffmetadata': 'GET, HEAD',
    '/api/jobs/:id/chapters.txt': 'GET, HEAD',
    '/api/photos/:photo': 'GET, HEAD, PUT',
    ...door.verbs,
  };
  for (const [path, allow] of Object.entries(verbs)) {
    app.all(path, (c) => c.json({ error: `This address takes only ${allow}.` }, 405, { allow }));
  }

  if (!offline)
    app.get('/sw.js', (c) =>
      c.body(LET_GO, 200, { 'content-type': 'text/javascript; charset=utf-8', 'cache-control': 'no-cache' }),
    );

  app.notFound((c) => {
    if (!isApi(c.req.path)) return files(c);
    return c.json(
      {
        error:
          'There is nothing at this address; the server knows /api/health, /api/machines, /api/jobs and /api/photos.',
      },
      404,
    );
  });
  app.onError((error, c) => answerFault(error, c, report));
  return app;
}

function answerFault(error: Error, c: Context, report: (fault: unknown) => void): Response {
  report(error);
  if (error instanceof StoreFault) return c.json({ error: error.message }, 503);
  const sentence =
    'Something went wrong inside Chargewright and this was not kept; the window it was started in says more. Try again.';
  return c.json({ error: sentence }, 500);
}
