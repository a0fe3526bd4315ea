/** `export`: a job or the whole garage as a zip file, or the readings of a job as a table. */
import { DEMO_JOB, demoJob } from '../job/demo.ts';
import type { JobEvent } from '../job/event.ts';
import { nearest } from '../machine/nearest.ts';
import { contentOf, eventsOf, jobsOf, ownTexts } from '../press/collect.ts';
import { packGarage } from '../press/garage-file.ts';
import { headOf, packJob } from '../press/job-file.ts';
import { writeReadings } from '../press/readings-table.ts';
import { writeNew } from '../press/write-new.ts';
import type { Command } from './command.ts';
import { counted } from './counted.ts';
import { type Garage, inGarage } from './open-garage.ts';
import { either } from './options.ts';
import { Refusal } from './refusal.ts';

/** Jobs named where one is asked for that is not there. */
const MOST_NAMED = 5;

export const exportJob: Command = {
  name: 'export',
  about: 'Write a job, or the whole garage, to one zip file',
  takes: 'JOB TO.zip',
  more: [
    'The zip of a job holds its events, its machine file, its photographs, its readings as a table and the check sums of all of them; "import" takes it in again, here or elsewhere. JOB is the name in the address of the job. A file that is there already is never overwritten.',
    '"export --all TO.zip" writes every job, and every version of the machine files written here: a backup. "export --csv JOB" writes the readings of a job to standard output as comma-separated values. The store is that of the server (DATABASE_URL, or CHARGEWRIGHT_HOME, else .chargewright in this folder); the server may run meanwhile.',
  ],
  options: [
    { name: '--all', about: 'every job and every machine file written here; no JOB then' },
    { name: '--csv', about: 'print the readings as comma-separated values; no TO.zip then' },
  ],
  example: { line: `export --csv ${DEMO_JOB}`, shows: 'the readings of the demo job as a table' },
  words: [1, 2],
  run: (given) =>
    inGarage(false, (garage) => {
      const form = either(given, '--all', '--csv');
      const [first, second] = given.words as [string, string?];
      if (form !== null && second !== undefined)
        throw new Refusal(
          form === '--all'
            ? `"export --all" takes the zip file alone: leave "${first}" out.`
            : `"export --csv" prints the table: leave "${second}" out, or write > ${second}.`,
        );
      if (form === '--all') return exportAll(garage, first);
      if (form === '--csv') return readingsOf(garage, first);
      if (second === undefined)
        throw new Refusal(`"export" wants JOB TO.zip after it, see "chargewright export --help".`);
      return exportOne(garage, first, second);
    }),
};

async function exportOne(garage: Garage, job: string, to: string): Promise<string> {
  const events = await eventsIn(garage, job);
  const content = await contentOf(events, garage.shelf, garage.photos);
  const packed = packJob(content);
  if (!packed.ok) throw new Refusal(packed.why);
  await write(to, packed.bytes);
  const head = headOf(events)!;
  const readings = events.filter(({ type }) => type === 'readingTaken').length;
  const pictures = content.photos.length > 0 ? `${counted(content.photos.length, 'photograph')}, ` : '';
  const machine =
    content.machine === null
      ? `without its machine file ${head.machine}, which is not here`
      : `with the machine file ${head.machine}`;
  return `Wrote ${to}: the job "${head.title}"${head.invented ? ' (invented)' : ''}, ${counted(events.length, 'event')}, ${counted(readings, 'reading')}, ${pictures}${machine}; ${kilobytes(packed.bytes)}.\n${without(content.lacking)}`;
}

async function exportAll(garage: Garage, to: string): Promise<string> {
  // Never the demo in its place: somebody would take it for a backup.
  if (!garage.store) throw new Refusal(noStore(garage));
  const [jobs, machines] = [
    await jobsOf(garage.store, garage.shelf, garage.photos),
    await ownTexts(garage.shelf),
  ];
  const packed = packGarage(jobs, machines);
  if (!packed.ok) throw new Refusal(packed.why);
  await write(to, packed.bytes);
  const lacking = [...jobs.values()].flatMap((job) => job.lacking);
  const unopened = [...jobs.values()].filter(({ events }) => headOf(events) === null).length;
  const waiting =
    unopened > 0 ? `, entries of ${counted(unopened, 'job')} whose opening has not arrived,` : '';
  return `Wrote ${to}: ${counted(jobs.size - unopened, 'job')}${waiting} and ${counted(machines.size, 'machine file')} of your own; ${kilobytes(packed.bytes)}. Put it back with "chargewright import ${to}".\n${without(lacking)}`;
}

async function readingsOf(garage: Garage, job: string): Promise<string> {
  return writeReadings(await eventsIn(garage, job));
}

/** Events of a job of the garage; the Refusal names the jobs there are. */
export async function eventsIn(garage: Garage, job: string): Promise<readonly JobEvent[]> {
  // Before the first start there is only the demo, which the first start would load.
  if (!garage.store && job === DEMO_JOB) return demoJob();
  if (!garage.store) throw new Refusal(noStore(garage));
  const events = await eventsOf(garage.store, job);
  if (events.length > 0) return events;
  const jobs = (await garage.store.jobs()).map((one) => one.job);
  const near = nearest(job, jobs);
  const named = jobs.slice(0, MOST_NAMED).join(', ');
  const more = jobs.length > MOST_NAMED ? ` and ${jobs.length - MOST_NAMED} more` : '';
  const remedy =
    near !== null
      ? `write ${near} if that is meant`
      : jobs.length === 0
        ? 'it holds none'
        : `it may be ${named}${more}`;
  throw new Refusal(`There is no job "${job.slice(0, 80)}" in ${garage.storeName}: ${remedy}.`);
}

function noStore({ storeName }: Garage): string {
  return `There is no store ${storeName}: go to the folder that Chargewright was started in, or set CHARGEWRIGHT_HOME to the folder of the store.`;
}

/** Writes a file that is not there yet. */
export async function write(to: string, bytes: Uint8Array): Promise<void> {
  const written = await writeNew(to, bytes);
  if (!written.ok) throw new Refusal(written.why);
}

/** What an export goes without, a line each; it is not held up by it. */
function without(lacking: readonly string[]): string {
  return lacking.map((why) => `Not in it: ${why}\n`).join('');
}

/** "12 kB". */
export function kilobytes({ length }: Uint8Array): string {
  return `${Math.max(1, Math.round(length / 1000))} kB`;
}
