/** How the proof stands: proven, not proven, or what is still wanting; and in words why. */
import { FAULTS } from '../fault/faults.ts';
import { REPAIRS } from '../fault/repairs.ts';
import type { ProofState } from '../job/proof-fold.ts';
import { PROVEN } from '../verdict/after-repair.ts';
import type { Left, Proof } from '../verdict/prove.ts';
import { inHundred } from '../verdict/say-chance.ts';
import type { Look, LookId } from './looks.ts';

export interface Standing {
  readonly is: 'proven' | 'open' | 'not-proven';
  /** Whole sentences: what speaks against it, or what is still wanting; empty where it is proven. */
  readonly why: readonly string[];
  /** Looks not taken yet. */
  readonly toLook: readonly LookId[];
}

/** A fault that is left at this chance is worth a sentence, 0–1. */
const TOLD = 0.01;
/** Faults told one by one. */
const MOST_TOLD = 4;

/** A fault that may be left, told with what it means after these repairs. */
export function sayLeft({ fault, repair, probability }: Left, made: readonly string[]): string {
  const again = made.includes(repair)
    ? `; ${REPAIRS[repair].title.toLowerCase()} was done: the part or its fitting`
    : '';
  return `${FAULTS[fault].title}, ${inHundred(probability)}${again}`;
}

/** Where the proof stands on all that was read and looked at. `made` are the repairs of all rounds. */
export function standingOf(
  proof: Proof,
  looks: readonly Look[],
  state: ProofState,
  made: readonly string[],
): Standing {
  const seen = new Map(state.looks.map((one) => [one.check, one]));
  const toLook = looks.filter(({ id }) => !seen.has(id)).map(({ id }) => id);
  const amiss = looks.filter(({ id }) => seen.get(id)?.ok === false);
  const told = proof.left
    .filter(({ probability }) => probability >= TOLD)
    .slice(0, MOST_TOLD)
    .map((left) => sayLeft(left, made));
  const against: string[] = amiss.map(({ id, amiss: words }) => {
    const found = seen.get(id)?.words ?? '';
    return `${words}${found ? `: ${found}` : ''}.`;
  });
  if (proof.misfit)
    against.push(
      'The readings together fit no bike of this kind, sound or faulty: check the new parts’ figures in the machine file, the meter, and where the tips went.',
    );
  if (proof.faultLeft > 0.5)
    against.push(
      `That a fault is left: ${inHundred(proof.faultLeft)}: ${told.join('; ') || 'none that is known'}.`,
    );
  if (against.length > 0) return { is: 'not-proven', why: against, toLook };

  const why: string[] = [];
  const must = proof.plan.filter(({ always }) => always).length;
  if (must > 0)
    why.push(
      `${must === 1 ? 'One reading' : `${must} readings`} that every proof needs ${must === 1 ? 'is' : 'are'} not taken yet.`,
    );
  if (proof.doubtful.length > 0)
    why.push(
      `${proof.doubtful.length === 1 ? 'A reading does' : 'Readings do'} not fit the others: take it again before it is believed.`,
    );
  if (proof.faultLeft > PROVEN) {
    const left = `A fault may be left, ${inHundred(proof.faultLeft)}: ${told.join('; ')}.`;
    why.push(proof.plan.length > 0 ? left : `${left} No reading with the tools at hand would tell more.`);
  }
  if (toLook.length > 0)
    why.push(`${toLook.length === 1 ? 'One thing is' : `${toLook.length} things are`} not looked at yet.`);
  return { is: why.length === 0 ? 'proven' : 'open', why, toLook };
}
