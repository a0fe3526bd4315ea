/** What the app asks of the laptop. Whatever goes wrong comes back as a value in words; nothing here throws. */
import { signal } from '@preact/signals';
import { checkEvent } from '../job/check.ts';
import type { JobEvent } from '../job/event.ts';
import type { Mark } from '../machine/judge-file.ts';
import type { MachineRead } from '../machine/read-machine.ts';
import { isEarly, jobPath, PATIENCE_MS, takeEarly } from './early.ts';
import type { Sent } from './outbox.ts';
import { dropStale } from './stale.ts';

export type Got<T> =
  | { readonly ok: true; readonly body: T }
  | {
      readonly ok: false;
      readonly kind: 'unreachable' | 'refused' | 'missing';
      readonly why: string;
      /** The laptop answered, and `why` is its own word. */
      readonly said?: true;
    };

export interface JobLine {
  readonly job: string;
  readonly title: string;
  readonly machine: string;
  readonly invented: boolean;
  readonly openedAt: string;
  readonly lastAt: string;
  readonly readings: number;
  readonly accepted: boolean;
  /** Greatest place of its events in the laptop's store. */
  readonly last: number;
}

export interface MachineLine {
  readonly id: string;
  readonly name: string;
  readonly invented: boolean;
  /** What is wrong with its file, in a sentence; null when nothing is. */
  readonly problem: string | null;
  /** Versions of one written here; 0 for a shipped one. */
  readonly versions: number;
  readonly mark: Mark;
}

/** By how much the laptop's clock is ahead of this device's, ms; null before its first answer. To a second or two. */
export const laptopAhead = signal<number | null>(null);

export const UNREACHABLE =
  'The laptop does not answer. Start Chargewright on it again; nothing typed here is lost.';

export const STRANGER = 'What answers at this address is not Chargewright.';

/** A file goes as it is, anything else as JSON. */
function sent(body: unknown): { readonly type: string; readonly body: BodyInit } {
  return body instanceof Blob
    ? { type: /zip/.test(body.type) ? 'application/zip' : 'application/json', body }
    : { type: 'application/json', body: JSON.stringify(body) };
}

async function ask(path: string, body?: unknown): Promise<Got<string>> {
  const out = body === undefined ? null : sent(body);
  let response: Response;
  try {
    const early = body === undefined ? takeEarly(path) : null;
    response = await (early ??
      fetch(path, {
        method: body === undefined ? 'GET' : 'POST',
        headers: out === null ? {} : { 'content-type': out.type },
        body: out?.body ?? null,
        cache: 'no-store',
        signal: AbortSignal.timeout(PATIENCE_MS),
      }));
  } catch (error) {
    // Silence, not a refusal: the connection was dead, and others may be.
    if ((error as Error).name === 'TimeoutError') void dropStale();
    return { ok: false, kind: 'unreachable', why: UNREACHABLE };
  }
  const date = Date.parse(response.headers.get('date') ?? '');
  if (Number.isFinite(date)) laptopAhead.value = date - Date.now();
  const text = await response.text().catch(() => null);
  // Cut off in the middle: as good as no answer.
  if (text === null) return { ok: false, kind: 'unreachable', why: UNREACHABLE };
  if (response.ok) return { ok: true, body: text };
  const why = saidIn(parse(text)) ?? `The laptop answered ${response.status} ${response.statusText}.`;
  if (response.status === 404) return { ok: false, kind: 'missing', why };
  // Not let in, or no longer: what was entered waits here until it is.
  if (response.status === 401) return { ok: false, kind: 'unreachable', why, said: true };
  // A fault on the laptop, or too many at once: the same entry may well be taken later.
  const later = response.status >= 500 || response.status === 408 || response.status === 429;
  return { ok: false, kind: later ? 'unreachable' : 'refused', why, said: true };
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return null;
  }
}

