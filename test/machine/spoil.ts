/** Takes a shipped machine file and spoils it, so that a test says only what it changes. */
import { readFileSync } from 'node:fs';
import { type MachineRead, readMachine } from '../../src/machine/read-machine.ts';

export const ARDMOOR = readFileSync(
  new URL('../../machines/ardmoor-650-pathway.json', import.meta.url),
  'utf8',
);

/** Replaces one piece of text that must be there exactly once, or the nth of several (from 0). */
export function swap(text: string, old: string, fresh: string, nth = -1): string {
  const pieces = text.split(old);
  if (nth < 0 ? pieces.length !== 2 : pieces.length < nth + 2) {
    throw new Error(`"${old}" stands ${pieces.length - 1} times in the file`);
  }
  const at = Math.max(nth, 0);
  return pieces.slice(0, at + 1).join(old) + fresh + pieces.slice(at + 1).join(old);
}

/** 1-based line of the nth occurrence of a text (from 0). */
export function lineOf(text: string, piece: string, nth = 0): number {
  return text
    .split(piece)
    .slice(0, nth + 1)
    .join(piece)
    .split('\n').length;
}

/** Reads a spoilt Ardmoor. */
export function spoil(...swaps: readonly (readonly [string, string, number?])[]): {
  readonly text: string;
  readonly read: MachineRead;
} {
  let text = ARDMOOR;
  for (const [old, fresh, nth] of swaps) text = swap(text, old, fresh, nth ?? -1);
  return { text, read: readMachine(text, 'ardmoor.json') };
}

/** The problems of a read that must have failed. */
export function problemsOf(read: MachineRead) {
  if (read.ok) throw new Error('the file was accepted');
  return read.problems;
}
