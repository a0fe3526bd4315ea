/** The verdict in one sentence. */
import { FAULTS } from '../../fault/faults.ts';
import type { Answer, FaultSet } from '../../verdict/answer.ts';
import { chanceWord, inHundred, listWords } from '../show.ts';

/** A set of faults as a mechanic would say it. */
export function setWords(set: FaultSet): string {
  if (set.faults.length === 0) return 'nothing is wrong with the charging circuit';
  return listWords(set.faults.map((id) => FAULTS[id]?.title ?? id));
}

export interface Lead {
  readonly opening: string;
  readonly what: string;
  readonly share: string;
}

/** The likeliest set; null when nothing in the catalogue explains the readings. */
export function leadOf(answer: Answer): Lead | null {
  const best = answer.sets[0];
  if (!best) return null;
  const word = chanceWord(best.probability);
  return {
    opening: word === 'Hardly' ? 'No answer yet; likeliest' : word,
    what: setWords(best),
    share: inHundred(best.probability),
  };
}
