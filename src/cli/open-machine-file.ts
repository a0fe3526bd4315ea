/** Opens a machine file that a command names, plain or as a pack, as the value that is compared, merged and shared. */
import type { Json } from '../machine/json-value.ts';
import { fileValue } from '../press/machine-pack.ts';
import { MACHINE_PACK_LIMITS, type MachineFile, readMachineFile } from '../press/read-machine-file.ts';
import type { World } from './command.ts';
import { Refusal } from './refusal.ts';

export interface OpenFile extends MachineFile {
  /** As it was named, or "standard input". */
  readonly from: string;
  readonly value: Json;
}

/** Every problem of a file that cannot be read goes into the Refusal. */
export async function openMachineFile(name: string, world: World): Promise<OpenFile> {
  const from = name === '-' ? 'standard input' : name;
  const bytes = await world.bytes(name, MACHINE_PACK_LIMITS.zip);
  const read = readMachineFile(bytes, from, new Date().getFullYear());
  if (!read.ok) throw new Refusal(read.why);
  if (read.problems.length > 0) throw new Refusal(...read.problems);
  const value = fileValue(read.text);
  if (value === null) throw new RangeError('text must be JSON once it was read, got none');
  return { ...read, from, value };
}
