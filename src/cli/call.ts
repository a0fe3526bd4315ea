/**
 * One call of the program: picks the command, lends it the world, and turns what it refuses into sentences. Nothing reaches
 * standard output before a command has succeeded, except in line mode, which answers line by line.
 */
import { createReadStream } from 'node:fs';
import { createInterface } from 'node:readline';
import type { Readable } from 'node:stream';
import { runLines } from '../cases/lines.ts';
import { MAX_BYTES } from '../machine/json-text.ts';
import { nearest } from '../machine/nearest.ts';
import { begin } from './begin.ts';
import { chapters } from './chapters.ts';
import { check } from './check.ts';
import type { Command, World } from './command.ts';
import { compareMachines } from './compare-machines.ts';
import { estimate } from './estimate.ts';
import { why } from './explain.ts';
import { exportJob } from './export-job.ts';
import { PROGRAM, writeCommandHelp, writeHelp } from './help.ts';
import { howTo } from './how-to.ts';
import { importJob } from './import-job.ts';
import { mergeMachines } from './merge-machines.ts';
import { netlist } from './netlist.ts';
import { readOptions } from './options.ts';
import { point } from './point.ts';
import { proof } from './proof.ts';
import { record } from './record.ts';
import { Refusal } from './refusal.ts';
import { reminders } from './reminders.ts';
import { ride } from './ride.ts';
import { schedule } from './schedule.ts';
import { schema } from './schema.ts';
import { share } from './share.ts';
import { sharpen } from './sharpen.ts';
import { sound } from './sound.ts';
import { sum } from './sum.ts';
import { sweep } from './sweep.ts';
import { verdict } from './verdict.ts';
import { way } from './way.ts';
import { words } from './words.ts';

const lines: Command = {
  name: 'lines',
  about: 'Answer JSON objects, one a line, for programs',
  takes: '',
  more: [
    'Each line that comes in is a bike with its complaint and readings; each line that goes out is the verdict on it, in the same order. A line that cannot be understood is answered with its id and an "error" that says why.',
  ],
  options: [],
  example: {
    line: 'lines < test/cases/open.jsonl',
    shows: 'the verdict on every practice case, with all readings known',
  },
  words: [0, 0],
  run: async (_given, { input, print }) => {
    await runLines(createInterface({ input, crlfDelay: Number.POSITIVE_INFINITY }), print);
    return '';
  },
};

const COMMANDS: readonly Command[] = [
  verdict,
  why,
  sound,
  point,
  sweep,
  netlist,
  ride,
  sum,
  way,
  schedule,
  begin,
  estimate,
  sharpen,
  check,
  words,
  schema,
  compareMachines,
  mergeMachines,
  share,
  proof,
  chapters,
  reminders,
  howTo,
  record,
  exportJob,
  importJob,
  lines,
];

/** Where a call reads and writes. */
export interface Streams {
  readonly input: Readable;
  /** Writes to standard output and waits while the reader is slow. */
  readonly print: (text: string) => Promise<void>;
  /** Writes a sentence to standard error. */
  readonly complain: (sentence: string) => void;
}

function worldOf({ input, print }: Streams): World {
  const bytes: World['bytes'] = (name, most) => readBytes(input, name, most);
  return {
    input,
    print,
    bytes,
    read: async (name) => {
      const read = await bytes(name, MAX_BYTES);
      try {
        return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(read);
      } catch {
        throw new Refusal(`${shown(name)} is not text in UTF-8: save it again as UTF-8.`);
      }
    },
  };
}

function shown(name: string): string {
  return name === '-' ? 'standard input' : name;
}

function unreadable(name: string, error: NodeJS.ErrnoException): never {
  const reasons: Record<string, string> = {
    ENOENT: 'does not exist: check the name and the folder',
    EISDIR: 'is a folder: name a file in it',
    EACCES: 'may not be read: change its permissions',
  };
  throw new Refusal(
    `${name} ${reasons[error.code ?? ''] ?? `cannot be read (${error.message}): check the name`}.`,
  );
}

/** Stops reading as soon as it is too much, whatever the file's own size says. */
async function readBytes(input: Readable, name: string, most: number): Promise<Buffer> {
  const parts: Buffer[] = [];
  let size = 0;
  try {
    for await (const part of name === '-' ? input : createReadStream(name)) {
      parts.push(part as Buffer);
      size += (part as Buffer).length;
      if (size > most) break;
    }
  } catch (error) {
    unreadable(name, error as NodeJS.ErrnoException);
  }
  if (size > most) throw new Refusal(`${shown(name)} is larger than ${most / 1e6} MB: name a smaller file.`);
  return Buffer.concat(parts);
}

/** Runs one call of the program and returns its exit code: 0 done, 2 bad input. What is no refusal is thrown. */
export async function call(args: readonly string[], streams: Streams): Promise<number> {
  try {
    await answer(args, streams);
    return 0;
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    for (const sentence of error.sentences) streams.complain(sentence);
    return 2;
  }
}

async function answer(args: readonly string[], streams: Streams): Promise<void> {
  const { print } = streams;
  const [name, ...rest] = args;
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    const asked = name === 'help' && rest[0] !== undefined ? find(rest[0]) : null;
    await print(asked ? writeCommandHelp(asked) : writeHelp(COMMANDS));
    return;
  }
  const command = find(name);
  const end = rest.indexOf('--');
  if (rest.slice(0, end < 0 ? rest.length : end).some((arg) => arg === '--help' || arg === '-h')) {
    await print(writeCommandHelp(command));
    return;
  }
  await print(await command.run(readOptions(command, rest), worldOf(streams)));
}

function find(name: string): Command {
  const found = COMMANDS.find((command) => command.name === name);
  if (found) return found;
  const names = COMMANDS.map((command) => command.name);
  const near = nearest(name, names);
  const remedy = near === null ? `it may be ${names.join(', ')}` : `write ${near} if that is meant`;
  throw new Refusal(`"${name}" is no command: ${remedy}; see "${PROGRAM} --help".`);
}
