/**
 * Opens the store's file so that what it promises holds, or says in one sentence why it will not. A file that is not
 * plainly ours and sound is never written to: its header is read with plain file reads first, since opening alone
 * could already replay or fold in a journal.
 */
import { closeSync, mkdirSync, openSync, readSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'better-sqlite3';
import { explain, StoreFault, UNTOUCHED } from './fault.ts';
import { APPLICATION_ID, migrate, VERSION, versionOf } from './schema.ts';

/** How long a call waits for another program's write, ms. */
const PATIENCE_MS = 5000;
const MAGIC = 'SQLite format 3\0';
const FULL = 2;

/**
 * Opens or creates the store. The file's own folder is made when only that one is missing; a missing parent is an
 * error, since it mostly means a drive that is not plugged in.
 * Throws StoreFault with a message for the mechanic.
 */
export function openFile(file: string): Database.Database {
  let db: Database.Database | null = null;
  try {
    const existing = examine(file);
    if (!existing) makeFolder(dirname(file));
    db = new Database(file, { timeout: PATIENCE_MS });
    if (existing) checkWhole(db, file);
    else claim(db);
    promise(db, file);
    migrate(db);
    return db;
  } catch (error) {
    db?.close();
    throw explain(file, error, 'opening');
  }
}

/** Whether there is a store to open; throws when there is a file that is not one. */
function examine(file: string): boolean {
  const header = Buffer.alloc(100);
  let length: number;
  try {
    if (statSync(file).isDirectory()) throw Object.assign(new Error('is a folder'), { code: 'EISDIR' });
    // For writing too, though only read: SQLite would open a read-only file and object at the first event.
    const handle = openSync(file, 'r+');
    try {
      length = readSync(handle, header, 0, 100, 0);
    } finally {
      closeSync(handle);
    }
  } catch (error) {
    if ((error as { readonly code?: unknown }).code === 'ENOENT') return false;
    throw error;
  }
  // SQLite itself leaves an empty file behind when it is killed between creating and writing.
  if (length === 0) return false;
  if (header.toString('latin1', 0, 16) !== MAGIC || length < 100) {
    throw new StoreFault(
      file,
      `${file} is not a Chargewright store, or its beginning is damaged. ${UNTOUCHED} Move it away, put a backup in its place, or set CHARGEWRIGHT_HOME to another folder.`,
    );
  }
  if (header.readUInt32BE(68) !== APPLICATION_ID) {
    throw new StoreFault(
      file,
      `${file} is a database of another program. ${UNTOUCHED} Move it away, or set CHARGEWRIGHT_HOME to another folder.`,
    );
  }
  return true;
}

function makeFolder(folder: string): void {
  try {
    mkdirSync(folder);
  } catch (error) {
    if ((error as { readonly code?: unknown }).code !== 'EEXIST') throw error;
  }
}

/** Marks a new file as ours. Before WAL, so that the mark is in the header itself and not in a journal beside it. */
function claim(db: Database.Database): void {
  db.pragma(`application_id = ${APPLICATION_ID}`);
}

function checkWhole(db: Database.Database, file: string): void {
  const version = versionOf(db);
  if (version > VERSION) {
    throw new StoreFault(
      file,
      `The store ${file} was written by a later version of Chargewright (its tables are version ${version}, this program knows up to ${VERSION}). ${UNTOUCHED} Update Chargewright, or set CHARGEWRIGHT_HOME to another folder.`,
    );
  }
  const report = db.pragma('integrity_check(1)', { simple: true });
  if (report !== 'ok') throw Object.assign(new Error(String(report)), { code: 'SQLITE_CORRUPT' });
}

/**
 * Sets what rule 5 needs and reads it back (rule 12). The flush after WAL, and always: a file that is in WAL opens
 * with `synchronous = NORMAL` in this build of SQLite, which loses the last entries with the power.
 */
function promise(db: Database.Database, file: string): void {
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  // Only macOS has a flush that stops in the drive's cache; elsewhere these two change nothing.
  db.pragma('fullfsync = ON');
  db.pragma('checkpoint_fullfsync = ON');
  const mode = db.pragma('journal_mode', { simple: true });
  const flush = db.pragma('synchronous', { simple: true });
  if (mode !== 'wal' || flush !== FULL) {
    throw new StoreFault(
      file,
      `The store ${file} cannot promise to keep what it is given (journal ${String(mode)}, flush ${String(flush)}; needed are wal and ${FULL}). Put it on a local disk: set CHARGEWRIGHT_HOME to a folder there.`,
    );
  }
}
