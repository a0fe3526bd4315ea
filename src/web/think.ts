/**
 * The wire between the screen and the worker that infers. The screen never waits: it asks, shows that it is
 * thinking, and takes the answer when it comes. Only one question of a kind is on its way at a time and only the
 * newest waits behind it; an answer to a question that is no longer asked is dropped.
 */
import type { ChargingSpec } from '../circuit/spec.ts';
import type { Answer, Evidence, SoundShows } from '../verdict/answer.ts';

export type Ask =
  | { readonly kind: 'open'; readonly bike: number; readonly spec: ChargingSpec }
  | { readonly kind: 'assess'; readonly bike: number; readonly id: number; readonly evidence: Evidence }
  | { readonly kind: 'sound'; readonly bike: number; readonly id: number; readonly key: string };

export type Reply =
  | { readonly kind: 'answer'; readonly bike: number; readonly id: number; readonly answer: Answer }
  | {
      readonly kind: 'shows';
      readonly bike: number;
      readonly id: number;
      readonly key: string;
      readonly shows: SoundShows;
    }
  | { readonly kind: 'failed'; readonly bike: number; readonly id: number | null; readonly why: string };

export interface Wire {
  readonly post: (ask: Ask) => void;
  readonly receive: (take: (reply: Reply) => void) => void;
}

export interface Thinker {
  /** Starts on a bike: what was asked about another one is dropped. */
  readonly open: (spec: ChargingSpec) => void;
  readonly assess: (evidence: Evidence) => void;
  readonly sound: (key: string) => void;
}

export interface Heard {
  /** An answer to the newest evidence. */
  readonly answer: (answer: Answer) => void;
  readonly shows: (key: string, shows: SoundShows) => void;
  readonly thinking: (busy: boolean) => void;
  readonly failed: (why: string) => void;
}

interface Slot<Q> {
  inFlight: { readonly id: number; readonly question: Q } | null;
  next: Q | null;
}

export function openThinker(wire: Wire, heard: Heard): Thinker {
  let bike = 0;
  let lastId = 0;
  let assessing: Slot<Evidence> = { inFlight: null, next: null };
  let sounding: Slot<string> = { inFlight: null, next: null };

  const tell = (): void => heard.thinking(assessing.inFlight !== null);
  const sendAssess = (evidence: Evidence): void => {
    lastId += 1;
    assessing.inFlight = { id: lastId, question: evidence };
    wire.post({ kind: 'assess', bike, id: lastId, evidence });
  };
  const sendSound = (key: string): void => {
    lastId += 1;
    sounding.inFlight = { id: lastId, question: key };
    wire.post({ kind: 'sound', bike, id: lastId, key });
  };
  const advance = <Q>(slot: Slot<Q>, send: (question: Q) => void): void => {
    slot.inFlight = null;
    const next = slot.next;
    slot.next = null;
    if (next !== null) send(next);
  };

  wire.receive((reply) => {
    if (reply.bike !== bike) return;
    if (reply.kind === 'answer' && reply.id === assessing.inFlight?.id) {
      const stale = assessing.next !== null;
      advance(assessing, sendAssess);
      if (!stale) heard.answer(reply.answer);
      tell();
    } else if (reply.kind === 'shows' && reply.id === sounding.inFlight?.id) {
      // A band is right for its key whenever it comes, so it is kept even when another was asked since.
      advance(sounding, sendSound);
      heard.shows(reply.key, reply.shows);
    } else if (reply.kind === 'failed') {
      if (reply.id === assessing.inFlight?.id) advance(assessing, sendAssess);
      else if (reply.id === sounding.inFlight?.id) advance(sounding, sendSound);
      heard.failed(reply.why);
      tell();
    }
  });

  return {
    open: (spec) => {
      bike += 1;
      assessing = { inFlight: null, next: null };
      sounding = { inFlight: null, next: null };
      wire.post({ kind: 'open', bike, spec });
      tell();
    },
    assess: (evidence) => {
      if (assessing.inFlight) assessing.next = evidence;
      else sendAssess(evidence);
      tell();
    },
    sound: (key) => {
      if (sounding.inFlight) sounding.next = key;
      else sendSound(key);
    },
  };
}
