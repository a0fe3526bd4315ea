/** Ranks every hypothesis on the evidence: rough weights for all, physics and joint weights for the best. */
import { complaintWeight } from './complaint.ts';
import { NOTHING_ODD, type Odd, oddOf, openElsewhere, rowsOf, type Taken } from './evidence.ts';
import type { Field, Member } from './field.ts';
import { normaliseInPlace } from './posterior.ts';
import { byLog, type Hypothesis, openRaters, type Rating, signOf } from './rating.ts';
import type { Base } from './sets.ts';
import { severityGain, wearGain } from './skew.ts';
import { type Row, type Weighed, weigh } from './weigh.ts';

/** One hypothesis that counts, with its share. */
export interface Ranked {
  readonly member: Member;
  readonly turn: number;
  readonly weighed: Weighed;
  /** "OL" where a number is due, or the other way round, taken for a mistake. */
  readonly odd?: Odd['slips'];
  /** Place in `taken` of each row. */
  readonly at: readonly number[];
  /** Equal for hypotheses that expect the same of every reading taken. */
  readonly sign: number;
  /** Whether its own physics, not its faults' put together, spoke for it. */
  readonly computed: boolean;
  /** Share among the sets of the catalogue, and with "none of these" counted in. */
  share: number;
  probability: number;
}

export interface Ranking {
  readonly best: readonly Ranked[];
  /** Probability that no set of the catalogue explains the readings. */
  readonly noneOfThese: number;
  /** Every set still standing, best first by its rough weight, and those of them that their own physics speaks for. */
  readonly rated: readonly Hypothesis[];
  /** Works out to the end what stands among the first `count` of such a list, sorted. */
  readonly settle: (list: Hypothesis[], count: number) => void;
  readonly chosen: ReadonlySet<Member>;
}

/** Sets weighed jointly, and pairs computed anew per answer at the most. */
const JOINT = 600;
const PROMOTE = 28;
/** Rounds of computing and growing, and how far down the ranking each of them looks. */
const ROUNDS = 4;
const REACH = 80;
/** Nats behind the best at which a hypothesis is not looked at again, and at which it is not weighed jointly. */
const FORGET = 24;
const NEAR = 9.5;
/** Hypotheses that are weighed jointly however far behind they are. */
const FIRST = 20;
/** Nats behind the best within which a set earns its own physics: put together it may look that much worse than it is. */
const EARNED = 11;
/**
 * How far the readings are believed against the priors, 1: straight lines, guessed severities and another's meter make a
 * likelihood surer than it is (tempering; Grünwald & van Ommen 2017, from memory). At 1 the truth lay in the 95 % set of 73 %
 * of 60 bikes drawn with more wear, at 0.8 of 80 %, for 8 minutes a bike. With the shapes of skew.ts counted, 160 drawn bikes
 * ended right in 77 % at 0.8 (60 minutes), 79 % at 0.65 (65 minutes), 81 % at 0.7 with the rest of choose.ts (64 minutes).
 */
export const BELIEF = 0.7;
/** Hypotheses that are asked whether a reading was taken elsewhere. */
const ASTRAY = 80;
/** Readings of the first sieve when there are many. */
const SAMPLE = 16;

/** What is believed before any reading where it is not what the field says: of a repaired bike (after-repair.ts). */
export interface Before {
  /** Log prior of each turn of a set, nats. */
  readonly logPrior: (base: Base) => number;
  /** Chance that no set of the catalogue will explain the readings, 0–1. */
  readonly noneOfThese: number;
}

/** The same on a bike that somebody complains of (the chance of none: guess). */
const COMPLAINED: Before = { logPrior: ({ logPrior }) => logPrior, noneOfThese: 0.005 };

