/**
 * Listening to the laptop over a network that may fall silent: the connection stands, and nothing comes over it any more, as
 * after a walk out of reach or a router that forgot it. No browser notices that of a stream, so the laptop sends a breath
 * now and then (`src/serve/stream.ts`), and where none comes the page listens anew, as often as it takes.
 */

/** The part of the browser's EventSource that is needed. */
export interface Source {
  readonly addEventListener: (type: string, hear: (event: MessageEvent<string>) => void) => void;
  readonly readyState: number;
  readonly close: () => void;
}

export interface ListeningPorts {
  readonly open: () => Source;
  /** Rows that came, as JSON. */
  readonly took: (data: string) => void;
  /** Nothing was heard for too long: what else was asked may be lost as well. It is listened anew once this is done. */
  readonly silent: () => Promise<unknown>;
  /** Calls back after so many ms; returns a way to call it off. */
  readonly later: (act: () => void, ms: number) => () => void;
  /** What the clock says, ms since 1970: it goes on while the device sleeps. */
  readonly now: () => number;
}

export interface Listening {
  /** Looks at once whether something was heard of late: a device that wakes up need not wait. */
  readonly look: () => void;
  readonly end: () => void;
}

/** Without a sign for so long the connection is given up, ms: two breaths of the laptop and a little. */
export const SILENT_MS = 12_000;
const LOOK_MS = 2000;
/** What the laptop may send: the first word, rows, a breath. */
const WORDS = ['open', 'events', 'breath'] as const;
const CLOSED = 2;

export function listen({ open, took, silent, later, now }: ListeningPorts): Listening {
  let heard = now();
  let callOff: () => void = () => undefined;
  const connect = (): Source => {
    heard = now();
    const made = open();
    for (const word of WORDS)
      made.addEventListener(word, ({ data }) => {
        if (made !== source) return;
        heard = now();
        if (word === 'events') took(data);
      });
    return made;
  };
  let source = connect();
  let ended = false;
  let waking = false;
  const again = (): void => {
    waking = false;
    if (!ended) source = connect();
  };
  const look = (): void => {
    callOff();
    // A stream that was refused (too many listen, not let in) is closed for good: the same remedy.
    if (!waking && now() - heard > SILENT_MS) {
      const refused = source.readyState === CLOSED;
      source.close();
      waking = true;
      if (refused) again();
      else void silent().then(again, again);
    }
    callOff = later(look, LOOK_MS);
  };
  callOff = later(look, LOOK_MS);
  return {
    look,
    end: () => {
      ended = true;
      callOff();
      source.close();
    },
  };
}
