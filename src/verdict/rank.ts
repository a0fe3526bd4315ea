/** Ranks every hypothesis on the evidence: rough weights for all, physics and joint weights for the best. */
import { complaintWeight } from './complaint.ts';
import { rowsOf, type Taken } from './evidence.ts';
import type { Field, Member } from './field.ts';
import { normaliseInPlace } from './posterior.ts';
import { type Row, roughWeight, type Weighed, weigh } from './weigh.ts';

/** One hypothesis that counts, with its share. */
export interface Ranked {
  readonly member: Member;
  readonly turn: number;
  readonly weighed: Weighed;
  /** Place in `taken` of each row. */
  readonly at: readonly number[];
  probability: number;
}

export interface Ranking {
  readonly best: readonly Ranked[];
  /** Log weight of the evidence, nats, and of the null that no set explains it. */
  readonly noneOfThese: number;
  /** Probability left in hypotheses that were only ranked roughly. */
  readonly rest: number;
}

/** Sets weighed jointly, and pairs computed anew per answer at the most. */
const JOINT = 110;
const PROMOTE = 16;
/** Nats behind the best at which a hypothesis is not looked at again, and at which it is not weighed jointly. */
const FORGET = 24;
const NEAR = 13;

interface Hypothesis {
  readonly member: Member;
  readonly turn: number;
  log: number;
}

/** A ranker keeps which hypotheses are forgotten, as long as the evidence only grows. */
export function openRanker(field: Field) {
  let alive: Hypothesis[] = [];
  let known = 0;
  let before = new Map<string, unknown>();
  const priors = new Map<Member, number>();
  let heard = '';
  const rows: Row[] = [];
  const at: number[] = [];

  const admit = () => {
    for (; known < field.members.length; known++) {
      const member = field.members[known]!;
      for (let turn = 0; turn < member.base.turns; turn++) alive.push({ member, turn, log: 0 });
    }
  };

  return (taken: readonly Taken[], symptoms: readonly string[]): Ranking => {
    const now = new Map<string, unknown>(taken.map((t) => [t.text, t.value]));
    const grows = [...before].every(([text, value]) => now.get(text) === value);
    if (!grows) {
      alive = [];
      known = 0;
    }
    before = now;
    admit();
    const words = [...symptoms].sort().join(' ');
    if (words !== heard) {
      priors.clear();
      heard = words;
    }
    const prior = (member: Member) => {
      let p = priors.get(member);
      if (p === undefined) {
        p = member.base.logPrior + complaintWeight(symptoms, member.base.faults);
        priors.set(member, p);
      }
      return p;
    };
    const rate = (h: Hypothesis, spend: boolean) => {
      h.log = prior(h.member) + rowsOf(h.member, h.turn, taken, spend, rows, at);
      h.log += roughWeight(rows);
    };
    for (const h of alive) rate(h, h.member.base.atoms.length <= 1 || h.member.computed !== null);
    alive.sort((a, b) => b.log - a.log);
    // Probable sets earn their own physics; pairs that hold up bring their triples.
    let spent = 0;
    for (let round = 0; round < 2; round++) {
      const top = alive.slice(0, 50).filter((h) => h.log > alive[0]!.log - 6);
      let fresh = 0;
      for (const h of top) {
        if (h.member.base.atoms.length === 2 && taken.length >= 3 && h.log > alive[0]!.log - 4)
          field.grow(h.member);
        if (h.member.computed || spent >= PROMOTE || taken.length === 0) continue;
        field.promote(h.member);
        spent++;
        fresh++;
      }
      const first = alive.length;
      admit();
      for (let n = first; n < alive.length; n++) rate(alive[n]!, false);
      if (fresh)
        for (const h of alive) if (h.member.computed && h.member.base.atoms.length > 1) rate(h, true);
      alive.sort((a, b) => b.log - a.log);
      if (!fresh && alive.length === first) break;
    }
    if (taken.length >= 4) alive = alive.filter((h) => h.log > alive[0]!.log - FORGET);

    const near = alive.slice(0, JOINT).filter((h, n) => n < 20 || h.log > alive[0]!.log - NEAR);
    const logs = new Float64Array(near.length + 1);
    const best: Ranked[] = near.map((h, n) => {
      const extra = prior(h.member) + rowsOf(h.member, h.turn, taken, h.member.computed !== null, rows, at);
      const weighed = weigh([...rows]);
      logs[n] = extra + weighed.log;
      return { member: h.member, turn: h.turn, weighed, at: [...at], probability: 0 };
    });
    logs[near.length] = nullWeight(taken, best);
    normaliseInPlace(logs);
    best.forEach((b, n) => {
      b.probability = logs[n]!;
    });
    best.sort((a, b) => b.probability - a.probability);
    return { best, noneOfThese: logs[near.length]!, rest: 0 };
  };
}

/** Log weight of "none of these": one in two hundred, and every reading spread three times as wide as a bad guess. */
function nullWeight(taken: readonly Taken[], best: readonly Ranked[]): number {
  let log = Math.log(0.005);
  const rows = best[0]?.weighed.given.rows ?? [];
  for (const row of rows) log += Math.log(Math.min(2 * row.anything, 1 / (3 * Math.sqrt(row.scatter))));
  for (const t of taken) if (typeof t.value === 'boolean' || t.value === null) log += Math.log(0.4);
  return log;
}
