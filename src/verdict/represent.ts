/**
 * The few hypotheses that speak for all when the next reading is chosen. Every list of repairs that counts is spoken
 * for by its likeliest sets, which carry the weight of the rest: taking simply the likeliest sets would drop rare third
 * faults, and choosing by the few likeliest alone is a biased sample (arXiv 2009.12178).
 */
import type { Ranked } from './rank.ts';

export interface Represented {
  readonly look: readonly Ranked[];
  /** Adds up to one. */
  readonly weights: Float64Array;
  /** Class of each: the list of repairs it asks for. */
  readonly classes: Int32Array;
  readonly names: readonly string[];
}

/** Lists of repairs looked at, sets that speak for one list at the most, and the share of the list they must hold. */
const LISTS = 48;
const SPEAKERS = 4;
const SPOKEN = 0.8;
/** Lists less likely than this are left out, 0–1. */
const LEAST = 2e-4;

export function represent(best: readonly Ranked[]): Represented {
  const lists = new Map<string, { share: number; members: Ranked[] }>();
  for (const b of best) {
    let list = lists.get(b.member.base.repairs);
    if (!list) {
      list = { share: 0, members: [] };
      lists.set(b.member.base.repairs, list);
    }
    list.share += b.share;
    list.members.push(b);
  }
  const chosen = [...lists]
    .sort((a, b) => b[1].share - a[1].share)
    .filter(([, list], n) => n === 0 || list.share > LEAST)
    .slice(0, LISTS);
  const look: Ranked[] = [];
  const weights: number[] = [];
  const classes: number[] = [];
  chosen.forEach(([, { share, members }], at) => {
    // `best` is sorted: so are the members of each list.
    let held = 0;
    const speakers: Ranked[] = [];
    for (const member of members) {
      if (speakers.length >= SPEAKERS || (speakers.length > 0 && held > SPOKEN * share)) break;
      speakers.push(member);
      held += member.share;
    }
    for (const speaker of speakers) {
      look.push(speaker);
      weights.push(held > 0 ? (share * speaker.share) / held : 0);
      classes.push(at);
    }
  });
  const sum = weights.reduce((a, b) => a + b, 0) || 1;
  return {
    look,
    weights: Float64Array.from(weights, (w) => w / sum),
    classes: Int32Array.from(classes),
    names: chosen.map(([name]) => name),
  };
}

/** Lists that are heard at a glance. */
const GLANCED = 28;

/** One speaker for each list, and where it stands among all. */
export interface Firsts extends Represented {
  readonly at: readonly number[];
}

/** The likeliest set of each list, with the weight of the whole list. */
export function firstsOf({ look, weights, classes, names }: Represented): Firsts {
  const firsts: Ranked[] = [];
  const at: number[] = [];
  const shares = new Float64Array(Math.min(GLANCED, names.length));
  for (let h = 0; h < look.length && classes[h]! < shares.length; h++) {
    if (classes[h]! === firsts.length) {
      firsts.push(look[h]!);
      at.push(h);
    }
    shares[classes[h]!]! += weights[h]!;
  }
  const sum = shares.reduce((a, b) => a + b, 0) || 1;
  return {
    look: firsts,
    at,
    weights: shares.map((share) => share / sum),
    classes: Int32Array.from(firsts, (_, n) => n),
    names: names.slice(0, firsts.length),
  };
}