export function openRanker(field: Field, expected: Before = COMPLAINED) {
  /** Sets of up to two faults, the likeliest of the last answer first; all but those that a sieve of many readings ruled out. */
  let small: Hypothesis[] = [];
  let known = 0;
  let before = new Map<string, unknown>();
  const priors = new Map<Member, number>();
  let heard = '';
  const raters = openRaters();
  const rows: Row[] = [];
  const at: number[] = [];
  const admit = (members: readonly Member[], into: Hypothesis[]) => {
    for (const member of members) into.push(...raters.turnsOf(member));
  };
  let ahead: () => boolean = () => false;
  const grownFrom = (pair: Member): readonly Hypothesis[] => {
    field.promote(pair);
    return field.grow(pair).flatMap(raters.turnsOf);
  };

  const rank = (taken: readonly Taken[], symptoms: readonly string[]): Ranking => {
    const now = new Map<string, unknown>(taken.map((t) => [t.text, t.value]));
    const grows = [...before].every(([text, value]) => now.get(text) === value);
    const anew = !grows || known === 0;
    if (anew) {
      small = [];
      admit(field.members, small);
      known = field.members.length;
    }
    before = now;
    const words = [...symptoms].sort().join(' ');
    if (words !== heard) {
      priors.clear();
      heard = words;
    }
    const prior = (member: Member) => {
      let p = priors.get(member);
      if (p === undefined) {
        p = expected.logPrior(member.base) + complaintWeight(symptoms, member.base.faults);
        priors.set(member, p);
      }
      return p;
    };
    // Which sets are computed, and which triples are looked at, is decided anew each time from the evidence alone: an
    // answer must not depend on what was asked before, only be quicker for it.
    const chosen = new Set<Member>();
    const rating = raters.begin(taken, chosen, prior);
    // Many readings at once, as when a job is opened again: sixteen of them first, and what that rules out is not gone
    // through with the rest.
    if (anew && taken.length > 2 * SAMPLE) {
      const every = Math.ceil(taken.length / SAMPLE);
      const sample = taken.filter((_, n) => n % every === 0);
      for (const h of small) rating.sieve(h, sample);
      small.sort(byLog);
      small = small.filter((h) => h.log > small[0]!.log - 1.5 * FORGET);
    }
    // They stand as the last answer left them, the likeliest first.
    let lead = Number.NEGATIVE_INFINITY;
    for (const h of small) {
      if (!rating.isBehind(h, lead, EARNED)) rating.rate(h);
      if (h.exact) lead = Math.max(lead, h.log);
    }
    // Only what still stands is put in order, before the rest.
    const least = taken.length < 4 ? Number.NEGATIVE_INFINITY : highest(small) - FORGET;
    let alive = small.filter((h) => h.log >= least).sort(byLog);
    small = [...alive, ...small.filter((h) => !(h.log >= least))];
    const grown = new Set<Member>();
    const triples = new Set<string>();
    for (let round = 0; round < ROUNDS && taken.length > 0; round++) {
      rating.settle(alive, 1, EARNED);
      const best = alive[0]!.log;
      const fresh = new Set<Member>();
      const joined: Hypothesis[] = [];
      for (const h of alive.slice(0, REACH)) {
        const { member } = h;
        if (h.log < best - EARNED || chosen.size >= PROMOTE) break;
        // Probable sets earn their own physics.
        if (member.base.atoms.length < 2 || chosen.has(member)) continue;
        field.promote(member);
        chosen.add(member);
        fresh.add(member);
      }
      // Pairs that hold up bring their triples.
      for (const h of alive.slice(0, REACH)) {
        const { member } = h;
        if (h.log < best - 4 || taken.length < 3) break;
        if (member.base.atoms.length !== 2 || !chosen.has(member) || fresh.has(member) || grown.has(member))
          continue;
        grown.add(member);
        const news = field.grow(member).filter((triple) => !triples.has(triple.name));
        for (const triple of news) triples.add(triple.name);
        admit(news, joined);
      }
      // The likeliest set of three vouches for its pairs, however far behind these stand by now: each of them with another
      // third fault may be likelier still. (A dead stator and a burnt pin beside a worn battery: the battery was read first,
      // the pair was forgotten, and nothing brought the three together any more.)
      for (const pair of alive[0]!.member.base.atoms.length === 3 ? field.pairsOf(alive[0]!.member) : []) {
        if (grown.has(pair)) continue;
        field.promote(pair);
        if (!chosen.has(pair)) fresh.add(pair);
        chosen.add(pair);
        grown.add(pair);
        const news = field.grow(pair).filter((triple) => !triples.has(triple.name));
        for (const triple of news) triples.add(triple.name);
        admit(news, joined);
      }
      if (!fresh.size && !joined.length) break;
      for (const h of joined) if (!rating.isBehind(h, best, EARNED)) rating.rate(h, best);
      for (const h of alive) if (fresh.has(h.member) && !rating.isBehind(h, best, EARNED)) rating.rate(h);
      // Two sorted runs are merged: most of them stand in order already.
      alive = [...alive.sort(byLog), ...joined.sort(byLog)].sort(byLog);
    }

    rating.settle(alive, FIRST, NEAR);
    ahead = openAhead(alive, rating, grownFrom);
    const near = alive
      .slice(0, jointly(taken.length))
      .filter((h, n) => n < FIRST || h.log > alive[0]!.log - NEAR);
    const logs = new Float64Array(near.length);
    const whole = new Map<number, { readonly weighed: Weighed; readonly skew: number }>();
    const elsewhere = openElsewhere(taken);
    const best: Ranked[] = near.map((h, n) => {
      const own = chosen.has(h.member);
      const { judged } = own ? h.computed : h.rough;
      const apart = rowsOf(h.member, h.turn, taken, own, rows, at, judged);
      const sign = signOf(rows, at);
      const instead = n < ASTRAY ? elsewhere(h.member, h.turn, own) : undefined;
      let found = whole.get(sign);
      if (!found) {
        const places = [...at];
        const weighed = weigh([...rows], instead && ((row) => instead(places[row]!)));
        found = { weighed, skew: wearGain(weighed.given) };
        whole.set(sign, found);
      }
      const { weighed } = found;
      const skew = found.skew + severityGain(weighed.given, h.member.base);
      const odd = instead ? oddOf(h.member, h.turn, taken, own, instead, judged) : NOTHING_ODD;
      logs[n] = prior(h.member) + BELIEF * (apart + weighed.log + skew + odd.gain);
      return {
        member: h.member,
        turn: h.turn,
        weighed,
        odd: odd.slips,
        at: [...at],
        sign,
        computed: own,
        share: 0,
        probability: 0,
      };
    });
    const nothing = nullWeight(taken, best, expected.noneOfThese);
    const explained = normaliseInPlace(logs);
    const noneOfThese = 1 / (1 + Math.exp(Math.min(explained - nothing, 700)));
    best.forEach((b, n) => {
      b.share = logs[n]!;
      b.probability = b.share * (1 - noneOfThese);
    });
    // Sets that no reading sets apart stand in the order of their names, whatever was asked before.
    best.sort((a, b) => b.probability - a.probability || inOrder(a, b));
    const settle = (list: Hypothesis[], count: number) => rating.settle(list, count, 0);
    return { best, noneOfThese, rated: alive, settle, chosen };
  };
  return { rank, ahead: () => ahead() };
}

