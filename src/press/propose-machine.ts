/** What would become of a machine file from outside: under which id, and how it differs from the one that is here. */
import { compare } from '../draft/compare.ts';
import { plainId } from '../machine/plain-id.ts';
import { fileValue } from './machine-pack.ts';
import { type MachineShelf, textsOf } from './machine-shelf.ts';
import type { MachineFile } from './read-machine-file.ts';

export interface MachineProposal {
  /** Under which it would be kept. */
  readonly id: string;
  /** `new`: none of that id is here; `same`: one of its versions is this very text; `version`: it would be its next version. */
  readonly is: 'new' | 'same' | 'version';
  /** Places at which it differs from the newest one here, count; null where none of that id is here or one is no JSON. */
  readonly differences: number | null;
  /** How many versions of it are here. */
  readonly versions: number;
}

/** Longest id of a machine file, characters. */
const LONGEST = 64;
/** Versions that are looked into whether one says the same in another setting, count: each is read whole. */
const COMPARED = 20;

/** An id of a machine from what it is called: `ardmoor-650-pathway`. */
export function idOf(name: string | null): string {
  return plainId(name ?? '', LONGEST - 4) || 'machine';
}

/** `wanted`: an id that somebody asked for, in place of the one from its name. */
export async function proposeMachine(
  file: MachineFile,
  shelf: MachineShelf,
  wanted: string | null = null,
): Promise<MachineProposal> {
  const base = wanted ?? idOf(file.name);
  const written = new Set(await shelf.ids());
  const shipped = await shelf.shipped(base);
  // A shipped one stays as it is; the very same text is known already.
  if (shipped !== null && sameFile(shipped, file.text))
    return { id: base, is: 'same', differences: 0, versions: 0 };
  let id = base;
  for (let n = 2; (await shelf.shipped(id)) !== null; n++) id = `${base}-${n}`;
  if (!written.has(id))
    return {
      id,
      is: 'new',
      differences: shipped === null ? null : differencesOf(shipped, file.text),
      versions: 0,
    };
  const texts = await textsOf(shelf, id);
  if (texts.length === 0) return { id, is: 'new', differences: null, versions: 0 };
  return {
    id,
    is:
      texts.includes(file.text) || texts.slice(-COMPARED).some((text) => sameFile(text, file.text))
        ? 'same'
        : 'version',
    differences: differencesOf(texts.at(-1)!, file.text),
    versions: texts.length,
  };
}

/** Whether two texts say the same, however they are set out. */
function sameFile(one: string, other: string): boolean {
  return one === other || differencesOf(one, other) === 0;
}

/** Places at which two files differ, count; null where one is no JSON. Where the schema lies is no matter of the bike. */
function differencesOf(one: string, other: string): number | null {
  const [here, there] = [fileValue(one), fileValue(other)];
  if (here === null || there === null) return null;
  return compare(here, there).filter(({ path }) => path[0] !== '$schema').length;
}