/** An answer that is an object; anything else did not come from the laptop's program. */
async function askObject(path: string, body?: unknown): Promise<Got<Readonly<Record<string, unknown>>>> {
  const got = await ask(path, body);
  if (!got.ok) return got;
  const object = parse(got.body);
  if (typeof object === 'object' && object !== null)
    return { ok: true, body: object as Record<string, unknown> };
  return { ok: false, kind: 'unreachable', why: STRANGER };
}

/** The sentence in an answer that is an error; null when there is none. */
export function saidIn(answer: unknown): string | null {
  if (typeof answer !== 'object' || answer === null) return null;
  const { error } = answer as { error?: unknown };
  return typeof error === 'string' ? error : null;
}

/** Whether the laptop is there, and whether the app may be kept in the browser. */
export async function fetchHealth(): Promise<Got<{ readonly offline: boolean }>> {
  const got = await askObject('/api/health');
  return got.ok ? { ok: true, body: { offline: got.body.offline === true } } : got;
}

/** The answer to `readJobLines`, as text. */
export function fetchJobs(): Promise<Got<string>> {
  return ask('/api/jobs');
}

/** The list of jobs in an answer of the laptop. */
export function readJobLines(text: string): readonly JobLine[] {
  const answer = parse(text) as { readonly jobs?: unknown } | null;
  return Array.isArray(answer?.jobs) ? (answer.jobs as readonly JobLine[]) : [];
}

export async function fetchMachines(): Promise<Got<readonly MachineLine[]>> {
  const got = await askObject('/api/machines');
  return got.ok ? { ok: true, body: (got.body.machines ?? []) as readonly MachineLine[] } : got;
}

/** What reading a machine file gives, as text; asked by its job where the first script has done so already. */
export async function fetchRead(id: string, job: string | null): Promise<Got<string>> {
  if (job !== null && isEarly(jobPath(job, 'machine'))) {
    const got = await ask(jobPath(job, 'machine'));
    // The job may be on another machine by now, as this page has it.
    if (got.ok && (parse(got.body) as { readonly id?: unknown } | null)?.id === id) return got;
  }
  return ask(`/api/machines/${encodeURIComponent(id)}/read`);
}

/** What reading a machine file gave, in an answer of the laptop; null where it did not come from the laptop's program. */
export function readRead(text: string): MachineRead | null {
  const answer = parse(text) as { readonly read?: MachineRead } | null;
  return typeof answer?.read?.ok === 'boolean' ? answer.read : null;
}

/** The text of a machine file; of the newest version unless one is named. */
export function fetchMachine(id: string, version?: number): Promise<Got<string>> {
  const which = version === undefined ? '' : `?version=${version}`;
  return ask(`/api/machines/${encodeURIComponent(id)}${which}`);
}

/** The versions of a machine written here, ascending, and when each was saved where the laptop knows. */
export async function fetchVersions(
  id: string,
): Promise<Got<readonly { readonly version: number; readonly savedAt: string | null }[]>> {
  const got = await askObject(`/api/machines/${encodeURIComponent(id)}/versions`);
  if (!got.ok) return got;
  const { saved } = got.body as {
    saved?: readonly { readonly version: number; readonly savedAt: string | null }[];
  };
  return { ok: true, body: Array.isArray(saved) ? saved : [] };
}

/** What the laptop says of a machine file from outside. */
export interface OutsideFile {
  /** Under which it would be kept. */
  readonly id: string;
  readonly is: 'new' | 'same' | 'version';
  readonly differences: number | null;
  readonly versions: number;
  readonly text: string;
  readonly name: string | null;
  readonly invented: boolean;
  readonly mark: Mark;
}

/** Asks what a machine file from outside, or a pack of one, is; nothing is kept by that. */
export async function lookAtFile(file: Blob): Promise<Got<OutsideFile>> {
  const got = await ask('/api/machines', file);
  if (!got.ok) return got;
  const answer = parse(got.body) as OutsideFile | null;
  if (typeof answer?.id === 'string' && typeof answer.text === 'string') return { ok: true, body: answer };
  return { ok: false, kind: 'unreachable', why: 'What answers at this address is not Chargewright.' };
}

