/**
 * Rough weights of thousands of hypotheses, and which of them need none. What a hypothesis weighed some readings ago, with
 * the most that the readings since can add to it, is a ceiling; most stay so far behind that they are not weighed again
 * while somebody waits. Between answers, when the mechanic is at the bike, all are brought up to date.
 *
 * Measured on the 20th to 25th of any readings on twelve drawn bikes, processor time, all else the same: p50 33 to 26 ms,
 * p95 64 to 44. Rejected: giving up a set's weight half way as soon as it falls behind, and keeping that as its ceiling: it
 * lies so close to what counts that the next reading lifts it again and the work is done twice (p95 64 to 101). The room of
 * a reading by its meter alone, without the set's own scatter: ceilings rise by some three nats a reading too many. A page for
 * each set with what every two readings share under it, to which a further reading adds a row: a rough weight that is at hand
 * takes a third of the time, but 10 kB for each of thousands of sets are fetched and made: the 20th to 25th answer 9 % quicker
 * in the mean, the slowest of them not at all, the 5th to 13th 10 to 30 % slower; as typed arrays outside the heap they made
 * the engine sweep at every further one, and answers took twice as long.
 */
import { meterScatter } from '../reading/noise.ts';
import { type Judged, judgedOf, rowsOf, type Taken } from './evidence.ts';
import type { Member } from './field.ts';
import { added, roughWeight } from './rough-weight.ts';
import { type Row, SLIP } from './weigh.ts';

/** A set, turned to one place, with its rough weight. */
export interface Hypothesis {
  readonly member: Member;
  readonly turn: number;
  /** Log weight, nats; where it is not exact, one that it cannot pass. */
  log: number;
  exact: boolean;
  readonly rough: Remembered;
  readonly computed: Remembered;
}

/** What a hypothesis makes of readings by one of its tables: its faults' put together, or its own physics. */
interface Remembered {
  /** By place of the reading. */
  readonly judged: Judged[];
  /** Number of the evidence that the rest belongs to; −1 before it was ever weighed. */
  era: number;
  /** Log weight without the prior, or a ceiling of it, nats, and how many readings, as they came, it counts. */
  log: number;
  count: number;
  /** Room of these readings (`roomOf`), nats. */
  room: number;
}

/** The hypotheses as one answer weighs them. */
export interface Rating {
  /** Works out a hypothesis' weight; with `best`, to the end only where it can come near that. */
  readonly rate: (h: Hypothesis, best?: number) => void;
  /** The same on some of the readings, for a first sieve. */
  readonly sieve: (h: Hypothesis, sample: readonly Taken[]) => void;
  /** Whether a hypothesis cannot come within `near` nats of `best`: its log is then a ceiling, and it need not be rated. */
  readonly isBehind: (h: Hypothesis, best: number, near: number) => boolean;
  /** Rates what stands among the first `count` of a sorted list or within `near` nats of its top, until that is exact. */
  readonly settle: (list: Hypothesis[], count: number, near: number) => void;
  /** Brings a hypothesis up to date with the readings, for the next answer. */
  readonly refresh: (h: Hypothesis) => void;
}

/** What is remembered of hypotheses from answer to answer. */
export interface Raters {
  /** The hypotheses of a member, one for each turn. */
  readonly turnsOf: (member: Member) => readonly Hypothesis[];
  /** Begins an answer. `chosen`, which may grow, speak by their own physics. `prior`: log prior of a member, nats. */
  readonly begin: (
    taken: readonly Taken[],
    chosen: ReadonlySet<Member>,
    prior: (member: Member) => number,
  ) => Rating;
}

/**
 * Nats behind the best at which a weight is not worked out to the end, and readings from which that pays. The most that a
 * reading can still add is the most that it added to any set rated.
 */
const LOST = 30;
const MANY = 16;

/**
 * Nats that a ceiling may be passed by: readings are set aside one after another (rough-weight.ts), and a further one may show
 * a better choice of them. Of 3,627 ceilings of three drawn bikes 9 were passed, by .4 to 3.8 nats, all of sets that
 * explain hardly anything.
 */
const GREEDY = 2;

/** Puts the likelier one first, dimensionless: −1, 0 or 1. Differences would be so many numbers on the heap in a sort of thousands. */
export const byLog = (a: Hypothesis, b: Hypothesis): number => (a.log > b.log ? -1 : a.log < b.log ? 1 : 0);

function remembered(): Remembered {
  return { judged: [], era: -1, log: 0, count: 0, room: 0 };
}

