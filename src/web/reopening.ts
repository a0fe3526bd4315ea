/**
 * A database of the browser that is opened when it is first needed, and anew when the browser closed it: Safari does so under
 * a page that slept ("connection is lost"), and a page gives way by itself to another window with newer tables.
 */
import type { DBSchema, IDBPDatabase } from 'idb';

export interface Reopening<T extends DBSchema> {
  /** Does something with the database; where the connection was closed, opens it anew and tries once more. */
  readonly use: <R>(work: (db: IDBPDatabase<T>) => Promise<R>) => Promise<R>;
  readonly close: () => Promise<void>;
}

/** `open` gets what to call when the connection is lost. Nothing is opened until the first use. */
export function reopening<T extends DBSchema>(
  open: (lost: () => void) => Promise<IDBPDatabase<T>>,
): Reopening<T> {
  let opened: Promise<IDBPDatabase<T>> | null = null;
  let closed = false;
  const forget = (): void => {
    opened = null;
  };
  return {
    use: async (work) => {
      if (closed) throw new Error('the store is closed');
      opened ??= open(forget);
      try {
        return await work(await opened);
      } catch (error) {
        if (!(error instanceof DOMException) || error.name !== 'InvalidStateError') {
          if (opened) await opened.catch(forget);
          throw error;
        }
        opened = open(forget);
        return work(await opened);
      }
    },
    close: async () => {
      closed = true;
      const db = await opened?.catch(() => null);
      db?.close();
    },
  };
}

/** What a connection does when another window brings newer tables, or the browser ends it. */
export function givingWay(lost: () => void) {
  return {
    blocking: (_current: number, _blocked: number | null, event: IDBVersionChangeEvent): void => {
      (event.target as IDBDatabase).close();
      lost();
    },
    terminated: lost,
  };
}
