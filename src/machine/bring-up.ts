/**
 * Machine files of earlier versions, brought up to this one as they are read, so that a file from a friend's older program
 * opens. Only what is read changes; the file itself is written anew when its owner saves it. A version is counted up
 * whenever a file that an older program would refuse becomes possible, so that it can say "use a newer program" rather
 * than complain of a key.
 *
 * | version | what changed |
 * |---|---|
 * | 1 | – |
 * | 2 | a figure may say when it was taken (`date`) |
 */
import type { JsonEntry, JsonNode } from './json-text.ts';

/** Version of the file format, dimensionless. */
export const VERSION = 2;

/** Turns a file of one version into one of the next; places in the text stay, so that complaints name their lines. */
export type Step = (entries: readonly JsonEntry[]) => readonly JsonEntry[];

/** By the version it starts from. In 2 only something was added: what stood in 1 stands in 2. */
const STEPS: Readonly<Record<number, Step>> = { 1: (entries) => entries };

/**
 * The file as one of version `to`; one of a later version, or that names none, as it is.
 * Throws RangeError where a step on the way is missing, which is a slip of the program and not of the file.
 */
export function bringUp(root: JsonNode, to = VERSION, steps = STEPS): JsonNode {
  if (root.type !== 'object') return root;
  const said = root.entries.find(({ key }) => key === 'version');
  const from = said?.value.type === 'number' ? said.value.value : to;
  if (!Number.isInteger(from) || from < 1 || from >= to) return root;
  let entries: readonly JsonEntry[] = root.entries;
  for (let version = from; version < to; version++) {
    const step = steps[version];
    if (!step) throw new RangeError(`no step leads from version ${version} of the machine file; got ${to}`);
    entries = step(entries);
  }
  const numbered = entries.map((entry) =>
    entry.key === 'version' && entry.value.type === 'number'
      ? { ...entry, value: { ...entry.value, value: to, text: String(to) } }
      : entry,
  );
  return { ...root, entries: numbered };
}
