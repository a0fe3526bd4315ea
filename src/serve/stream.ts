/**
 * The live second device: one answer that never ends and tells a page each event of its job the moment it is kept
 * (server-sent events, HTML Living Standard §9.2). The id of a message is the place it reaches, so a page whose
 * connection broke says where it stopped and misses nothing.
 *
 * Events written by this program are told at once; those written beside it into the same store (the command line) are
 * found by looking, every LOOK_MS.
 */
import type { Context } from 'hono';
import { streamSSE } from 'hono/streaming';
import type { JobStore } from '../log/store.ts';

/** How often the store is looked at for what another program wrote, ms. */
const LOOK_MS = 1500;
/**
 * A line now and then keeps what lies between from closing a quiet connection, and tells the page that the connection is
 * alive: it gives it up after a little over two of them (`src/web/listening.ts`), ms.
 */
const BREATH_MS = 5000;
/** How many pages may listen at once, count: each holds a connection. */
export const LISTENERS = 64;

export interface Hub {
  /** Tells those who listen to a job that something was kept. */
  readonly kept: (job: string) => void;
  readonly listen: (c: Context, job: string, since: number) => Response;
  /** Ends every answer: a server that stops must not wait for pages that never leave. */
  readonly close: () => void;
}

export function openHub(store: JobStore): Hub {
  const wakes = new Map<string, Set<() => void>>();
  const ends = new Set<() => void>();
  let closed = false;

  const listen = (c: Context, job: string, since: number): Response => {
    if (closed || ends.size >= LISTENERS)
      return c.json({ error: 'Too many pages listen to this laptop at once; close some of them.' }, 503);
    return streamSSE(c, async (stream) => {
      let last = since;
      let over = false;
      let again = false;
      let wake: () => void = () => undefined;
      const rung = (): void => {
        again = true;
        wake();
      };
      const end = (): void => {
        over = true;
        wake();
      };
      const own = wakes.get(job) ?? new Set();
      wakes.set(job, own.add(rung));
      ends.add(end);
      stream.onAbort(end);
      let breath = Date.now();
      await stream.writeSSE({ event: 'open', data: '', id: String(last) });
      try {
        while (!over) {
          again = false;
          const rows = await store.since(job, last);
          if (rows.length > 0) {
            last = rows.at(-1)!.seq;
            await stream.writeSSE({ event: 'events', data: JSON.stringify(rows), id: String(last) });
            breath = Date.now();
            continue;
          }
          if (Date.now() - breath > BREATH_MS) {
            breath = Date.now();
            await stream.writeSSE({ event: 'breath', data: '' });
          }
          // Rung while the store was read: what was kept then may not be among the rows.
          if (again) continue;
          await new Promise<void>((done) => {
            const timer = setTimeout(done, LOOK_MS);
            wake = () => {
              clearTimeout(timer);
              done();
            };
          });
        }
      } finally {
        own.delete(rung);
        ends.delete(end);
        if (own.size === 0) wakes.delete(job);
      }
    });
  };
  return {
    kept: (job) => {
      for (const rung of [...(wakes.get(job) ?? [])]) rung();
    },
    listen,
    close: () => {
      closed = true;
      for (const end of [...ends]) end();
    },
  };
}
