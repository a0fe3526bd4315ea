/** Small edits of the three shipped machines, for planting blunders and for sound figures of other bikes. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** A machine file as parsed JSON: this is what a stranger may write, so nothing is known of its types. */
// biome-ignore lint/suspicious/noExplicitAny: an edit may put anything anywhere
export type Json = any;
export type Edit = (machine: Json) => void;

const FILES = {
  ardmoor: 'ardmoor-650-pathway',
  oskerlund: 'oskerlund-420-fellgate',
  pemburrow: 'pemburrow-900-carillon',
} as const;
export type Name = keyof typeof FILES;
export const NAMES = Object.keys(FILES) as readonly Name[];

const texts = new Map<Name, string>();

/** A fresh copy of a shipped machine. The folder is found from where npm or vitest starts: the project's own. */
export function fresh(name: Name): Json {
  const known = texts.get(name) ?? readFileSync(join('machines', `${FILES[name]}.json`), 'utf8');
  texts.set(name, known);
  return JSON.parse(known);
}

/** Sets a member by its path, written with slashes: "fasteners/cover-screws/torque/is". undefined takes it out. */
export function put(path: string, value: unknown): Edit {
  return (machine) => {
    const keys = path.split('/');
    const last = keys.pop()!;
    let at = machine;
    for (const key of keys) {
      at[key] ??= {};
      at = at[key];
    }
    if (value === undefined) delete at[last];
    else at[last] = value;
  };
}

/** Several edits as one. */
export function all(...edits: readonly Edit[]): Edit {
  return (machine) => {
    for (const edit of edits) edit(machine);
  };
}

/** A figure as a mechanic writes it down from the book. */
export function book(is: unknown): Json {
  return { is, from: 'book' };
}

/** The text of an edited machine. */
export function edited(name: Name, edit: Edit): string {
  const machine = fresh(name);
  edit(machine);
  return `${JSON.stringify(machine, null, 2)}\n`;
}
