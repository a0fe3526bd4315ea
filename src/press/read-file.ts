/** A file to import: a job or a whole garage, told by what is in it. */
import { GARAGE_HEAD, type GarageRead, readGarageFile } from './garage-file.ts';
import { GARAGE_LIMITS, JOB_LIMITS } from './limits.ts';
import { readJobFile } from './read-job-file.ts';
import { listZip } from './zip-read.ts';

/** Reads either; a job is a garage of one without machine files of its own. Never throws on any bytes. */
export function readFileToImport(bytes: Uint8Array, name: string): GarageRead {
  const refuse = (why: string): GarageRead => ({ ok: false, why: `${name} ${why}; nothing was kept.` });
  const listed = listZip(bytes, GARAGE_LIMITS);
  if (!listed.ok) return refuse(listed.why);
  const names = new Set(listed.entries.map((entry) => entry.name));
  if (names.has(GARAGE_HEAD)) return readGarageFile(bytes, listed.entries, name);
  if (!names.has('job.json'))
    return refuse(
      `is a zip, but of something else: it holds neither job.json nor ${GARAGE_HEAD}, so name one that Chargewright wrote`,
    );
  const job = listZip(bytes, JOB_LIMITS);
  if (!job.ok) return refuse(`${job.why} as one job`);
  const read = readJobFile(bytes, job.entries, name);
  return read.ok ? { ok: true, jobs: [read], machines: new Map() } : read;
}
