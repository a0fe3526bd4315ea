/**
 * Entries that the laptop does not have yet. Each is kept on the shelf (the browser's own storage) under its event
 * id from the moment it is made, and leaves the shelf only when the server has acknowledged that id. A dead server,
 * a reload or a closed lid therefore loses nothing; sending the same entry twice does no harm, since the server
 * keeps one per id. An entry that the server refuses stays too, with its reason, until the mechanic drops it.
 */

/** The part of the browser's storage that the outbox needs. */
export interface Shelf {
  readonly keys: () => readonly string[];
  readonly get: (key: string) => string | null;
  readonly set: (key: string, text: string) => void;
  readonly remove: (key: string) => void;
}

/** Anything with an id that sorts by time. */
export interface Entry {
  readonly id: string;
}

export interface Waiting<E extends Entry> {
  readonly job: string;
  readonly event: E;
  /** Why the server will not have it, in words; null while it has not refused. */
  readonly refused: string | null;
  /** Not sent before this time, ms since 1970: until then the mechanic can take it back as if it never was. */
  readonly notBefore: number;
}

/** What came of sending some entries of one job. */
export type Sent =
  | { readonly ok: true; readonly acknowledged: readonly string[] }
  /** `why` is what the laptop says of itself where it answers and cannot keep anything now; null where it is silent. */
  | { readonly ok: false; readonly kind: 'unreachable'; readonly why: string | null }
  | { readonly ok: false; readonly kind: 'refused'; readonly why: string };

export interface Ports<E extends Entry> {
  readonly shelf: Shelf;
  readonly send: (job: string, events: readonly E[]) => Promise<Sent>;
  /** Called after every change of what waits. */
  readonly changed: (waiting: readonly Waiting<E>[]) => void;
  /** Called with the entries that the server now has. */
  readonly acknowledged: (job: string, events: readonly E[]) => void;
  /** Called after each try: why the laptop cannot keep anything now, in its own words; null where it can, or is silent. */
  readonly heldUp: (why: string | null) => void;
  /** What the clock says, ms since 1970. */
  readonly now: () => number;
  /** Calls back after so many ms; returns a way to call it off. */
  readonly later: (act: () => void, ms: number) => () => void;
}

export interface Outbox<E extends Entry> {
  /** Keeps an entry and sends it, after `holdMs` where it can still be taken back. False when the browser could not store it: it is then held in memory only. */
  readonly put: (job: string, event: E, holdMs?: number) => boolean;
  readonly waiting: () => readonly Waiting<E>[];
  /** Sends what waits, now. Refused entries are tried again only when asked. */
  readonly flush: (again?: boolean) => Promise<void>;
  /** Forgets one entry for good, only on the mechanic's word; false when it is not here any more (it went out). */
  readonly drop: (id: string) => boolean;
  /** Reads the shelf again: another window may have changed it. */
  readonly reread: () => void;
}

const PREFIX = 'chargewright.outbox.';
/** Waits between tries while the server does not answer, ms. */
const BACKOFF_MS = [1000, 2000, 4000, 8000, 15000] as const;

function readShelf<E extends Entry>(shelf: Shelf): Map<string, Waiting<E>> {
  const found = new Map<string, Waiting<E>>();
  for (const key of shelf.keys()) {
    if (!key.startsWith(PREFIX)) continue;
    try {
      const waiting = JSON.parse(shelf.get(key) ?? '') as Waiting<E>;
      if (typeof waiting.job === 'string' && typeof waiting.event?.id === 'string') {
        found.set(waiting.event.id, { ...waiting, notBefore: waiting.notBefore ?? 0 });
      }
    } catch {
      // Not ours or cut short by a crash: leave it where it is, never delete what cannot be read.
    }
  }
  return found;
}

