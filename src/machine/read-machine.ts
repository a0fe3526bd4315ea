/** Reads a machine file: text in, a checked machine or every problem out. */
import { bringUp, VERSION } from './bring-up.ts';
import { contradictions } from './contradict.ts';
import { type Machine, machineFile } from './definition.ts';
import { type JsonNode, readJson } from './json-text.ts';
import { notes } from './notes.ts';
import { memberPath, type Place, type Problem } from './problem.ts';
import { type Desk, describe } from './shape.ts';

/** A machine with what should be known about it, or every problem that its file has, in the order of its lines. */
export type MachineRead =
  | { readonly ok: true; readonly machine: Machine; readonly notes: readonly string[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Reads the text of a machine file; `fileName` is only for the messages. Never throws on any text. */
export function readMachine(text: string, fileName: string): MachineRead {
  const { root, machine, problems, desk } = readShape(text, fileName);
  const refused = (): MachineRead => ({ ok: false, problems: problems.sort(byPlace) });
  if (root === null || machine === null || problems.length > 0) return refused();
  for (const { path, what, fix } of contradictions(machine)) desk.complain(find(root, path), path, what, fix);
  if (problems.length > 0) return refused();
  return { ok: true, machine, notes: notes(machine) };
}

/** A text held against the shape of the file: its tree, the machine when all of it fits, and what does not. */
export interface ShapeRead {
  readonly root: JsonNode | null;
  readonly machine: Machine | null;
  /** Null too for a version that is not read. */
  readonly readable: JsonNode | null;
  readonly problems: Problem[];
  readonly desk: Desk;
}

/** Reads a text by its shape alone; contradictions and blunders are left to others. Never throws. */
export function readShape(text: string, fileName: string): ShapeRead {
  const { root: written, faults } = readJson(text);
  const root = written && bringUp(written);
  const problems: Problem[] = faults.map((fault) => ({ file: fileName, ...fault }));
  const desk: Desk = {
    sourceIds: root === null ? [] : sourceIds(root),
    complain: (at, path, what, fix) => problems.push({ file: fileName, ...at, path, what, fix }),
  };
  if (root === null || !versionFits(root, desk)) {
    return { root, machine: null, readable: null, problems, desk };
  }
  const machine = machineFile.read(root, '$', desk) ?? null;
  return { root, machine, readable: root, problems, desk };
}

/** Order of two places in a file, dimensionless: below 0 when the first stands before. */
export function byPlace(a: Place, b: Place): number {
  return a.line - b.line || a.column - b.column;
}

/** A member of an object; undefined where there is none. */
export function member(node: JsonNode, key: string): JsonNode | undefined {
  return node.type === 'object' ? node.entries.find((entry) => entry.key === key)?.value : undefined;
}

function sourceIds(root: JsonNode): readonly string[] {
  const sources = member(root, 'sources');
  return sources?.type === 'object' ? sources.entries.map((entry) => entry.key) : [];
}

/** A file of another version is not read further: its complaints would mislead. */
function versionFits(root: JsonNode, desk: Desk): boolean {
  const version = member(root, 'version');
  if (version === undefined || version.type === 'bad') return true;
  if (version.type === 'number' && version.value === VERSION) return true;
  const later = version.type === 'number' && version.value > VERSION;
  const fix = later ? 'Use a newer program for this file' : `Write "version": ${VERSION}, without quotes`;
  const what = `this program reads machine files up to version ${VERSION}, not ${describe(version)}`;
  desk.complain(version.at, '$.version', what, fix);
  return false;
}

/** Place of the member that a path such as `$.charging.wiring.output.joints[1].at` names; of the nearest one above if it is not there. */
export function find(root: JsonNode, path: string): Place {
  let node = root;
  let reached = '$';
  while (reached !== path) {
    const next = children(node, reached).find(
      ([inner]) => path === inner || (/^[.[]/.test(path.slice(inner.length)) && path.startsWith(inner)),
    );
    if (!next) break;
    [reached, node] = next;
  }
  return node.at;
}

function children(node: JsonNode, path: string): [string, JsonNode][] {
  if (node.type === 'array') return node.items.map((item, n) => [`${path}[${n}]`, item]);
  if (node.type === 'object') return node.entries.map((entry) => [memberPath(path, entry.key), entry.value]);
  return [];
}
