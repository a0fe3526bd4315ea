/**
 * Plays a file of practice cases through the line mode and prints its scores.
 *
 *   node dist/cli/play.js [CASES.jsonl] [--half even|odd] [--drawn N] [--seed S] [--report [FOLDER]] [--no-slips]
 *                         [--max 80] [--log OUT.jsonl] [--jobs 2] [--inside | -- COMMAND ARG...]
 *
 * The line mode runs in a process of its own, as a person's script would run it, so that the times include the pipe;
 * `--inside` calls it directly. Without a file the project's open cases are played; with `--drawn N`, N cases drawn
 * from the project's own physics, always the same for a seed. `--report` plays the even half, the odd half and drawn
 * cases one after another and writes their reliability diagrams and tables to a folder.
 */
import { spawn } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { drawCase } from '../cases/draw-case.ts';
import { openLineMode } from '../cases/lines.ts';
import { logLine, type Played, playCase } from '../cases/play.ts';
import type { PracticeCase } from '../cases/player.ts';
import { readCases } from '../cases/read-cases.ts';
import { report } from '../cases/score.ts';
import { openFolder, type ReportPart, reportLines, writeReport } from './play-report.ts';

interface Options {
  file: string;
  half: 'even' | 'odd' | null;
  /** How many cases to draw instead of reading a file; null: read the file. */
  drawn: number | null;
  seed: number;
  /** Folder of the report; null: no report. */
  report: string | null;
  slips: boolean;
  most: number;
  log: string | null;
  jobs: number;
  inside: boolean;
  command: readonly string[];
}

/** Something that answers lines. */
interface Answerer {
  readonly ask: (line: string) => Promise<string>;
  readonly close: () => Promise<void>;
}

const ROOT = new URL('../../', import.meta.url);
/** Cases drawn for a report where their number is not given. */
const DRAWN = 60;
const USE =
  'write play [CASES.jsonl] [--half even|odd] [--drawn N] [--seed S] [--report [FOLDER]] [--no-slips] [--max N] [--log FILE] [--jobs N] [--inside | -- COMMAND]';

/** Reads the arguments; a RangeError with one sentence where they make no sense. */
export function readOptions(args: readonly string[]): Options {
  const options: Options = {
    file: fileURLToPath(new URL('test/cases/open.jsonl', ROOT)),
    half: null,
    drawn: null,
    seed: 1,
    report: null,
    slips: true,
    most: 80,
    log: null,
    jobs: 1,
    inside: false,
    command: [process.execPath, fileURLToPath(new URL('dist/cli/lines-main.js', ROOT))],
  };
  const whole = (name: string, text: string | undefined, most: number): number => {
    const value = Number(text);
    if (!Number.isInteger(value) || value < 1 || value > most) {
      throw new RangeError(`${name} takes a whole number from 1 to ${most}, got ${text ?? 'nothing'}.`);
    }
    return value;
  };
  let files = 0;
  for (let i = 0; i < args.length; i++) {
    const word = args[i]!;
    if (word === '--') {
      options.command = args.slice(i + 1);
      if (options.command.length === 0)
        throw new RangeError('-- must be followed by a command that answers lines.');
      break;
    }
    if (word === '--no-slips') options.slips = false;
    else if (word === '--inside') options.inside = true;
    else if (word === '--max') options.most = whole(word, args[++i], 1000);
    else if (word === '--jobs') options.jobs = whole(word, args[++i], 16);
    else if (word === '--half') {
      const half = args[++i];
      if (half !== 'even' && half !== 'odd')
        throw new RangeError(`--half takes even or odd, got ${half ?? 'nothing'}.`);
      options.half = half;
    } else if (word === '--drawn') options.drawn = whole(word, args[++i], 100_000);
    else if (word === '--seed') options.seed = whole(word, args[++i], 2 ** 31);
    else if (word === '--report') {
      const folder = args[i + 1];
      if (folder !== undefined && !folder.startsWith('-')) i++;
      options.report = folder === undefined || folder.startsWith('-') ? 'report' : folder;
    } else if (word === '--log') {
      options.log = args[++i] ?? null;
      if (options.log === null) throw new RangeError('--log takes the name of a file to write.');
    } else if (word.startsWith('-')) throw new RangeError(`${word} is no option of this command; ${USE}.`);
    else if (files++ > 0) throw new RangeError(`${word} is a second file; play one file at a time.`);
    else options.file = word;
  }
  if (options.report !== null && options.half !== null)
    throw new RangeError('--report plays both halves; leave --half out.');
  if (options.report === null && options.drawn !== null && files > 0)
    throw new RangeError('--drawn plays drawn cases and no file; leave one of the two out.');
  return options;
}

/** The line mode in this process. */
function inside(): Answerer {
  const mode = openLineMode();
  return { ask: async (line) => mode.answer(line), close: async () => {} };
}

/** The line mode as a command in a process of its own. */
function outside(command: readonly string[]): Answerer {
  const child = spawn(command[0]!, command.slice(1), { stdio: ['pipe', 'pipe', 'inherit'] });
  let failure: Error | null = null;
  let waiting: { resolve: (line: string) => void; reject: (error: Error) => void } | null = null;
  const fail = (error: Error): void => {
    failure ??= error;
    waiting?.reject(failure);
    waiting = null;
  };
  const ended = new Promise<void>((resolve) => {
    child.on('error', (error) => {
      fail(
        new RangeError(`The command ${command.join(' ')} cannot be started (${error.message}); build first.`),
      );
      resolve();
    });
    child.on('close', () => resolve());
  });
  // Writing to a command that has ended is reported by its end, not twice.
  child.stdin.on('error', () => {});
  const lines = createInterface({ input: child.stdout });
  lines.on('line', (line) => {
    const asked = waiting;
    waiting = null;
    asked?.resolve(line);
  });
  lines.on('close', () =>
    fail(new RangeError('The command ended early; its last words on standard error say why.')),
  );
  return {
    ask: (line) =>
      new Promise((resolve, reject) => {
        if (failure) return reject(failure);
        waiting = { resolve, reject };
        child.stdin.write(`${line}\n`);
      }),
    close: async () => {
      child.stdin.end();
      await ended;
    },
  };
}