export function openOutbox<E extends Entry>(ports: Ports<E>): Outbox<E> {
  let held = readShelf<E>(ports.shelf);
  /** Entries that could not be stored; they live as long as the page. */
  const memoryOnly = new Map<string, Waiting<E>>();
  let sending: Promise<void> | null = null;
  let tries = 0;
  let callOff: (() => void) | null = null;

  const list = (): readonly Waiting<E>[] =>
    [...held.values(), ...memoryOnly.values()].sort((a, b) => (a.event.id < b.event.id ? -1 : 1));
  const tell = (): void => ports.changed(list());

  const keep = (waiting: Waiting<E>): boolean => {
    try {
      ports.shelf.set(PREFIX + waiting.event.id, JSON.stringify(waiting));
      held.set(waiting.event.id, waiting);
      memoryOnly.delete(waiting.event.id);
      return true;
    } catch {
      memoryOnly.set(waiting.event.id, waiting);
      return false;
    }
  };
  const forget = (id: string): void => {
    ports.shelf.remove(PREFIX + id);
    held.delete(id);
    memoryOnly.delete(id);
  };

  const flushIn = (wait: number): void => {
    callOff?.();
    callOff = ports.later(() => {
      callOff = null;
      void flush();
    }, wait);
  };
  const retryLater = (): void => {
    flushIn(BACKOFF_MS[Math.min(tries, BACKOFF_MS.length - 1)] ?? 15000);
    tries += 1;
  };

  /** Sends one batch; a refused batch is sent again one by one, so that one bad entry does not hold up the rest. */
  const sendBatch = async (job: string, batch: readonly Waiting<E>[]): Promise<boolean> => {
    const sent = await ports.send(
      job,
      batch.map((waiting) => waiting.event),
    );
    ports.heldUp(sent.ok || sent.kind === 'refused' ? null : sent.why);
    if (sent.ok) {
      const got = new Set(sent.acknowledged);
      const events = batch.map((waiting) => waiting.event).filter((event) => got.has(event.id));
      // First into the job, then off the shelf: at no moment is an entry in neither.
      ports.acknowledged(job, events);
      for (const event of events) forget(event.id);
      tell();
      return events.length === batch.length;
    }
    if (sent.kind === 'unreachable') return false;
    if (batch.length > 1) {
      for (const waiting of batch) if (!(await sendBatch(job, [waiting]))) return false;
      return true;
    }
    for (const waiting of batch) keep({ ...waiting, refused: sent.why });
    tell();
    return true;
  };

  const sendAll = async (again: boolean): Promise<void> => {
    const asked = new Set<string>();
    for (;;) {
      const now = ports.now();
      const open = list().filter(
        (w) => !asked.has(w.event.id) && w.notBefore <= now && (again || w.refused === null),
      );
      const job = open[0]?.job;
      if (job === undefined) break;
      const batch = open.filter((waiting) => waiting.job === job).slice(0, 100);
      for (const waiting of batch) asked.add(waiting.event.id);
      if (!(await sendBatch(job, batch))) {
        retryLater();
        return;
      }
    }
    tries = 0;
    const later = list().filter((waiting) => waiting.notBefore > ports.now());
    if (later.length > 0) flushIn(Math.min(...later.map((waiting) => waiting.notBefore)) - ports.now() + 1);
  };

  const flush = (again = false): Promise<void> => {
    if (sending) return sending;
    callOff?.();
    callOff = null;
    sending = sendAll(again).finally(() => {
      sending = null;
    });
    return sending;
  };

  return {
    put: (job, event, holdMs = 0) => {
      const stored = keep({ job, event, refused: null, notBefore: holdMs > 0 ? ports.now() + holdMs : 0 });
      tell();
      // An entry made while others are on their way waits for them, then goes.
      void (sending ?? Promise.resolve()).then(() => flush());
      return stored;
    },
    waiting: list,
    flush,
    drop: (id) => {
      const here = held.has(id) || memoryOnly.has(id);
      forget(id);
      if (here) tell();
      return here;
    },
    reread: () => {
      held = readShelf<E>(ports.shelf);
      tell();
    },
  };
}
