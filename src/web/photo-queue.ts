/**
 * Sends photographs that the laptop does not have yet, one after the other, as the outbox does with entries: each stays in
 * this browser until the laptop has acknowledged it, and sending one twice does no harm. One that is refused stays here too;
 * it is tried again at the next visit, or when the mechanic says so.
 */

/** What came of sending one. */
export type PhotoSent =
  | { readonly ok: true }
  | {
      readonly ok: false;
      readonly kind: 'unreachable' | 'refused';
      readonly why: string;
      /** The laptop answered, and `why` is its own word. */
      readonly said?: true;
    };

export interface PhotoPorts {
  /** Those that the laptop has yet to get, the oldest first. */
  readonly waiting: () => Promise<readonly string[]>;
  /** Its bytes; null when it is not here. */
  readonly bytes: (photo: string) => Promise<ArrayBuffer | null>;
  readonly send: (photo: string, bytes: ArrayBuffer) => Promise<PhotoSent>;
  /** The laptop has it. */
  readonly acknowledged: (photo: string) => Promise<void>;
  /** Called after every change: how many wait, and why those that were refused were. */
  readonly changed: (count: number, refused: ReadonlyMap<string, string>) => void;
  /** Called after each try: why the laptop can keep none now, in its own words; null where it can, or is silent. */
  readonly heldUp: (why: string | null) => void;
  /** Calls back after so many ms; returns a way to call it off. */
  readonly later: (act: () => void, ms: number) => () => void;
}

export interface PhotoQueue {
  /** Sends what waits, now; refused ones only when asked. */
  readonly flush: (again?: boolean) => Promise<void>;
}

/** Waits between tries while the laptop does not answer, ms. */
const BACKOFF_MS = [1000, 2000, 4000, 8000, 15_000, 30_000] as const;

export function openPhotoQueue(ports: PhotoPorts): PhotoQueue {
  const refused = new Map<string, string>();
  let sending: Promise<void> | null = null;
  let asked = false;
  let tries = 0;
  let callOff: (() => void) | null = null;

  const retryLater = (): void => {
    callOff?.();
    callOff = ports.later(
      () => {
        callOff = null;
        void flush();
      },
      BACKOFF_MS[Math.min(tries, BACKOFF_MS.length - 1)]!,
    );
    tries += 1;
  };

  /** False when the laptop did not answer. */
  const sendOne = async (photo: string): Promise<boolean> => {
    const bytes = await ports.bytes(photo);
    // Gone from this browser meanwhile: another window has seen to it.
    if (bytes === null) return true;
    const sent = await ports.send(photo, bytes);
    ports.heldUp(!sent.ok && sent.kind === 'unreachable' && sent.said ? sent.why : null);
    if (sent.ok) {
      await ports.acknowledged(photo);
      refused.delete(photo);
      return true;
    }
    if (sent.kind === 'refused') refused.set(photo, sent.why);
    return sent.kind === 'refused';
  };

  const sendAll = async (): Promise<void> => {
    const tried = new Set<string>();
    for (;;) {
      const all = await ports.waiting();
      ports.changed(all.length, refused);
      const next = all.find((photo) => !tried.has(photo) && !refused.has(photo));
      if (next === undefined) break;
      tried.add(next);
      if (!(await sendOne(next))) return retryLater();
    }
    tries = 0;
  };

  const flush = (again = false): Promise<void> => {
    if (again) refused.clear();
    if (sending) {
      // One that was kept after the last look would else wait for the next occasion.
      asked = true;
      return sending;
    }
    callOff?.();
    callOff = null;
    sending = sendAll()
      // A browser that cannot look into its own storage now may do so later.
      .catch(retryLater)
      .finally(() => {
        sending = null;
        if (!asked) return;
        asked = false;
        if (callOff === null) void flush();
      });
    return sending;
  };
  return { flush };
}