export function openRaters(): Raters {
  const opened = new Map<Member, readonly Hypothesis[]>();
  /** Readings that hypotheses remember something of, by place, and the most that each of them added to any. */
  let places: Taken[] = [];
  let most: number[] = [];
  /** Goes up when the evidence is not what it was and more: no ceiling holds then. */
  let era = 0;
  let last: readonly Taken[] = [];
  const rows: Row[] = [];
  const at: number[] = [];

  /** A place stands for one reading as long as anything is remembered of it. */
  const remember = (taken: readonly Taken[]): void => {
    if (taken.some((t) => places[t.place] !== undefined && places[t.place] !== t)) {
      for (const turns of opened.values())
        for (const { rough, computed } of turns) {
          rough.judged.length = 0;
          computed.judged.length = 0;
        }
      places = [];
      most = [];
    }
    for (const t of taken) places[t.place] = t;
    const here = new Set(taken);
    if (!last.every((t) => here.has(t))) era++;
    last = taken;
  };

  return {
    turnsOf: (member) => {
      let turns = opened.get(member);
      if (!turns) {
        turns = Array.from({ length: member.base.turns }, (_, turn) => ({
          member,
          turn,
          log: 0,
          exact: true,
          rough: remembered(),
          computed: remembered(),
        }));
        opened.set(member, turns);
      }
      return turns;
    },
    begin: (taken, chosen, prior) => {
      remember(taken);
      const now = era;
      const coming = [...taken].sort((a, b) => a.place - b.place);
      const room = roomOf(taken);
      /** Weights by what is expected of the readings. */
      const weights = new Map<number, number>();
      const rest = new Float64Array(taken.length + 1);
      const notice = (): void => {
        for (let row = 0; row < rows.length; row++) {
          const { place } = taken[at[row]!]!;
          most[place] = Math.max(most[place] ?? Number.NEGATIVE_INFINITY, added[row]!);
        }
      };
      const restOf = (): Float64Array => {
        rest[rows.length] = 0;
        for (let n = rows.length - 1; n >= 0; n--)
          rest[n] = rest[n + 1]! + (most[taken[at[n]!]!.place] ?? Number.POSITIVE_INFINITY);
        return rest;
      };
      const rateBy = (h: Hypothesis, own: boolean, best = Number.NEGATIVE_INFINITY): void => {
        const mine = own ? h.computed : h.rough;
        const before = prior(h.member);
        const apart = rowsOf(h.member, h.turn, taken, own, rows, at, mine.judged);
        const sign = signOf(rows, at);
        let weight = weights.get(sign);
        h.exact = true;
        if (weight === undefined) {
          const least = best - LOST - before - apart;
          weight = roughWeight(rows, taken.length < MANY ? null : restOf(), least);
          // Of one that was given up only a bound is known, and a set with the same rows may have a better prior.
          // Written this way round: a set of no chance at all has a bound that is no number, and is worked out to the end.
          h.exact = !(weight < least);
          if (h.exact) {
            weights.set(sign, weight);
            notice();
          }
        }
        h.log = before + apart + weight;
        mine.era = now;
        mine.log = apart + weight;
        mine.count = coming.length;
        mine.room = room;
      };
      const rate = (h: Hypothesis, best?: number): void => rateBy(h, chosen.has(h.member), best);
      return {
        rate,
        sieve: (h, sample) => {
          h.log = prior(h.member) + rowsOf(h.member, h.turn, sample, false, rows, at, h.rough.judged);
          h.log += roughWeight(rows);
          h.exact = false;
        },
        isBehind: (h, best, near) => {
          const own = chosen.has(h.member);
          const mine = own ? h.computed : h.rough;
          if (mine.era !== now) return false;
          const before = prior(h.member);
          const least = best - near - GREEDY - before;
          let ceiling = mine.log + room - mine.room;
          if (ceiling >= least) {
            // Not by what the new readings can add to any set but to this very one.
            for (let n = mine.count; n < coming.length; n++) {
              const t = coming[n]!;
              mine.judged[t.place] ??= judgedOf(h.member, h.turn, t, own);
              mine.log += mine.judged[t.place]!.most;
            }
            mine.room = room;
            mine.count = coming.length;
            ceiling = mine.log;
            if (ceiling >= least) return false;
          }
          h.log = before + ceiling;
          h.exact = false;
          return true;
        },
        settle: (list, count, near) => {
          while (list.length > 0) {
            const least = list[0]!.log - near;
            let vague = false;
            for (let n = 0; n < list.length && (n < count || list[n]!.log >= least); n++) {
              if (list[n]!.exact) continue;
              rate(list[n]!);
              vague = true;
            }
            if (!vague) return;
            list.sort(byLog);
          }
        },
        refresh: (h) => {
          const { log, exact } = h;
          // A ceiling that counts all readings is worth working out too: the next answer sets out from it.
          if (!exact || h.rough.era !== now || h.rough.count < coming.length) rateBy(h, false);
          if (chosen.has(h.member) && (h.computed.era !== now || h.computed.count < coming.length))
            rateBy(h, true);
          h.log = log;
          h.exact = exact;
        },
      };
    },
  };
}

/** The most that these readings can add to any hypothesis' log weight together, nats. */
function roomOf(taken: readonly Taken[]): number {
  let room = 0;
  for (const t of taken) {
    if (typeof t.value !== 'number') continue;
    // No line scatters less than its meter, and sizeOf (evidence.ts) reads that at no smaller figure.
    const meter = meterScatter(t.key, Math.min(0.5 * Math.abs(t.value), 1));
    const right = Math.log1p(-SLIP) - 0.5 * Math.log(2 * Math.PI * (meter * meter + t.rounding));
    room += Math.max(right, -Math.log(10 + 2 * Math.abs(t.value)));
  }
  return room;
}

/** What sets the readings apart in a sign, dimensionless. */
const PLACE = Float64Array.from({ length: 512 }, (_, n) => Math.sqrt(2 + n));

/**
 * A sign of what is expected, dimensionless: the same for two hypotheses exactly when they expect the same of all readings (but for a coincidence
 * in the last of 53 bits): a further fault that no reading feels is weighed once with all of its like.
 */
export function signOf(rows: readonly Row[], at: readonly number[]): number {
  let sign = 0;
  for (let n = 0; n < rows.length; n++) sign += PLACE[at[n]! & 511]! * rows[n]!.mark;
  return sign;
}