/** Cases to play, made or looked up one at a time. */
interface Supply {
  readonly count: number;
  readonly at: (place: number) => PracticeCase;
}

const listed = (cases: readonly PracticeCase[]): Supply => ({
  count: cases.length,
  at: (place) => cases[place]!,
});

/** Cases drawn when their turn comes: each costs a second of physics and some thousand numbers. */
const drawn = (count: number, seed: number): Supply => ({ count, at: (place) => drawCase(seed, place) });

/** Plays the cases, `jobs` at a time, each job with an answerer of its own; results in the order of the cases. */
async function playAll(cases: Supply, options: Options, warn: (text: string) => void) {
  const played: Played[] = [];
  const seconds: number[] = [];
  let next = 0;
  const work = async (): Promise<void> => {
    const answerer = options.inside ? inside() : outside(options.command);
    const timed = async (line: string): Promise<string> => {
      const start = performance.now();
      const answer = await answerer.ask(line);
      seconds.push((performance.now() - start) / 1000);
      return answer;
    };
    try {
      while (next < cases.count) {
        const place = next++;
        const practice = cases.at(place);
        const result = await playCase(practice, timed, { most: options.most, slips: options.slips });
        if (result.answer.error) warn(`${practice.id}: ${result.answer.error}`);
        played[place] = result;
      }
    } finally {
      await answerer.close();
    }
  };
  await Promise.all(Array.from({ length: Math.min(options.jobs, cases.count) }, work));
  return { played, seconds };
}

/** The parts that the options ask for: one, or the three of a report. */
function partsOf(options: Options): { name: string; title: string; cases: Supply }[] {
  const half = (which: 'even' | 'odd') =>
    listed(readFile(options.file).filter((_, index) => (index % 2 === 0) === (which === 'even')));
  const ours = (count: number) => drawn(count, options.seed);
  if (options.report !== null)
    return [
      { name: 'even', title: 'Open cases, even half (never tuned on)', cases: half('even') },
      { name: 'odd', title: 'Open cases, odd half', cases: half('odd') },
      {
        name: 'drawn',
        title: `Cases drawn from our own physics, seed ${options.seed}`,
        cases: ours(options.drawn ?? DRAWN),
      },
    ];
  if (options.drawn !== null) {
    const name = `drawn ${options.half ?? ''}`;
    const all = ours(options.drawn);
    if (options.half === null) return [{ name, title: name, cases: all }];
    const first = options.half === 'even' ? 0 : 1;
    const count = Math.floor((all.count - first + 1) / 2);
    return [{ name, title: name, cases: { count, at: (place) => all.at(2 * place + first) } }];
  }
  return [
    {
      name: options.half ?? 'open',
      title: 'Open cases',
      cases: options.half === null ? listed(readFile(options.file)) : half(options.half),
    },
  ];
}

/** Runs the command; returns the exit code: 0, 1 where a case was answered with an error, 2 where the input is bad. */
export async function play(
  args: readonly string[],
  print: (text: string) => void,
  warn: (text: string) => void,
): Promise<number> {
  try {
    const options = readOptions(args);
    const parts = partsOf(options);
    for (const { name, cases } of parts) {
      if (cases.count === 0) throw new RangeError(`there is no case in the ${name} part; give more cases.`);
    }
    if (options.log !== null) writeLog(options.log, '');
    if (options.report !== null) openFolder(options.report);
    const all: Played[] = [];
    const done: ReportPart[] = [];
    for (const { name, title, cases } of parts) {
      if (options.report !== null) warn(`${title}: ${cases.count} cases`);
      const { played, seconds } = await playAll(cases, options, warn);
      all.push(...played);
      done.push({ name, title, rows: played.map((one) => one.row), seconds });
      if (options.log !== null) writeLog(options.log, all.map((one) => `${logLine(one)}\n`).join(''));
      // Written after every part: a run that is broken off has lost only what it was playing.
      if (options.report !== null) writeReport(options.report, done);
    }
    if (options.report !== null) for (const line of reportLines(done)) print(line);
    else for (const line of report(done[0]!.rows, done[0]!.seconds)) print(line);
    return all.some((one) => one.answer.error) ? 1 : 0;
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    warn(error.message);
    return 2;
  }
}

/** Tried with nothing before the run, so that a wrong name does not cost an hour of play. */
function writeLog(file: string, text: string): void {
  try {
    writeFileSync(file, text);
  } catch (error) {
    throw new RangeError(
      `${file} cannot be written (${(error as Error).message}); name another file for --log.`,
    );
  }
}

function readFile(file: string): PracticeCase[] {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    throw new RangeError(`${file} cannot be read (${(error as Error).message}); name a file of cases.`);
  }
  try {
    return readCases(text);
  } catch (error) {
    throw error instanceof RangeError ? new RangeError(`${file}: ${error.message}`) : error;
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  process.exitCode = await play(
    process.argv.slice(2),
    (text) => process.stdout.write(`${text}\n`),
    (text) => process.stderr.write(`${text}\n`),
  );
}
