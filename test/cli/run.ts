/** Runs the program as a person's shell would: most calls in this process, some as a process of their own. */
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { call } from '../../src/cli/call.ts';

export const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const MAIN = join(ROOT, 'dist/cli/main.js');
const TSC = join(ROOT, 'node_modules/typescript/bin/tsc');

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Variables of the environment, by name. */
type Surroundings = Readonly<Record<string, string>>;

/** Builds the program; quick when nothing has changed. */
export function build(): void {
  execFileSync(process.execPath, [TSC, '-b', 'src/cli'], { cwd: ROOT, stdio: 'pipe' });
}

let last: Promise<unknown> = Promise.resolve();

/**
 * Runs the program with arguments and perhaps something on standard input, in the folder of the project: all of it but the
 * process, whose start takes longer than most answers. One call after another, for they share the process's surroundings.
 */
export function run(
  args: readonly string[],
  input: string | Uint8Array = '',
  more: Surroundings = {},
): Promise<Ran> {
  const ran = last.then(() => runHere(args, input, more));
  last = ran.catch(() => undefined);
  return ran;
}

async function runHere(
  args: readonly string[],
  input: string | Uint8Array,
  more: Surroundings,
): Promise<Ran> {
  const [before, exitCode] = [{ ...process.env }, process.exitCode];
  let [out, err] = ['', ''];
  process.exitCode = undefined;
  Object.assign(process.env, more);
  try {
    const code = await call(args, {
      input: Readable.from([Buffer.from(input)]),
      print: async (text) => {
        out += text;
      },
      complain: (sentence) => {
        err += `${sentence}\n`;
      },
    });
    // As src/cli/main.ts does.
    return { code: code || Number(process.exitCode ?? 0), out, err };
  } finally {
    process.exitCode = exitCode;
    for (const name of Object.keys(more)) {
      if (before[name] === undefined) delete process.env[name];
      else process.env[name] = before[name];
    }
  }
}

/** The same as a process of its own, built and started as a person's shell would. */
export function runProcess(
  args: readonly string[],
  input: string | Uint8Array = '',
  more: Surroundings = {},
): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [MAIN, ...args], { cwd: ROOT, env: { ...process.env, ...more } });
    let out = '';
    let err = '';
    child.stdout.setEncoding('utf8').on('data', (text) => {
      out += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text) => {
      err += text;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, err }));
    // A program that refuses its arguments does not read its input.
    child.stdin.on('error', () => {});
    child.stdin.end(input);
  });
}

/** Runs the program with nobody left to read what it prints. */
export function runUnread(
  args: readonly string[],
  input = '',
): Promise<{ code: number | null; err: string }> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [MAIN, ...args], { cwd: ROOT });
    let err = '';
    child.stdout.destroy();
    child.stderr.setEncoding('utf8').on('data', (text) => {
      err += text;
    });
    child.on('error', reject);
    child.on('exit', (code) => resolve({ code, err }));
    child.stdin.on('error', () => {});
    child.stdin.end(input);
  });
}

const folder = mkdtempSync(join(tmpdir(), 'cli-test-'));

/** Writes a file for one test and returns its name. */
export function file(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

export const ARDMOOR = 'machines/ardmoor-650-pathway.json';
export const OSKERLUND = 'machines/oskerlund-420-fellgate.json';
export const PEMBURROW = 'machines/pemburrow-900-carillon.json';
