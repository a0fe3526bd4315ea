/**
 * Photographs in this browser: those taken here until the laptop has acknowledged them, and of the others, taken here or seen, the
 * last fifty megabytes, so that they show with the laptop switched off. Beside the browser's store of events, in a
 * database of its own: a full one must not keep an event from being written.
 */
import { type DBSchema, type IDBPTransaction, openDB } from 'idb';
import { givingWay, reopening } from './reopening.ts';

/** A picture's line: what is known of it without taking up its bytes. */
interface Line {
  readonly photo: string;
  /** Length of its bytes. */
  readonly size: number;
  /** When it was kept here, ms since 1970. */
  readonly keptAt: number;
  /** 1 while the laptop has not acknowledged it: an index knows no truth values. */
  readonly waiting: 0 | 1;
}

interface Tables extends DBSchema {
  line: { key: string; value: Line; indexes: { waiting: number } };
  bytes: { key: string; value: ArrayBuffer };
}

export interface PhotoStore {
  /** Keeps one; `waiting` for one that the laptop has yet to get. One that waits already goes on waiting. */
  readonly keep: (photo: string, bytes: ArrayBuffer, waiting: boolean, now: number) => Promise<void>;
  /** Its bytes and whether it waits; null when it is not here. */
  readonly find: (
    photo: string,
  ) => Promise<{ readonly bytes: ArrayBuffer; readonly waiting: boolean } | null>;
  /** Those that the laptop has yet to get, the oldest first. */
  readonly waiting: () => Promise<readonly string[]>;
  /** Says whether the laptop has yet to get one; of one that is not here nothing is said. */
  readonly setWaiting: (photo: string, waiting: boolean) => Promise<void>;
  readonly close: () => Promise<void>;
}

/** How much is kept beside what waits, bytes. */
const ROOM = 50_000_000;

/** Opens the photographs. Nothing is opened until the first call; a browser without storage makes that call fail. */
export function openPhotoStore(name: string, room: number = ROOM): PhotoStore {
  const { use, close } = reopening<Tables>((lost) =>
    openDB<Tables>(name, 1, {
      upgrade: (db) => {
        db.createObjectStore('line', { keyPath: 'photo' }).createIndex('waiting', 'waiting');
        db.createObjectStore('bytes');
      },
      ...givingWay(lost),
    }),
  );
  return {
    keep: (photo, bytes, waiting, now) =>
      use(async (db) => {
        // Strict: kept means flushed, as far as the browser honours it.
        const tx = db.transaction(['line', 'bytes'], 'readwrite', { durability: 'strict' });
        const before = await tx.objectStore('line').get(photo);
        const waits = waiting || before?.waiting === 1 ? 1 : 0;
        await tx.objectStore('bytes').put(bytes, photo);
        await tx.objectStore('line').put({ photo, size: bytes.byteLength, keptAt: now, waiting: waits });
        await makeRoom(tx, room);
        await tx.done;
      }),
    find: (photo) =>
      use(async (db) => {
        const tx = db.transaction(['line', 'bytes']);
        const [line, bytes] = await Promise.all([
          tx.objectStore('line').get(photo),
          tx.objectStore('bytes').get(photo),
        ]);
        return line && bytes ? { bytes, waiting: line.waiting === 1 } : null;
      }),
    waiting: () =>
      use(async (db) => {
        const lines = await db.getAllFromIndex('line', 'waiting', 1);
        return lines.sort((a, b) => a.keptAt - b.keptAt).map(({ photo }) => photo);
      }),
    setWaiting: (photo, waiting) =>
      use(async (db) => {
        const tx = db.transaction(['line', 'bytes'], 'readwrite', { durability: 'strict' });
        const line = await tx.objectStore('line').get(photo);
        if (line) await tx.objectStore('line').put({ ...line, waiting: waiting ? 1 : 0 });
        await makeRoom(tx, room);
        await tx.done;
      }),
    close,
  };
}

/** Lets the oldest go that the laptop has, until the others fit. */
async function makeRoom(
  tx: IDBPTransaction<Tables, ('line' | 'bytes')[], 'readwrite'>,
  room: number,
): Promise<void> {
  const lines = await tx.objectStore('line').index('waiting').getAll(0);
  let left = room;
  for (const { photo, size } of lines.sort((a, b) => b.keptAt - a.keptAt)) {
    left -= size;
    if (left >= 0) continue;
    await tx.objectStore('line').delete(photo);
    await tx.objectStore('bytes').delete(photo);
  }
}
