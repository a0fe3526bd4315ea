/** A fault of the environment the store lives in, with a message meant for the mechanic. */
import { stateOfDisk } from './disk-state.ts';

export class StoreFault extends Error {
  /** The file at fault. */
  readonly file: string;

  constructor(file: string, message: string, cause?: unknown) {
    super(message, cause === undefined ? undefined : { cause });
    this.name = 'StoreFault';
    this.file = file;
  }
}

/** Appended wherever somebody could fear for the evening's work. */
export const UNTOUCHED = 'The file was left exactly as it is.';

/** Whether the store was being opened, or something was to be kept or read in one that is open. */
export type Doing = 'opening' | 'keeping';

/** Turns what SQLite or the file system threw into one sentence with file and remedy; anything else comes back as it is. */
export function explain(file: string, error: unknown, doing: Doing = 'keeping'): unknown {
  if (error instanceof StoreFault || !(error instanceof Error)) return error;
  const code = (error as { readonly code?: unknown }).code;
  const text = typeof code === 'string' ? sentence(file, code, doing) : null;
  return text === null ? error : new StoreFault(file, text, error);
}

/** What became of what was asked, and what to do once the disk is well. */
const LEFT: Readonly<Record<Doing, { readonly kept: string; readonly again: string }>> = {
  opening: { kept: 'the store cannot be opened', again: 'then start again' },
  keeping: {
    kept: 'this was not kept there',
    again: 'the app then sends again by itself what waits in it; a command is to be given again',
  },
};

const full = (file: string, { kept, again }: { kept: string; again: string }): string =>
  `There is no room left on the disk that holds ${file}; ${kept}. Free some space: ${again}.`;

const readOnly = (file: string, { kept, again }: { kept: string; again: string }): string =>
  `The store ${file} cannot be written: it, its folder or the whole disk is read-only; ${kept}. Allow writing there, or set CHARGEWRIGHT_HOME to a folder of your own: ${again}.`;

function sentence(file: string, code: string, doing: Doing): string | null {
  const left = LEFT[doing];
  if (code.startsWith('SQLITE_CORRUPT') || code === 'SQLITE_NOTADB') {
    return `The store ${file} is damaged. ${UNTOUCHED} Copy it (with its -wal file, if there is one) to a safe place, then put a backup in its place, or set CHARGEWRIGHT_HOME to another folder to start afresh.`;
  }
  if (code.startsWith('SQLITE_FULL') || code === 'ENOSPC' || code === 'EDQUOT') return full(file, left);
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED')) {
    return `Another program keeps the store ${file} locked. Close it, then try again.`;
  }
  if (code.startsWith('SQLITE_READONLY') || code === 'EROFS') return readOnly(file, left);
  const failed = code.startsWith('SQLITE_IOERR') || code === 'EIO';
  if (failed || code.startsWith('SQLITE_CANTOPEN')) {
    const disk = stateOfDisk(file);
    if (disk === 'full') return full(file, left);
    if (disk === 'read-only') return readOnly(file, left);
  }
  if (code.startsWith('SQLITE_CANTOPEN') || code === 'EACCES' || code === 'EPERM') {
    return `The store ${file} cannot be opened: this user may not read and write it, or not write in its folder. Allow that, or set CHARGEWRIGHT_HOME to a folder of your own.`;
  }
  if (code === 'ENOENT' || code === 'ENOTDIR') {
    return `The folder for the store ${file} does not exist. Make it, plug in the drive it is on, or set CHARGEWRIGHT_HOME to another folder.`;
  }
  if (code === 'EISDIR')
    return `${file} is a folder, but the store must be a file there. Move the folder away, or set CHARGEWRIGHT_HOME to another folder.`;
  if (failed) {
    return `The disk that holds ${file} reports a fault; ${left.kept}. Copy the file to another disk and set CHARGEWRIGHT_HOME to it.`;
  }
  return null;
}
