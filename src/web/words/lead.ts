/**
 * The verdict in one sentence: what is dead and how sure. It speaks of the same parts that the list of repairs names,
 * so that head and list never disagree.
 */
import type { FaultId, RepairId } from '../../fault/catalogue.ts';
import { FAULTS } from '../../fault/faults.ts';
import type { Answer, FaultSet } from '../../verdict/answer.ts';
import { inHundred } from '../../verdict/say-chance.ts';
import { troubleOf } from '../../verdict/trouble-words.ts';
import { isExplained } from '../advised.ts';
import { chanceWord, listWords } from '../show.ts';

/** A repair called for by at least this chance stands for a part called dead; below it is done on the chance. */
const CALLED_DEAD = 0.5;
/** One fault that makes up this share of what a repair cures stands for it by name. */
const MOSTLY = 0.75;

const UNSURE = 'No answer yet; likeliest';

/** A set of faults as a mechanic would say it. */
export function setWords(set: FaultSet): string {
  if (set.faults.length === 0) return 'nothing is wrong with the charging circuit';
  return listWords(set.faults.map((id) => FAULTS[id]?.title ?? id));
}

export interface Lead {
  readonly opening: string;
  readonly what: string;
  readonly share: string;
  /** How sure it is that nothing else is wrong, where that differs from the first figure; else null. */
  readonly only: string | null;
}

function repairsOf(set: FaultSet): ReadonlySet<RepairId> {
  return new Set(set.faults.flatMap((id) => (FAULTS[id] ? [FAULTS[id].repair] : [])));
}

/** What a repair is needed for: its fault where one makes up nearly all of it, else the part. */
export function deadWords(repair: RepairId, sets: readonly FaultSet[]): string {
  const shares = new Map<FaultId, number>();
  let all = 0;
  for (const { faults, probability } of sets)
    for (const id of faults) {
      if (FAULTS[id]?.repair !== repair) continue;
      shares.set(id, (shares.get(id) ?? 0) + probability);
      all += probability;
    }
  const [top] = [...shares].sort((a, b) => b[1] - a[1]);
  if (top && top[1] >= MOSTLY * all) return FAULTS[top[0]].title;
  return troubleOf(repair) ?? repair;
}

/** The one line of what is dead; null when nothing in the catalogue explains the readings. */
export function leadOf(answer: Answer): Lead | null {
  const best = answer.sets[0];
  if (!best || !isExplained(answer)) return null;
  const chosen = answer.repairs.filter((line) => line.worthDoing && !line.whileOpen);
  const dead = chosen.filter((line) => line.probability >= CALLED_DEAD);
  const named = (dead.length > 0 ? dead : chosen.slice(0, 1)).map((line) => line.repair);
  if (named.length === 0) {
    // A part may be likelier than any one set of faults, when several faults of it are in question.
    const part = [...answer.repairs].sort((a, b) => b.probability - a.probability)[0];
    if (part && part.probability > best.probability)
      return {
        opening: UNSURE,
        what: deadWords(part.repair, answer.sets),
        share: inHundred(part.probability),
        only: null,
      };
    const unsure = best.faults.length > 0 && best.probability < CALLED_DEAD;
    const opening = unsure ? UNSURE : chanceWord(best.probability);
    return { opening, what: setWords(best), share: inHundred(best.probability), only: null };
  }
  let together = 0;
  let alone = 0;
  for (const set of answer.sets) {
    const needed = repairsOf(set);
    if (!named.every((repair) => needed.has(repair))) continue;
    together += set.probability;
    if (needed.size === named.length) alone += set.probability;
  }
  const word = chanceWord(together);
  return {
    opening: word === 'Hardly' ? 'Best guess' : word,
    what: listWords(named.map((repair) => deadWords(repair, answer.sets))),
    share: inHundred(Math.min(1, together)),
    only: together - alone > 0.02 ? inHundred(alone) : null,
  };
}
