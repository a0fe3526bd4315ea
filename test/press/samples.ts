/** Jobs, zips and tools for the tests of the press. */
import { spawnSync } from 'node:child_process';
import fc from 'fast-check';
import { type Zippable, zipSync } from 'fflate';
import type { EventBody, JobEvent } from '../../src/job/event.ts';
import { type JobContent, packJob } from '../../src/press/job-file.ts';
import { readFileToImport } from '../../src/press/read-file.ts';
import { withSums } from '../../src/press/sums.ts';
import { utf8 } from '../../src/press/zip-write.ts';
import { picture, sumOf } from '../job/pictures.ts';
import { logs, opening, START, story, take } from '../job/stories.ts';

/** Logs with their opening event, in any order. */
export const openedLogs: fc.Arbitrary<readonly JobEvent[]> = fc
  .tuple(logs, fc.boolean())
  .map(([log, first]) => {
    const opened = story([opening], { device: 'opener', start: START - 1000 });
    return first ? [...opened, ...log] : [...log, ...opened];
  });

export const SMALL: readonly JobEvent[] = story([
  opening,
  take('rest_volts', 12.4, '12.4 V'),
  take('batt_volts lights=low rpm=3000', -0.5, '-0.5'),
  { type: 'noteAdded', text: '⅝ in, “tight” 力\nsecond line' },
]);

/** A job with photographs: one named twice, one struck, in no order of their sums. */
export const SHOT: readonly JobEvent[] = (() => {
  const shot = (number: number) => ({
    type: 'photoAdded' as const,
    photo: sumOf(picture(number)),
    step: 'cover',
    about: `picture ${number}`,
  });
  const log = story([opening, shot(3), shot(1), shot(3), shot(2)]);
  const start = Date.parse(log.at(-1)!.at) + 1000;
  return [
    ...log,
    ...story([{ type: 'entryStruck', event: log.at(-1)!.id } as EventBody], { start, device: 'later' }),
  ];
})();
export const PICTURES: readonly Uint8Array<ArrayBuffer>[] = [1, 2, 3].map((number) => picture(number));

export const content = (
  events: readonly JobEvent[],
  machine: string | null = '{ "a": 1 }\n',
): JobContent => ({
  events,
  machine,
  photos: [],
});

/** The bytes of a job; throws when it is refused. */
export function packed(job: JobContent): Uint8Array {
  const made = packJob(job);
  if (!made.ok) throw new Error(made.why);
  return made.bytes;
}

/** What is read from bytes; throws when they are refused. */
export function readBack(bytes: Uint8Array) {
  const read = readFileToImport(bytes, 'x.zip');
  if (!read.ok) throw new Error(read.why);
  return read;
}

/** The sentence that bytes are refused with; '' when they are taken. */
export function refusal(bytes: Uint8Array): string {
  const read = readFileToImport(bytes, 'x.zip');
  return read.ok ? '' : read.why;
}

/** Zips files as anybody could; level 0 unless said. */
export function zipOf(files: ReadonlyMap<string, Uint8Array | string>, level: 0 | 6 = 0): Uint8Array {
  const entries: Zippable = {};
  for (const [name, file] of files) entries[name] = [typeof file === 'string' ? utf8(file) : file, { level }];
  return zipSync(entries);
}

/** The same with sums that fit. */
export function summedZip(files: ReadonlyMap<string, Uint8Array | string>): Uint8Array {
  const bytes = [...files].map(
    ([name, file]) => [name, typeof file === 'string' ? utf8(file) : file] as const,
  );
  return zipOf(withSums(new Map(bytes)));
}

/** Whether a program of this name can be called. */
export function has(program: string): boolean {
  return spawnSync(program, ['--help']).error === undefined;
}