/** By name and turn, dimensionless: −1, 0 or 1. */
function inOrder({ member: a, turn }: Ranked, { member: b, turn: other }: Ranked): number {
  return a.name === b.name ? turn - other : a.name < b.name ? -1 : 1;
}

/** The highest log weight of some hypotheses, nats. */
function highest(list: readonly Hypothesis[]): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const { log } of list) if (log > most) most = log;
  return most;
}

/** Hypotheses brought up to date at one go: some half a millisecond. */
const AT_A_GO = 24;
/** Nats behind the best within which pairs are grown for the next answer, and how many of them. */
const AHEAD = 7;
const GROWN_AHEAD = 12;

/**
 * Brings the hypotheses up to date that another reading may bring back, a few at each call, and then the triples of pairs
 * that it may bring in; false when none are left.
 */
function openAhead(
  alive: readonly Hypothesis[],
  { refresh }: Rating,
  triplesOf: (pair: Member) => readonly Hypothesis[],
): () => boolean {
  const top = alive[0]!.log;
  const close = alive.filter(({ log }) => log >= top - FORGET);
  const pairs = new Set<Member>();
  for (const { member, log } of close) {
    if (log < top - AHEAD || pairs.size >= GROWN_AHEAD) break;
    if (member.base.atoms.length === 2) pairs.add(member);
  }
  const growing = pairs.values();
  let next = 0;
  return () => {
    for (let n = 0; n < AT_A_GO; n++) {
      while (next === close.length) {
        const pair = growing.next();
        if (pair.done) return false;
        close.push(...triplesOf(pair.value));
      }
      refresh(close[next++]!);
    }
    return true;
  };
}

/**
 * How much likelier one further fault, whichever it be, is on top of a set of three than that set alone, 1: every fault
 * that may join is put to it and weighed on all readings.
 */
export function fourthRoom(field: Field, top: Ranked, taken: readonly Taken[]): number {
  const rows: Row[] = [];
  const at: number[] = [];
  const logOf = (member: Member, computed: boolean) => {
    const apart = rowsOf(member, top.turn, taken, computed, rows, at);
    return member.base.logPrior + BELIEF * (apart + weigh([...rows]).log);
  };
  const alone = logOf(top.member, top.computed);
  let room = 0;
  for (const member of field.fourths(top.member)) room += Math.exp(Math.min(0, logOf(member, false) - alone));
  return room;
}

/** How many hypotheses are weighed jointly: the work grows with the cube of the readings, while they leave fewer standing. */
function jointly(readings: number): number {
  return Math.max(24, Math.min(JOINT, Math.floor(2e8 / readings ** 3)));
}

/** Log weight of "none of these": its chance, and every reading spread three times as wide as a bad guess. */
function nullWeight(taken: readonly Taken[], best: readonly Ranked[], chance: number): number {
  let log = Math.log(chance);
  const rows = best[0]?.weighed.given.rows ?? [];
  for (const row of rows) log += Math.log(Math.min(2 * row.anything, 1 / (3 * Math.sqrt(row.scatter))));
  for (const t of taken) if (typeof t.value === 'boolean' || t.value === null) log += Math.log(0.4);
  return log;
}
