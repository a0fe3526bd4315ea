/** A job's zip file, read: nothing in it is believed before it was checked. */
import { checkEvent } from '../job/check.ts';
import type { JobEvent } from '../job/event.ts';
import { checkPhoto, PHOTO_BYTES, photosNamed } from '../job/photo-file.ts';
import { sortOut } from '../log/merge.ts';
import {
  headOf,
  headWithout,
  JOB_FORMAT,
  JOB_VERSION,
  type JobContent,
  type JobHeadFile,
  textBytes,
} from './job-file.ts';
import { JOB_TEXT_BYTES, MACHINE_BYTES, megabytes } from './limits.ts';
import { checkSums, SUMS, sha256 } from './sums.ts';
import { type Entry, quoted, unzip } from './zip-read.ts';
import { fromUtf8 } from './zip-write.ts';

/** `why` is one whole sentence with the file's name in it. */
export type JobRead =
  | { readonly ok: true; readonly head: JobHeadFile; readonly content: JobContent }
  | { readonly ok: false; readonly why: string };

const KNOWN: ReadonlySet<string> = new Set([
  'job.json',
  'events.ndjson',
  'machine.json',
  'readings.csv',
  'readings.schema.json',
  SUMS,
]);
const PHOTO = /^photos\/([0-9a-f]{64})\.jpg$/;
const AGAIN = 'nothing was kept';

/**
 * Reads what was listed of a job's zip; `name` is for the messages. Never throws on any bytes.
 * @param opened whether its opening event must be in it
 */
export function readJobFile(
  bytes: Uint8Array,
  entries: readonly Entry[],
  name: string,
  opened = true,
): JobRead {
  const refuse = (why: string): JobRead => ({ ok: false, why: `${name} ${why}; ${AGAIN}.` });
  const stranger = entries.find((entry) => !KNOWN.has(entry.name) && !PHOTO.test(entry.name));
  if (stranger) return refuse(`holds ${quoted(stranger.name)}, which does not belong in a job: take it out`);
  const lacking = ['job.json', 'events.ndjson'].find((file) => !entries.some((entry) => entry.name === file));
  if (lacking !== undefined) return refuse(`lacks ${lacking}: export it again`);
  // Before anything is unpacked: the room that photographs have must not be had by texts.
  const text = textBytes(entries);
  if (text > JOB_TEXT_BYTES)
    return refuse(
      `would unpack to ${megabytes(text)} besides its photographs, and at most ${megabytes(JOB_TEXT_BYTES)} are read`,
    );
  const huge = entries.find((entry) => PHOTO.test(entry.name) && entry.size > PHOTO_BYTES);
  if (huge)
    return refuse(`holds the photograph ${quoted(huge.name)}, which is over ${megabytes(PHOTO_BYTES)}`);
  const unzipped = unzip(bytes, entries);
  if (!unzipped.ok) return refuse(unzipped.why);
  const { files } = unzipped;
  const damaged = checkSums(files);
  if (damaged !== null) return refuse(damaged);

  const told = readHead(files.get('job.json')!);
  if (!told.ok) return refuse(told.why);
  const read = readEvents(files.get('events.ndjson')!);
  if (!read.ok) return refuse(read.why);
  const first = read.events[0];
  const head = headOf(read.events) ?? (opened || !first ? null : headWithout(first.job));
  if (head === null) return refuse('has no opening event of its job: export it again');
  if (head.job !== told.head.job || head.machine !== told.head.machine || head.title !== told.head.title)
    return refuse('says one thing of its job in job.json and another in events.ndjson: export it again');

  const machine = files.get('machine.json');
  const machineText = machine ? fromUtf8(machine) : null;
  if (machine && (machineText === null || machine.length > MACHINE_BYTES))
    return refuse(`has a machine.json that is no text in UTF-8 of up to ${megabytes(MACHINE_BYTES)}`);

  const named = new Set(photosNamed(read.events));
  const photos: Uint8Array[] = [];
  for (const [file, content] of files) {
    const match = PHOTO.exec(file);
    if (!match) continue;
    if (sha256(content) !== match[1])
      return refuse(`holds the photograph ${quoted(file)} under a name that is not its sum`);
    if (!named.has(match[1]!))
      return refuse(`holds the photograph ${quoted(file)}, which no event of its job names: export it again`);
    const checked = checkPhoto(content);
    if (!checked.ok) return refuse(`holds ${quoted(file)}, but that photograph ${checked.why}`);
    photos.push(content);
  }
  return { ok: true, head, content: { events: read.events, machine: machineText, photos } };
}

type HeadRead =
  | { readonly ok: true; readonly head: JobHeadFile }
  | { readonly ok: false; readonly why: string };

function readHead(bytes: Uint8Array): HeadRead {
  const head = readJson(fromUtf8(bytes) ?? '') as Partial<JobHeadFile> | null | undefined;
  if (typeof head !== 'object' || head?.format !== JOB_FORMAT || typeof head.version !== 'number')
    return { ok: false, why: 'has a job.json that Chargewright did not write: export it again' };
  // Of a later version nothing more is read: its complaints would mislead.
  if (head.version !== JOB_VERSION) return { ok: false, why: versionSentence(head.version, JOB_VERSION) };
  return { ok: true, head: head as JobHeadFile };
}

/** Why a file of another version is not read, going on from its name. */
export function versionSentence(version: number, known: number): string {
  return `is of version ${version} of its format, and this program reads version ${known}: update Chargewright, then import it again`;
}

type EventsRead =
  | { readonly ok: true; readonly events: readonly JobEvent[] }
  | { readonly ok: false; readonly why: string };

function readEvents(bytes: Uint8Array): EventsRead {
  const text = fromUtf8(bytes);
  if (text === null)
    return { ok: false, why: 'has an events.ndjson that is no text in UTF-8: export it again' };
  const events: JobEvent[] = [];
  for (const [index, line] of text.split('\n').entries()) {
    if (line.trim() === '') continue;
    const place = `events.ndjson line ${index + 1}`;
    const value = readJson(line);
    if (value === undefined) return { ok: false, why: `has in ${place} no JSON object: export it again` };
    const checked = checkEvent(value);
    if (!checked.ok) {
      const type = (value as { readonly type?: unknown } | null)?.type;
      if (checked.field === 'type' && typeof type === 'string')
        return {
          ok: false,
          why: `has in ${place} an event of the type ${quoted(type)}, which this version does not know: update Chargewright, then import it again`,
        };
      return {
        ok: false,
        why: `has in ${place} an event that is not in order (${checked.why.replace(/\.$/, '')})`,
      };
    }
    if (events.length > 0 && checked.event.job !== events[0]!.job)
      return { ok: false, why: `has in ${place} an event of another job, ${checked.event.job}` };
    events.push(checked.event);
  }
  const sorted = sortOut(events, new Map());
  if (!sorted.ok) return { ok: false, why: `has the event ${sorted.event} twice with different content` };
  return { ok: true, events: sorted.fresh };
}

/** The value of a text; undefined when it is no JSON. */
export function readJson(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}
