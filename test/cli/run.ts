/** Runs the built program as a person's shell would. */
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const MAIN = join(ROOT, 'dist/cli/main.js');
const TSC = join(ROOT, 'node_modules/typescript/bin/tsc');

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Builds the program; quick when nothing has changed. */
export function build(): void {
  execFileSync(process.execPath, [TSC, '-b', 'src/cli'], { cwd: ROOT, stdio: 'pipe' });
}

/** Runs the program with arguments and perhaps a text on standard input, in the folder of the project. */
export function run(args: readonly string[], input = ''): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [MAIN, ...args], { cwd: ROOT });
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
