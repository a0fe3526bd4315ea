/**
 * Machine files that were written here, kept beside the shipped ones: a folder for each, in it a file for each version,
 * numbered from 1, as it was typed. Nothing is ever overwritten: a version is written whole to a file of its own, made
 * safe on the disk, and only then given its number, which the first to ask for it gets. Files rather than rows: a
 * mechanic can open, copy and mend them with anything (docs/decisions/0005).
 */
import { link, open, readdir, readFile, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { explainFile, type FileWords } from '../disk/files-fault.ts';
import { makeFolders } from '../disk/make-folder.ts';

/** Most machines of one's own, and versions of one, count. */
const MOST_MACHINES = 500;
const MOST_VERSIONS = 9999;
const ID = /^[a-z0-9](?:[a-z0-9-]{0,62}[a-z0-9])?$/;
const VERSION = /^(\d{4})\.json$/;

const WORDS: FileWords = {
  notKept: 'the machine file was not kept',
  again: 'then save it again',
  elsewhere: 'set CHARGEWRIGHT_HOME to',
};

export type Saved =
  | { readonly ok: true; readonly version: number }
  | { readonly ok: false; readonly why: string };

export interface OwnMachines {
  /** Ids, by name. */
  readonly ids: () => Promise<readonly string[]>;
  /** The newest text, or that of a version; null when there is none. */
  readonly text: (id: string, version?: number) => Promise<string | null>;
  /** Numbers of the versions of one, ascending. */
  readonly versions: (id: string) => Promise<readonly number[]>;
  /** The same with the time at which each was saved, ISO 8601 in UTC; null where the disk no longer tells. */
  readonly saved: (
    id: string,
  ) => Promise<readonly { readonly version: number; readonly savedAt: string | null }[]>;
  /** Keeps a text as the next version. */
  readonly save: (id: string, text: string) => Promise<Saved>;
}

/** The machine files of a folder, which is made when the first is saved. */
export function openOwnMachines(folder: string): OwnMachines {
  const list = async (place: string): Promise<string[]> => {
    try {
      return await readdir(place);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return [];
      throw error;
    }
  };
  const ids = async () => (await list(folder)).filter((name) => ID.test(name)).sort();
  const versions = async (id: string) => {
    // The name is checked against the pattern first, so no path can be built out of the folder.
    if (!ID.test(id)) return [];
    const numbers = (await list(join(folder, id))).flatMap((name) => VERSION.exec(name)?.[1] ?? []);
    return numbers.map(Number).sort((a, b) => a - b);
  };
  const fileOf = (id: string, version: number) =>
    join(folder, id, `${String(version).padStart(4, '0')}.json`);
  const keepNext = async (id: string, text: string): Promise<Saved> => {
    await makeFolders(dirname(folder), folder, join(folder, id));
    const draft = join(folder, id, `draft-${process.pid}-${Math.round(performance.now() * 1000)}`);
    try {
      const file = await open(draft, 'wx');
      try {
        await file.writeFile(text, 'utf8');
        await file.sync();
      } finally {
        await file.close();
      }
      for (let version = ((await versions(id)).at(-1) ?? 0) + 1; version <= MOST_VERSIONS; version++) {
        try {
          // Fails where the number was taken meanwhile: two who save at once both keep theirs.
          await link(draft, fileOf(id, version));
          return { ok: true, version };
        } catch (error) {
          if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
        }
      }
      return { ok: false, why: `This machine has ${MOST_VERSIONS} versions; save it under another name.` };
    } finally {
      // Also after a disk that was full: the room it took is given back.
      await rm(draft, { force: true }).catch(() => undefined);
    }
  };
  return {
    ids,
    versions,
    saved: async (id) => {
      const told: { version: number; savedAt: string | null }[] = [];
      // A version is never written to again, so the disk's time of it is that of its saving.
      for (const version of await versions(id)) {
        const found = await stat(fileOf(id, version)).catch(() => null);
        told.push({ version, savedAt: found?.mtime.toISOString() ?? null });
      }
      return told;
    },
    text: async (id, version) => {
      const known = await versions(id);
      const wanted = version ?? known.at(-1);
      if (wanted === undefined || !known.includes(wanted)) return null;
      return readFile(fileOf(id, wanted), 'utf8');
    },
    save: async (id, text) => {
      if (!ID.test(id))
        return {
          ok: false,
          why: 'A machine is named by small letters, figures and hyphens, such as my-bike; choose another name.',
        };
      const known = await ids();
      if (!known.includes(id) && known.length >= MOST_MACHINES)
        return { ok: false, why: `There are ${MOST_MACHINES} machines already; this one was not kept.` };
      try {
        return await keepNext(id, text);
      } catch (error) {
        throw explainFile(folder, error, WORDS);
      }
    },
  };
}
