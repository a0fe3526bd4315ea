/**
 * A whole garage as one zip: `garage.json`, each job as the very file that exporting it alone makes, every version of
 * the machine files written here, and SHA256SUMS.
 */
import { headOf, type JobContent, type JobHeadFile, type Packed, packJob, packUnopened } from './job-file.ts';
import { GARAGE_JOBS_UNPACKED, GARAGE_LIMITS, JOB_LIMITS, MACHINE_BYTES, megabytes } from './limits.ts';
import { readJobFile, readJson, versionSentence } from './read-job-file.ts';
import { checkSums, SUMS, withSums } from './sums.ts';
import { type Entry, listZip, quoted, unzip } from './zip-read.ts';
import { fromUtf8, utf8, writeZip } from './zip-write.ts';

/** Version of the format that is written and the highest that is read, no unit. */
export const GARAGE_VERSION = 2;
/** Version of a garage in which every job was opened: programs from before the others read it too, no unit. */
const ALL_OPENED = 1;
export const GARAGE_FORMAT = 'chargewright-garage';
export const GARAGE_HEAD = 'garage.json';

const ID = '[a-z0-9](?:[a-z0-9-]{0,62}[a-z0-9])?';
const JOB = new RegExp(`^jobs/(${ID})\\.zip$`);
/** A job whose opening event has not arrived. */
const UNOPENED = new RegExp(`^unopened/(${ID})\\.zip$`);
const MACHINE = new RegExp(`^machines/(${ID})/(\\d{4})\\.json$`);

/** Texts of the versions of each machine file written here, oldest first. */
export type OwnTexts = ReadonlyMap<string, readonly string[]>;

export interface GarageJob {
  readonly head: JobHeadFile;
  readonly content: JobContent;
}

export type GarageRead =
  | { readonly ok: true; readonly jobs: readonly GarageJob[]; readonly machines: OwnTexts }
  | { readonly ok: false; readonly why: string };

/** The zip of a garage: the same content makes the same bytes. */
export function packGarage(jobs: ReadonlyMap<string, JobContent>, machines: OwnTexts): Packed {
  const unopened = new Set([...jobs].filter(([, { events }]) => headOf(events) === null).map(([job]) => job));
  const head = {
    format: GARAGE_FORMAT,
    version: unopened.size > 0 ? GARAGE_VERSION : ALL_OPENED,
    jobs: jobs.size - unopened.size,
    machines: machines.size,
    ...(unopened.size > 0 ? { unopened: unopened.size } : {}),
  };
  const files = new Map([[GARAGE_HEAD, utf8(`${JSON.stringify(head, null, 2)}\n`)]]);
  for (const [job, content] of jobs) {
    const waits = unopened.has(job);
    const packed = waits ? packUnopened(job, content) : packJob(content);
    if (!packed.ok) return packed;
    files.set(`${waits ? 'unopened' : 'jobs'}/${job}.zip`, packed.bytes);
  }
  for (const [id, texts] of machines) {
    for (const [index, text] of texts.entries()) {
      const bytes = utf8(text);
      if (bytes.length > MACHINE_BYTES)
        return {
          ok: false,
          why: `Version ${index + 1} of the machine file ${id} is larger than ${megabytes(MACHINE_BYTES)}: mend it, then export again.`,
        };
      // Numbered anew without gaps, so that what is put back and exported again is the same file.
      files.set(`machines/${id}/${String(index + 1).padStart(4, '0')}.json`, bytes);
    }
  }
  // Machine files are few beside the jobs; stored, the jobs keep their own bytes.
  const bytes = writeZip(withSums(files), 'store');
  if (bytes.length > GARAGE_LIMITS.zip || files.size + 1 > GARAGE_LIMITS.entries)
    return {
      ok: false,
      why: `The garage is larger than one export may be (${megabytes(GARAGE_LIMITS.zip)}): export job by job, or stop Chargewright and copy its folder.`,
    };
  return { ok: true, bytes };
}

/**
 * Reads what was listed of a garage's zip; `name` is for the messages. Never throws on any bytes.
 * @param most largest sum of its jobs once unpacked, bytes
 */
export function readGarageFile(
  bytes: Uint8Array,
  entries: readonly Entry[],
  name: string,
  most = GARAGE_JOBS_UNPACKED,
): GarageRead {
  const refuse = (why: string): GarageRead => ({ ok: false, why: `${name} ${why}; nothing was kept.` });
  const known = (file: string) =>
    file === GARAGE_HEAD || file === SUMS || JOB.test(file) || UNOPENED.test(file) || MACHINE.test(file);
  const stranger = entries.find((entry) => !known(entry.name));
  if (stranger)
    return refuse(`holds ${quoted(stranger.name)}, which does not belong in a garage: take it out`);
  const unzipped = unzip(bytes, entries);
  if (!unzipped.ok) return refuse(unzipped.why);
  const { files } = unzipped;
  const damaged = checkSums(files);
  if (damaged !== null) return refuse(damaged);
  const head = readJson(fromUtf8(files.get(GARAGE_HEAD)!) ?? '') as
    | { readonly format?: unknown; readonly version?: unknown }
    | null
    | undefined;
  if (typeof head !== 'object' || head?.format !== GARAGE_FORMAT || typeof head.version !== 'number')
    return refuse(`has a ${GARAGE_HEAD} that Chargewright did not write: export it again`);
  if (head.version !== GARAGE_VERSION && head.version !== ALL_OPENED)
    return refuse(versionSentence(head.version, GARAGE_VERSION));

  const jobs: GarageJob[] = [];
  const machines = new Map<string, string[]>();
  let left = most;
  for (const file of [...files.keys()].sort()) {
    const content = files.get(file)!;
    const opened = JOB.exec(file)?.[1];
    const job = opened ?? UNOPENED.exec(file)?.[1];
    if (job !== undefined) {
      const inner = `${name}, ${file}`;
      const limits = { ...JOB_LIMITS, unpacked: Math.min(JOB_LIMITS.unpacked, left) };
      const listed = listZip(content, limits);
      if (!listed.ok) return { ok: false, why: `${inner} ${listed.why}; nothing was kept.` };
      left -= listed.entries.reduce((sum, { size }) => sum + size, 0);
      const read = readJobFile(content, listed.entries, inner, opened !== undefined);
      if (!read.ok) return read;
      if (read.head.job !== job)
        return refuse(`holds the job ${read.head.job} under the name ${quoted(file)}`);
      jobs.push(read);
    }
    const machine = MACHINE.exec(file)?.[1];
    if (machine !== undefined) {
      const text = content.length > MACHINE_BYTES ? null : fromUtf8(content);
      if (text === null)
        return refuse(
          `holds ${quoted(file)}, which is no text in UTF-8 of up to ${megabytes(MACHINE_BYTES)}`,
        );
      machines.set(machine, [...(machines.get(machine) ?? []), text]);
    }
  }
  return { ok: true, jobs, machines };
}
