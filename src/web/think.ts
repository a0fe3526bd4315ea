/**
 * The wire between the screen and the worker that infers. The screen never waits: it asks, shows that it is
 * thinking, and takes the answer when it comes. Only one question of a kind is on its way at a time and only the
 * newest waits behind it; an answer to a question that is no longer asked is dropped.
 */
import type { ChargingSpec } from '../circuit/spec.ts';
import type { FaultId } from '../fault/catalogue.ts';
import type { OwnPrior } from '../job/fold.ts';
import type { Answer, Evidence, SoundShows } from '../verdict/answer.ts';
import type { Explanation } from '../verdict/explanation.ts';

export type Chances = ReadonlyMap<FaultId, number>;

export type Ask =
  | {
      readonly kind: 'open';
      readonly bike: number;
      readonly spec: ChargingSpec;
      /** Chances that this job sets instead of the catalogue's. */
      readonly own: readonly OwnPrior[];
    }
  | { readonly kind: 'assess'; readonly bike: number; readonly id: number; readonly evidence: Evidence }
  | { readonly kind: 'explain'; readonly bike: number; readonly id: number; readonly evidence: Evidence }
  | { readonly kind: 'sound'; readonly bike: number; readonly id: number; readonly key: string };

export type Reply =
  /** What each fault's chance comes to before any reading, and what it is by the catalogue alone. */
  | { readonly kind: 'opened'; readonly bike: number; readonly chances: Chances; readonly catalogue: Chances }
  | {
      readonly kind: 'explained';
      readonly bike: number;
      readonly id: number;
      readonly explanation: Explanation;
    }
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
  readonly open: (spec: ChargingSpec, own: readonly OwnPrior[]) => void;
  readonly assess: (evidence: Evidence) => void;
  /** Why: slower than an answer, so only for somebody who looks. */
  readonly explain: (evidence: Evidence) => void;
  readonly sound: (key: string) => void;
}

export interface Heard {
  readonly opened: (chances: Chances, catalogue: Chances) => void;
  /** An answer to the newest evidence, and the evidence. */
  readonly answer: (answer: Answer, evidence: Evidence) => void;
  /** The reasons on the newest evidence that was asked about, and that evidence. */
  readonly explained: (explanation: Explanation, evidence: Evidence) => void;
  readonly shows: (key: string, shows: SoundShows) => void;
  readonly thinking: (busy: boolean) => void;
  readonly failed: (why: string) => void;
}

interface Slot<Q> {
  inFlight: { readonly id: number; readonly question: Q } | null;
  next: Q | null;
}

/** One question on its way, the newest behind it. */
export function openSlot<Q>(send: (id: number, question: Q) => void, nextId: () => number) {
  let slot: Slot<Q> = { inFlight: null, next: null };
  const post = (question: Q): void => {
    slot.inFlight = { id: nextId(), question };
    send(slot.inFlight.id, question);
  };
  return {
    ask: (question: Q): void => {
      if (slot.inFlight) slot.next = question;
      else post(question);
    },
    /** The question that a reply answers, and whether a newer one waited; null when it is not this slot's. */
    settle: (id: number | null): { readonly question: Q; readonly stale: boolean } | null => {
      const answered = slot.inFlight;
      if (answered === null || id !== answered.id) return null;
      const next = slot.next;
      slot = { inFlight: null, next: null };
      if (next !== null) post(next);
      return { question: answered.question, stale: next !== null };
    },
    busy: (): boolean => slot.inFlight !== null,
    clear: (): void => {
      slot = { inFlight: null, next: null };
    },
  };
}

export function openThinker(wire: Wire, heard: Heard): Thinker {
  let bike = 0;
  let lastId = 0;
  const nextId = (): number => {
    lastId += 1;
    return lastId;
  };
  const assessing = openSlot<Evidence>(
    (id, evidence) => wire.post({ kind: 'assess', bike, id, evidence }),
    nextId,
  );
  const explaining = openSlot<Evidence>(
    (id, evidence) => wire.post({ kind: 'explain', bike, id, evidence }),
    nextId,
  );
  const sounding = openSlot<string>((id, key) => wire.post({ kind: 'sound', bike, id, key }), nextId);
  const slots = [assessing, explaining, sounding];
  const tell = (): void => heard.thinking(assessing.busy());

  wire.receive((reply) => {
    if (reply.bike !== bike) return;
    switch (reply.kind) {
      case 'opened':
        heard.opened(reply.chances, reply.catalogue);
        break;
      case 'answer': {
        const settled = assessing.settle(reply.id);
        if (settled && !settled.stale) heard.answer(reply.answer, settled.question);
        if (settled) tell();
        break;
      }
      case 'explained': {
        const settled = explaining.settle(reply.id);
        if (settled && !settled.stale) heard.explained(reply.explanation, settled.question);
        break;
      }
      case 'shows':
        // A band is right for its key whenever it comes, so it is kept even when another was asked since.
        if (sounding.settle(reply.id)) heard.shows(reply.key, reply.shows);
        break;
      case 'failed':
        for (const slot of slots) slot.settle(reply.id);
        heard.failed(reply.why);
        tell();
        break;
    }
  });

  return {
    open: (spec, own) => {
      bike += 1;
      for (const slot of slots) slot.clear();
      wire.post({ kind: 'open', bike, spec, own });
      tell();
    },
    assess: (evidence) => {
      assessing.ask(evidence);
      tell();
    },
    explain: explaining.ask,
    sound: sounding.ask,
  };
}
