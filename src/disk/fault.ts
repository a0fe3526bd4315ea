/** A fault of the environment the store lives in, with a message meant for the mechanic. */

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

/** Turns what SQLite or the file system threw into one sentence with file and remedy; anything else comes back as it is. */
export function explain(file: string, error: unknown): unknown {
  if (error instanceof StoreFault || !(error instanceof Error)) return error;
  const code = (error as { readonly code?: unknown }).code;
  const text = typeof code === 'string' ? sentence(file, code) : null;
  return text === null ? error : new StoreFault(file, text, error);
}

function sentence(file: string, code: string): string | null {
  if (code.startsWith('SQLITE_CORRUPT') || code === 'SQLITE_NOTADB') {
    return `The store ${file} is damaged. ${UNTOUCHED} Copy it (with its -wal file, if there is one) to a safe place, then put a backup in its place, or set CHARGEWRIGHT_HOME to another folder to start afresh.`;
  }
  if (code.startsWith('SQLITE_FULL') || code === 'ENOSPC') {
    return `There is no room left on the disk that holds ${file}; the last entry was not kept. Free some space and enter it again.`;
  }
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED')) {
    return `Another program keeps the store ${file} locked. Close it, then try again.`;
  }
  if (code.startsWith('SQLITE_READONLY') || code === 'EROFS') {
    return `The store ${file} cannot be written: it, or its folder, is read-only. Allow writing there, or set CHARGEWRIGHT_HOME to a folder of your own.`;
  }
  if (code.startsWith('SQLITE_CANTOPEN') || code === 'EACCES' || code === 'EPERM') {
    return `The store ${file} cannot be opened: this user may not read and write it, or not write in its folder. Allow that, or set CHARGEWRIGHT_HOME to a folder of your own.`;
  }
  if (code === 'ENOENT' || code === 'ENOTDIR') {
    return `The folder for the store ${file} does not exist. Make it, plug in the drive it is on, or set CHARGEWRIGHT_HOME to another folder.`;
  }
  if (code === 'EISDIR')
    return `${file} is a folder, but the store must be a file there. Move the folder away, or set CHARGEWRIGHT_HOME to another folder.`;
  if (code.startsWith('SQLITE_IOERR') || code === 'EIO') {
    return `The disk that holds ${file} reports a fault; the last entry was not kept. Copy the file to another disk and set CHARGEWRIGHT_HOME to it.`;
  }
  return null;
}