/** Keeps a machine file as its next version. */
export async function saveMachine(
  id: string,
  text: string,
): Promise<Got<{ readonly version: number; readonly mark: Mark }>> {
  if (!/^[a-z0-9](?:[a-z0-9-]{0,62}[a-z0-9])?$/.test(id))
    return {
      ok: false,
      kind: 'refused',
      why: 'A machine is named by small letters, figures and hyphens, such as my-bike.',
    };
  const got = await askObject(`/api/machines/${encodeURIComponent(id)}`, { text });
  return got.ok ? { ok: true, body: got.body as { version: number; mark: Mark } } : got;
}

/** Rows as the laptop sends them, each event looked over. */
export interface Rows {
  readonly events: readonly JobEvent[];
  /** Place of the last row in the laptop's store; null where there is none. */
  readonly last: number | null;
  /** How many rows this version does not understand: they stay on the laptop and are left out here. */
  readonly strange: number;
}

export function readRows(value: unknown): Rows {
  const rows = Array.isArray(value)
    ? (value as readonly { readonly seq: unknown; readonly event: unknown }[])
    : [];
  const events = rows
    .map((row) => checkEvent(row.event))
    .flatMap((checked) => (checked.ok ? [checked.event] : []));
  const seq = rows.at(-1)?.seq;
  return { events, last: typeof seq === 'number' ? seq : null, strange: rows.length - events.length };
}

/** Events of a job after a place of the laptop's store, and how many it holds of this job in all. */
export async function fetchJob(id: string, since: number): Promise<Got<Rows & { readonly count: number }>> {
  const got = await askObject(jobPath(id, `?since=${since}`));
  if (!got.ok) return got;
  const { count } = got.body;
  return { ok: true, body: { ...readRows(got.body.events), count: typeof count === 'number' ? count : 0 } };
}

/** Where a page listens to what others write in a job. */
export function streamOf(id: string, since: number): string {
  return `/api/jobs/${encodeURIComponent(id)}/stream?since=${since}`;
}

/** Hands entries over; each id is kept once, however often it is sent. */
export async function sendEvents(job: string, events: readonly JobEvent[]): Promise<Sent> {
  const got = await askObject(`/api/jobs/${encodeURIComponent(job)}/events`, events);
  if (!got.ok) {
    return got.kind === 'unreachable'
      ? { ok: false, kind: 'unreachable', why: got.said ? got.why : null }
      : { ok: false, kind: 'refused', why: got.why };
  }
  const ids = (list: unknown): readonly string[] =>
    Array.isArray(list) ? list.filter((id): id is string => typeof id === 'string') : [];
  return { ok: true, acknowledged: [...ids(got.body.accepted), ...ids(got.body.duplicate)] };
}

export interface Device {
  readonly id: string;
  readonly name: string;
  /** ISO 8601 UTC. */
  readonly pairedAt: string;
}

/** Which devices were let in, and where the door for them is; null while it is shut. */
export interface DeviceList {
  readonly devices: readonly Device[];
  readonly door: { readonly hosts: readonly string[]; readonly landings: readonly string[] } | null;
}

export interface Invitation {
  /** Until when it holds, ms since 1970 by the laptop's clock. */
  readonly until: number;
  readonly landings: readonly string[];
}

const as = async <T>(got: Promise<Got<Readonly<Record<string, unknown>>>>): Promise<Got<T>> =>
  (await got) as Got<T>;

export const fetchDevices = () => as<DeviceList>(askObject('/api/devices'));
export const openDoor = (open: boolean) => as<DeviceList>(askObject('/api/devices/door', { open }));
export const inviteDevice = () => as<Invitation>(askObject('/api/devices/invite', {}));
export const shutOut = (id: string) =>
  as<DeviceList>(askObject(`/api/devices/${encodeURIComponent(id)}/out`, {}));
export const pairHere = (secret: string, name: string) =>
  as<{ readonly device: Device }>(askObject('/api/pair', { secret, name }));
