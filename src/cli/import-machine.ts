/** The part of `import` that takes in a machine file, plain or as a pack. */
import { proposeMachine } from '../press/propose-machine.ts';
import { isMachinePack, MACHINE_PACK_LIMITS, readMachineFile } from '../press/read-machine-file.ts';
import { listZip } from '../press/zip-read.ts';
import { counted } from './counted.ts';
import { inGarage } from './open-garage.ts';
import { Refusal } from './refusal.ts';

const ID = /^[a-z0-9](?:[a-z0-9-]{0,62}[a-z0-9])?$/;

/** Whether these bytes are a machine file or its pack, and no job or garage. */
export function isMachine(bytes: Uint8Array): boolean {
  const zipped = bytes[0] === 0x50 && bytes[1] === 0x4b;
  if (!zipped) {
    const text = Buffer.from(bytes)
      .toString('utf8')
      .replace(/^\ufeff/, '');
    // Any other JSON is no machine file with a hundred faults, but no machine file.
    return /^\s*\{/.test(text) && /"(?:charging|sources)"\s*:/.test(text);
  }
  const listed = listZip(bytes, MACHINE_PACK_LIMITS);
  return listed.ok && isMachinePack(new Set(listed.entries.map(({ name }) => name)));
}

/** Keeps it as a new machine or the next version of one; with `really` false only says what would come of it. */
export async function importMachine(
  bytes: Uint8Array,
  name: string,
  wanted: string | null,
  really: boolean,
): Promise<string> {
  if (wanted !== null && !ID.test(wanted))
    throw new Refusal(
      `--as wants an id of small letters, figures and hyphens, such as my-bike, not "${wanted.slice(0, 80)}".`,
    );
  const read = readMachineFile(bytes, name, new Date().getFullYear());
  if (!read.ok) throw new Refusal(read.why);
  if (read.problems.length > 0) throw new Refusal(...read.problems);
  // A machine file needs no store: none is made for it.
  return inGarage(false, async ({ shelf }) => {
    const { id, is, differences, versions } = await proposeMachine(read, shelf, wanted);
    const what = `${read.name}${read.invented ? ' (invented)' : ''}, marked ${read.mark} by the check`;
    if (is === 'same') return `${what}: it is here already as ${id}; nothing was kept.\n`;
    const differs =
      differences === null ? '' : `, which differs from the one here in ${counted(differences, 'place')}`;
    const as = is === 'new' ? `as ${id}` : `as version ${versions + 1} of ${id}`;
    if (!really) return `${what}: it would be kept ${as}${differs}; nothing was kept.\n`;
    const saved = await shelf.save(id, read.text);
    if (!saved.ok) throw new Refusal(saved.why);
    return `${what}: kept ${as}${differs}.\n`;
  });
}
