/** What the job's events say of the repaired bike: the last round of repairs, and all that was read and seen since. */
import type { FaultSet } from '../verdict/answer.ts';
import type { ChanceLeft, EventOf, JobEvent } from './event.ts';
import { foldReadings, type Reading, type Withdrawn } from './readings-fold.ts';

/** A round of repairs. */
export interface Made {
  /** Id of the `repairsMade` event. */
  readonly event: string;
  readonly repairs: readonly string[];
  readonly left: readonly ChanceLeft[];
  readonly noneOfThese: number;
  readonly at: string;
  readonly who: string;
}

/** A look at the repaired bike that no meter takes. */
export interface Looked {
  readonly event: string;
  readonly check: string;
  readonly ok: boolean;
  readonly words: string;
  readonly at: string;
  readonly who: string;
}

/** What was said of the proof in the end. */
export interface Said {
  readonly event: string;
  readonly proven: boolean;
  readonly faultLeft: number;
  readonly sets: readonly FaultSet[];
  readonly why: string;
  readonly at: string;
  readonly who: string;
  /** How many readings and looks came after it: above 0 it rests on less than is known now. */
  readonly changesSince: number;
}

export interface ProofState {
  /** The last round; null while nothing was said to be repaired. */
  readonly made: Made | null;
  /** Rounds before the last, oldest first: the bike was repaired, read, and repaired again. */
  readonly before: readonly { readonly made: Made; readonly readings: readonly Reading[] }[];
  /** Of the last round. */
  readonly readings: readonly Reading[];
  readonly withdrawn: readonly Withdrawn[];
  /** The last look of each kind in the last round. */
  readonly looks: readonly Looked[];
  /** What was said last of the last round; null when nothing was. */
  readonly said: Said | null;
}

/** `ordered` is in the order of ids, without repeats. */
export function foldProof(ordered: readonly JobEvent[]): ProofState {
  const rounds = ordered.filter((event) => event.type === 'repairsMade').map(madeOf);
  const made = rounds.at(-1) ?? null;
  const before = rounds
    .slice(0, -1)
    .map((round) => ({ made: round, readings: foldReadings(ordered, round.event).readings }));
  if (made === null) return { made, before, readings: [], withdrawn: [], looks: [], said: null };
  const { readings, withdrawn, takes } = foldReadings(ordered, made.event);
  const looks = new Map<string, Looked>();
  let said: EventOf<'proofSaid'> | null = null;
  for (const event of ordered) {
    if (event.type === 'proofLooked' && event.after === made.event) {
      const { id, check, ok, words, at, who } = event;
      looks.delete(check);
      looks.set(check, { event: id, check, ok, words, at, who });
    }
    if (event.type === 'proofSaid' && event.after === made.event) said = event;
  }
  return {
    made,
    before,
    readings,
    withdrawn,
    looks: [...looks.values()],
    said: said && saidOf(said, ordered, takes),
  };
}

function madeOf({ id, repairs, left, noneOfThese, at, who }: EventOf<'repairsMade'>): Made {
  return { event: id, repairs, left, noneOfThese, at, who };
}

function saidOf(event: EventOf<'proofSaid'>, ordered: readonly JobEvent[], takes: ReadonlySet<string>): Said {
  const { id, proven, faultLeft, sets, why, at, who, after } = event;
  const later = ordered.filter((other) => {
    if (other.id <= id) return false;
    if (other.type === 'readingTaken') return takes.has(other.id);
    if (other.type === 'readingWithdrawn' || other.type === 'readingPicked') return takes.has(other.event);
    return other.type === 'proofLooked' && other.after === after;
  });
  return { event: id, proven, faultLeft, sets, why, at, who, changesSince: later.length };
}
