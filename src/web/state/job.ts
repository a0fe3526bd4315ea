/**
 * The job on screen: what the laptop has acknowledged plus what still waits in the outbox, folded into one state.
 * A reading counts from the moment it is entered, whether or not the laptop answers.
 */
import { computed, effect, signal } from '@preact/signals';
import type { EventBody, JobEvent } from '../../job/event.ts';
import { evidenceOf, foldJob } from '../../job/fold.ts';
import { inOrder, laterStamp, writeEvent } from '../../job/stamp.ts';
import { liveEvents } from '../../job/struck.ts';
import { browserShelf, deviceName, later, readSetting } from '../browser.ts';
import { openOutbox, type Waiting } from '../outbox.ts';
import { openReplica } from '../replica.ts';
import { sendEvents } from '../server.ts';
import { dropStale } from '../stale.ts';
import { keepHere } from './kept.ts';
import { route } from './place.ts';
import { showUndo, UNDO_MS } from './undo.ts';

type ByJob = ReadonlyMap<string, ReadonlyMap<string, JobEvent>>;

const acknowledged = signal<ByJob>(new Map());
export const waiting = signal<readonly Waiting<JobEvent>[]>([]);
/** True when an entry could not be stored even in this browser. */
export const memoryOnly = signal(false);
/** Why the laptop, though it answers, can keep nothing now; null where it can, or is silent. */
export const heldUp = signal<string | null>(null);

export type Loading =
  | { readonly is: 'loading' }
  | { readonly is: 'ready' }
  | { readonly is: 'failed'; readonly missing: boolean; readonly why: string };
export const loading = signal<Loading>({ is: 'loading' });

export const jobId = computed(() => (route.value.at === 'job' ? route.value.job : null));

const events = computed<readonly JobEvent[]>(() => {
  const id = jobId.value;
  if (id === null) return [];
  const own = waiting.value.filter((entry) => entry.job === id).map((entry) => entry.event);
  return [...(acknowledged.value.get(id)?.values() ?? []), ...own];
});
/** Every entry, in order, those that were taken back among them. */
export const logged = computed(() => inOrder(events.value));
// In order already, which costs the fold nothing more.
export const job = computed(() => foldJob(logged.value));
/** The entries that count, in order: what may be taken back is among them. */
export const live = computed(() => liveEvents(logged.value));

/** Only what the verdict looks at, as text: notes and acknowledgements must not start it thinking again. */
const evidenceText = computed(() => JSON.stringify(evidenceOf(job.value)));
export const evidence = computed(() => {
  void evidenceText.value;
  return evidenceOf(job.peek());
});

/** Chances that this job sets, as text: other entries must not open the bike anew. */
const priorsText = computed(() => JSON.stringify(job.value.priors));
export const priors = computed(() => {
  void priorsText.value;
  return job.peek().priors;
});

function keepAcknowledged(id: string, got: readonly JobEvent[], fresh = true): void {
  if (got.length === 0) return;
  const all = new Map(acknowledged.peek());
  const own = new Map(all.get(id) ?? []);
  for (const event of got) own.set(event.id, event);
  all.set(id, own);
  acknowledged.value = all;
  if (fresh) keepHere(got);
}

const replica = openReplica({
  taken: keepAcknowledged,
  held: (id) => acknowledged.peek().get(id) ?? new Map(),
  lost: (id, events) => {
    for (const event of events) outbox.put(id, event);
  },
  silent: async (id) => {
    if (!(await dropStale())) return;
    void outbox.flush();
    void refresh(id);
  },
});

const outbox = openOutbox<JobEvent>({
  shelf: browserShelf,
  send: sendEvents,
  changed: (list) => {
    waiting.value = list;
  },
  acknowledged: keepAcknowledged,
  heldUp: (why) => {
    heldUp.value = why;
  },
  now: () => Date.now(),
  later,
});
waiting.value = outbox.waiting();

/** This browser in event ids. */
export const device = deviceName();

function lastSeen(id: string): string | null {
  let last: string | null = null;
  for (const event of acknowledged.peek().get(id)?.keys() ?? []) last = laterStamp(last, event);
  for (const entry of waiting.peek()) if (entry.job === id) last = laterStamp(last, entry.event.id);
  return last;
}

function record(id: string, body: EventBody, holdMs = 0): JobEvent {
  const event = writeEvent(
    { job: id, who: readSetting('who') ?? '', device },
    body,
    lastSeen(id),
    Date.now(),
  );
  if (!outbox.put(id, event, holdMs)) memoryOnly.value = true;
  return event;
}

/** Something happened in the job on screen. */
export function happened(body: EventBody): JobEvent | null {
  const id = jobId.peek();
  return id === null ? null : record(id, body);
}

/** Something happened in a job that may have left the screen meanwhile. */
export function happenedIn(id: string, body: EventBody): JobEvent {
  return record(id, body);
}

/** Something happened in the job on screen, and can be taken back as if it never was while the undo bar shows. */
export function happenedUndoably(body: EventBody, said: string): void {
  if (jobId.value === null) return;
  const event = record(jobId.value, body, UNDO_MS);
  showUndo(said, () => outbox.drop(event.id));
}

/** Opens a job on a machine and gives its id, made here so that it needs no laptop to exist. */
export function openNewJob(machine: string, title: string, invented: boolean): string {
  const id = `${machine.slice(0, 40)}-${Date.now().toString(36)}`;
  record(id, { type: 'jobOpened', machine, title, invented });
  return id;
}

export function dropEntry(id: string): void {
  outbox.drop(id);
}

export function sendAgain(): void {
  void outbox.flush(true);
}

/** Reads from the laptop what this page has not seen. */
export async function refresh(id: string): Promise<void> {
  const got = await replica.read(id);
  if (id !== jobId.peek()) return;
  if (got.ok || events.peek().length > 0) loading.value = { is: 'ready' };
  else loading.value = { is: 'failed', missing: got.kind === 'missing', why: got.why };
}

/** What this browser kept of a job from an earlier visit, then what the laptop has, then what others write. */
async function open(id: string): Promise<void> {
  await replica.recall(id);
  if (id !== jobId.peek()) return;
  if (acknowledged.peek().has(id)) loading.value = { is: 'ready' };
  await refresh(id);
  if (id === jobId.peek()) replica.follow(id);
}

effect(() => {
  const id = jobId.value;
  replica.leave();
  if (id === null) return;
  loading.value = acknowledged.peek().has(id) ? { is: 'ready' } : { is: 'loading' };
  void open(id);
});

function wake(): void {
  void outbox.flush();
  const id = jobId.peek();
  if (id !== null) void refresh(id).then(() => id === jobId.peek() && replica.follow(id));
}

/** Starts sending what an earlier visit left, and again whenever the laptop may be back. */
export function startSending(): void {
  void outbox.flush();
  addEventListener('online', wake);
  addEventListener('focus', wake);
  document.addEventListener('visibilitychange', () => {
    // A page that nobody sees gives its connection back: browsers allow few to one server.
    if (document.visibilityState === 'visible') wake();
    else replica.leave();
  });
  addEventListener('storage', () => outbox.reread());
}
