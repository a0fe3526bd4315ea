/** The machine files of a folder, read afresh at every call: a mechanic edits them while the server runs. */
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Context } from 'hono';
import { judgeFile, type Mark } from '../machine/judge-file.ts';
import { writeProblem } from '../machine/problem.ts';
import { readMachine } from '../machine/read-machine.ts';
import { readBody } from './body.ts';
import type { OwnMachines } from './own-machines.ts';

export interface MachineLine {
  /** File name without `.json`. */
  readonly id: string;
  /** Maker and model; the file name where the file cannot be read. */
  readonly name: string;
  readonly invented: boolean;
  /** The first thing wrong with the file, in one sentence; null when nothing is. */
  readonly problem: string | null;
  /** Written here, and how many versions of it there are; 0 for a shipped one. */
  readonly versions: number;
  /** How the check marks it. */
  readonly mark: Mark;
}

const NAME = /^([a-z0-9](?:[a-z0-9-]{0,62}[a-z0-9])?)\.json$/;

/** One line a machine file, by name. A faulty file is listed with its fault rather than left out. */
export async function listMachines(folder: string, own: OwnMachines): Promise<readonly MachineLine[]> {
  const ids = (await readdir(folder)).flatMap((name) => NAME.exec(name)?.[1] ?? []);
  const shipped = await Promise.all(
    ids.sort().map(async (id) => describe(id, await machineText(folder, id), 0)),
  );
  const written = await Promise.all(
    (await own.ids()).map(async (id) => describe(id, await own.text(id), (await own.versions(id)).length)),
  );
  return [...shipped, ...written.filter(({ versions }) => versions > 0)];
}

/** Lines by id as they were for a text: judging every file for each look at the list takes half a second. */
const described = new Map<string, { readonly text: string; readonly line: MachineLine }>();

function describe(id: string, text: string | null, versions: number): MachineLine {
  const known = described.get(id);
  if (text !== null && known?.text === text) return { ...known.line, versions };
  const line = judged(id, text, versions);
  if (text !== null) described.set(id, { text, line });
  return line;
}

function judged(id: string, text: string | null, versions: number): MachineLine {
  const read = text === null ? null : readMachine(text, `machines/${id}.json`);
  const mark = text === null ? 'broken' : judgeFile(text, `machines/${id}.json`).mark;
  if (read?.ok) {
    const { maker, model, invented } = read.machine.about;
    return { id, name: `${maker} ${model}`, invented, problem: null, versions, mark };
  }
  const first = read?.problems[0];
  return {
    id,
    name: id,
    invented: false,
    problem: first ? writeProblem(first) : `machines/${id}.json cannot be read.`,
    versions,
    mark,
  };
}

/** The text of one machine file; null when there is none of that name. */
export async function machineText(folder: string, id: string): Promise<string | null> {
  // The name is checked against the pattern first, so no path can be built out of the folder.
  if (!NAME.test(`${id}.json`)) return null;
  return readFile(join(folder, `${id}.json`), 'utf8').catch(() => null);
}

/** Keeps a text as the next version of a machine written here; a text with errors is kept as well, and marked. */
export async function saveMachine(
  c: Context,
  own: OwnMachines,
  shippedFolder: string,
  id: string,
): Promise<Response> {
  const body = await readBody(c);
  if (!body.ok) return c.json({ error: body.why }, body.status);
  const text =
    typeof body.value === 'object' && body.value !== null ? (body.value as { text?: unknown }).text : null;
  if (typeof text !== 'string' || text.trim() === '')
    return c.json({ error: 'There is no text to keep; send the whole machine file.', field: 'text' }, 400);
  if ((await machineText(shippedFolder, id)) !== null)
    return c.json(
      { error: 'A shipped machine stays as it is; save yours under a name of its own.', field: 'id' },
      400,
    );
  const saved = await own.save(id, text);
  if (!saved.ok) return c.json({ error: saved.why, field: 'id' }, 400);
  const { mark } = judgeFile(text, `${id}.json`, new Date().getFullYear());
  return c.json({ id, version: saved.version, mark }, 201);
}
