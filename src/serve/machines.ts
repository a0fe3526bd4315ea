/** The machine files of a folder, read afresh at every call: a mechanic edits them while the server runs. */
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { writeProblem } from '../machine/problem.ts';
import { readMachine } from '../machine/read-machine.ts';

export interface MachineLine {
  /** File name without `.json`. */
  readonly id: string;
  /** Maker and model; the file name where the file cannot be read. */
  readonly name: string;
  readonly invented: boolean;
  /** The first thing wrong with the file, in one sentence; null when nothing is. */
  readonly problem: string | null;
}

const NAME = /^([a-z0-9](?:[a-z0-9-]{0,62}[a-z0-9])?)\.json$/;

/** One line a machine file, by name. A faulty file is listed with its fault rather than left out. */
export async function listMachines(folder: string): Promise<readonly MachineLine[]> {
  const ids = (await readdir(folder)).flatMap((name) => NAME.exec(name)?.[1] ?? []);
  return Promise.all(ids.sort().map((id) => describe(folder, id)));
}

async function describe(folder: string, id: string): Promise<MachineLine> {
  const text = await machineText(folder, id);
  const read = text === null ? null : readMachine(text, `machines/${id}.json`);
  if (read?.ok) {
    const { maker, model, invented } = read.machine.about;
    return { id, name: `${maker} ${model}`, invented, problem: null };
  }
  const first = read?.problems[0];
  return {
    id,
    name: id,
    invented: false,
    problem: first ? writeProblem(first) : `machines/${id}.json cannot be read.`,
  };
}

/** The text of one machine file; null when there is none of that name. */
export async function machineText(folder: string, id: string): Promise<string | null> {
  // The name is checked against the pattern first, so no path can be built out of the folder.
  if (!NAME.test(`${id}.json`)) return null;
  return readFile(join(folder, `${id}.json`), 'utf8').catch(() => null);
}
