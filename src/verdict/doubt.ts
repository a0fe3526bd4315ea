/** Readings that were probably taken or typed wrongly: which, how, and what was meant. */
import { KINDS } from '../reading/catalogue.ts';
import type { Mistake } from '../reading/mistakes.ts';
import { toLastDigit } from '../reading/rounding.ts';
import type { Doubt } from './answer.ts';
import type { Taken } from './evidence.ts';
import type { Ranked } from './rank.ts';

/** One reading's mistakes, gathered over all hypotheses. */
export interface SlipShare {
  /** Place in `taken`. */
  readonly at: number;
  /** Probability that the reading was taken or typed wrongly, 0–1. */
  readonly probability: number;
  /** The likeliest mistake. */
  readonly mistake: Mistake;
  /** What was meant, the kind's unit; NaN = "OL". */
  readonly meant: number;
}

/** Every reading that any hypothesis takes for a mistake, most doubtful first. */
export function slipShares(best: readonly Ranked[]): SlipShare[] {
  const found = new Map<number, { probability: number; words: Map<string, Word> }>();
  for (const b of best) {
    const slips = b.weighed.slips.map((slip) => ({ ...slip, n: b.at[slip.row]! }));
    for (const { n: at, mistake, meant, share } of [...slips, ...(b.odd ?? [])]) {
      // Among the sets of the catalogue: where none of them explains the readings, a wrong one is the first thing to look for.
      const weight = b.share * share;
      let entry = found.get(at);
      if (!entry) {
        entry = { probability: 0, words: new Map() };
        found.set(at, entry);
      }
      entry.probability += weight;
      const word = entry.words.get(mistake.title) ?? { mistake, meant, weight: 0, most: 0 };
      word.weight += weight;
      // The value comes from the one hypothesis that speaks loudest: a mean of several would be nobody's.
      if (weight > word.most) Object.assign(word, { mistake, meant, most: weight });
      entry.words.set(mistake.title, word);
    }
  }
  return [...found]
    .map(([at, { probability, words }]) => {
      const word = [...words.values()].reduce((a, b) => (b.weight > a.weight ? b : a));
      return { at, probability: Math.min(1, probability), mistake: word.mistake, meant: word.meant };
    })
    .sort((a, b) => b.probability - a.probability);
}

interface Word {
  mistake: Mistake;
  meant: number;
  weight: number;
  most: number;
}

/**
 * What a wrong reading costs when it is believed, min: a comeback's hour, half the time (guess). A reading is called
 * doubtful when the chance that it is wrong, times this, is more than the minutes of taking it again. Between a tenth
 * and a quarter most doubts are about right readings: asking once more clears these, and costs a minute or two a bike.
 */
const BELIEVED_MINUTES = 30;
/** … and when it has been taken again already, once it is more likely wrong than right, 0–1. */
const STILL_DOUBTED = 0.5;

/** Readings that were probably enough taken or typed wrongly to be taken again, most doubtful first. */
export function doubts(
  suspected: readonly SlipShare[],
  taken: readonly Taken[],
  isDoubtful: (suspected: SlipShare) => boolean = (s) => worthRetaking(s, taken[s.at]!),
): Doubt[] {
  return suspected.filter(isDoubtful).map(({ at, probability, mistake, meant }) => ({
    key: taken[at]!.text,
    probability,
    mistake: mistake.title,
    meant: Number.isNaN(meant) ? null : toLastDigit(taken[at]!.key.kind, Number(meant.toPrecision(3))),
  }));
}

function worthRetaking({ probability }: SlipShare, { again, key }: Taken): boolean {
  const minutes = KINDS[key.kind]?.minutes ?? 3;
  return probability > (again ? STILL_DOUBTED : Math.min(STILL_DOUBTED, minutes / BELIEVED_MINUTES));
}

/** The doubts, and the reading that is asked for again however slight its doubt: a person must be told why. */
export function doubtsWith(
  doubtful: readonly Doubt[],
  suspected: readonly SlipShare[],
  taken: readonly Taken[],
  asked: string | undefined,
): readonly Doubt[] {
  if (asked === undefined || doubtful.some(({ key }) => key === asked)) return doubtful;
  return [...doubtful, ...doubts(suspected, taken, ({ at }) => taken[at]!.text === asked)];
}

/** χ² that sound readings pass by chance once in ten thousand, by their number (Wilson & Hilferty 1931). */
function absurd(count: number): number {
  const share = 2 / (9 * count);
  return count * (1 - share + 3.719 * Math.sqrt(share)) ** 3;
}

/** Share of the hypotheses' weight that must be absurd, 0–1. */
const MOSTLY = 0.5;

/**
 * Whether the readings together contradict the machine file or the set-up: nothing in the catalogue explains them, or
 * what explains them best is still absurd with its likeliest mistakes put right. Two mistakes with a name may be put
 * right, but only one "does not fit, mistake unknown": two of those say that it is not the hand that is wrong.
 */
export function contradicts(best: readonly Ranked[], noneOfThese: number): boolean {
  if (noneOfThese > MOSTLY) return true;
  let off = 0;
  for (const { weighed, share } of best) {
    const { misfit, mended, unnamed } = weighed;
    const left = weighed.given.rows.length - mended;
    if (unnamed > 1 || (left > 0 && misfit > absurd(left))) off += share;
  }
  return off > MOSTLY;
}
