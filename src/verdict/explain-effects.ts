/**
 * How much each reading has done for and against each suspect.
 *
 * "What would the odds be without this reading?" is the obvious answer and not one that a person believes: where three
 * readings say the same, each could be spared, so each gets next to nothing, though together they decide. "What does
 * this reading say alone?" errs the other way and counts the same thing three times. So each reading gets what it adds
 * to the log odds when it is heard after some of the others, averaged over orders (the Shapley value of the readings:
 * the one split in which equal readings share alike and the parts add up to the whole change). Six orders are gone
 * through, three turns of one shuffle and their reverses, so that each reading is heard early about as often as late;
 * they depend on nothing but how many readings there are. Beside it stands what the reading adds when all others are
 * known: where that is small, the verdict does not hang on this reading.
 *
 * Stories that count once all, or all but one, of the readings are known are weighed in full; the thousands that are
 * buried by then are weighed roughly (25 readings: 0.6 s of one core; all of them in full: 12 s).
 *
 * The odds are among the sets of the catalogue: "none of these" is told apart.
 *
 * Rejected: each reading's effect in the order it was taken. It makes the first of two equal readings the reason and the
 * second idle, and a verdict must not depend on the order.
 */
import { REPAIR_IDS } from '../fault/repairs.ts';
import { openStream } from '../numbers/random.ts';
import { weighAlong } from './explain-path.ts';
import { roughAlong } from './explain-rough.ts';
import type { Story } from './explain-stories.ts';
import type { Member } from './field.ts';
import type { Ranked } from './rank.ts';
import { BELIEF } from './rank.ts';
import { skewGain } from './skew.ts';
import { told } from './told.ts';
import { type Row, weigh } from './weigh.ts';

/** Shuffles turned, each with its reverse. */
const TURNS = 3;
/**
 * Log odds that count as settled, bits. Beyond ten thousand to one no guess about bikes bears more, and with the cap the
 * readings that came when all was settled get nothing for it.
 */
export const SETTLED = Math.log2(1e4);
/** Stories weighed in full with many and with few readings, the work for all of them, and how far behind they may be, nats. */
const NEAR_LEAST = 160;
const NEAR_MOST = 4000;
const NEAR_WORK = 2.5e6;
const NEAR_NATS = 14;
/** Nats behind the best story at which one adds nothing to odds within the cap. */
const FORGOTTEN = -24;
/** What the shapes of a story's unknowns must change in its weight to be counted in (skew.ts), nats. */
const FELT = 0.3;
/** A mass that counts as none, 1: odds stay finite. */
const NOTHING = 1e-290;

export interface Effects {
  /** Log odds of each repair before and after all readings, bit. */
  readonly before: Float64Array;
  readonly after: Float64Array;
  /** Share of each reading in the change, repair by repair: `bits[repair * readings + reading]`, bit. */
  readonly bits: Float64Array;
  /** What each reading adds when all others are known, laid out alike, bit. */
  readonly lastBits: Float64Array;
}

/** `flatter`: how much likelier the owner's words are with a flat battery than with a sound one (complaint.ts), 1. */
export function effectsOf(stories: readonly Story[], readings: number, flatter: number): Effects {
  const repairs = REPAIR_IDS.length;
  const steps = readings + 1;
  const bits = new Float64Array(repairs * readings);
  const lastBits = new Float64Array(repairs * readings);
  const all = ordersOf(readings);
  const { near, far } = parted(stories, all[0]!);
  const ranked = [...near, ...far];
  const logs = all.map(() => new Float64Array(ranked.length * steps));
  const best = all.map(() => new Float64Array(steps).fill(Number.NEGATIVE_INFINITY));
  const without = new Float64Array(near.length * readings);
  near.forEach((story, n) => {
    const left = without.subarray(n * readings, (n + 1) * readings);
    all.forEach((order, at) => {
      weighAlong(story, order, logs[at]!, n * steps, best[at]!, at === 0 ? left : null);
    });
    const skewed = (heard: readonly number[]) => skewGain(weigh(rowsHeard(story, heard)).given, story.base);
    if (Math.abs(skewed(all[0]!)) < FELT) return;
    all.forEach((order, at) => {
      for (let step = 1; step < steps; step++) logs[at]![n * steps + step]! += skewed(order.slice(0, step));
    });
    for (let reading = 0; reading < readings; reading++)
      left[reading]! += skewed(all[0]!.filter((other) => other !== reading));
  });
  let before: Float64Array = new Float64Array(repairs);
  const after = oddsOf(near, logs[0]!, steps, readings, all[0]!, flatter);
  all.forEach((order, at) => {
    const log = logs[at]!;
    far.forEach((story, n) => {
      roughAlong(story, order, log, (near.length + n) * steps, best[at]!);
    });
    let earlier: Float64Array | null = null;
    for (let step = 0; step < steps; step++) {
      // What counts when all is heard is weighed in full: every order ends at the same odds.
      const odds =
        step === readings ? after : oddsOf(ranked, log, steps, step, order.slice(0, step), flatter);
      if (earlier) {
        const reading = order[step - 1]!;
        for (let r = 0; r < repairs; r++)
          bits[r * readings + reading]! += (odds[r]! - earlier[r]!) / all.length;
      } else before = odds;
      earlier = odds;
    }
  });
  for (let reading = 0; reading < readings; reading++) {
    const rest = all[0]!.filter((n) => n !== reading);
    const odds = oddsOf(near, without, readings, reading, rest, flatter);
    for (let r = 0; r < repairs; r++) lastBits[r * readings + reading] = after[r]! - odds[r]!;
  }
  return { before, after, bits, lastBits };
}

/**
 * Parts the stories into those that count once all, or all but one, of the readings are known, which are weighed as
 * the ranking does it, and the rest. The sound bike always counts.
 */
function parted(
  stories: readonly Story[],
  order: readonly number[],
): { readonly near: readonly Story[]; readonly far: readonly Story[] } {
  const m = order.length;
  const log = new Float64Array(m + 1);
  const part = new Float64Array(m);
  // The ranking's likeliest comes first: all others are held against it.
  const lead = new Float64Array(m);
  const best = new Float64Array(m + 1);
  if (stories[0]) roughAlong(stories[0], order, best, 0, null, lead);
  const spared = stories.map((story) => {
    roughAlong(story, order, log, 0, best, part, lead);
    let most = 0;
    for (let j = 0; j < m; j++) most = Math.max(most, lead[j]! - part[j]!);
    return Math.log(story.prior) + log[m]! + most;
  });
  const top = Math.log(stories[0]?.prior ?? 1) + best[m]!;
  const many = Math.max(NEAR_LEAST, Math.min(NEAR_MOST, Math.floor(NEAR_WORK / m ** 3)));
  const byNearness = stories.map((_, n) => n).sort((a, b) => spared[b]! - spared[a]!);
  const chosen = new Set(byNearness.slice(0, many).filter((n) => spared[n]! > top - NEAR_NATS));
  const isNear = stories.map((story, n) => story.sound !== null || chosen.has(n));
  return { near: stories.filter((_, n) => isNear[n]), far: stories.filter((_, n) => !isNear[n]) };
}

/** Log odds of every repair, bit, from the log weights on the readings `heard`: every `stride`, the first at `from`. */
function oddsOf(
  stories: readonly Story[],
  logs: Float64Array,
  stride: number,
  from: number,
  heard: readonly number[],
  flatter: number,
): Float64Array {
  let top = Number.NEGATIVE_INFINITY;
  for (let n = 0; n < stories.length; n++) top = Math.max(top, logs[n * stride + from]!);
  const repairs = REPAIR_IDS.length;
  const needed = new Float64Array(repairs);
  const spared = new Float64Array(repairs);
  for (let n = 0; n < stories.length; n++) {
    const story = stories[n]!;
    const behind = BELIEF * (logs[n * stride + from]! - top);
    if (behind < FORGOTTEN) continue;
    const weight = Math.exp(behind);
    const flat = story.sound ? flatShare(story.sound, rowsHeard(story, heard), flatter) : 0;
    for (let r = 0; r < repairs; r++) {
      needed[r]! += weight * story.needs[r]!;
      spared[r]! += weight * story.spares[r]!;
    }
    if (flat > 0) {
      const charge = REPAIR_IDS.indexOf('charge-battery');
      needed[charge]! += weight * flat * story.prior;
      spared[charge]! -= weight * flat * story.prior;
    }
  }
  return Float64Array.from(needed, (mass, r) => {
    const bits = Math.log2(Math.max(mass, NOTHING) / Math.max(spared[r]!, NOTHING));
    return Math.max(-SETTLED, Math.min(SETTLED, bits));
  });
}

function rowsHeard(story: Story, heard: readonly number[]): Row[] {
  const rows: Row[] = [];
  for (const n of heard) if (story.rows[n]) rows.push(story.rows[n]!);
  return rows;
}

/** Chance that a sound bike's battery is flat, given these readings, 0–1: as told.ts says it; `flatter` as there. */
export function flatShare(member: Member, rows: readonly Row[], flatter: number): number {
  const sound: Ranked = {
    member,
    turn: 0,
    weighed: weigh(rows),
    at: [],
    sign: 0,
    computed: true,
    share: 1,
    probability: 1,
  };
  let flat = 0;
  for (const { repairs, share } of told([sound], flatter))
    if (repairs.includes('charge-battery')) flat += share;
  return flat;
}

/** The orders gone through, the same for every bike with as many readings. */
function ordersOf(readings: number): number[][] {
  const stream = openStream(readings);
  const shuffle = Array.from({ length: readings }, (_, n) => n);
  for (let n = readings - 1; n > 0; n--) {
    const m = Math.floor(stream() * (n + 1));
    [shuffle[n], shuffle[m]] = [shuffle[m]!, shuffle[n]!];
  }
  const orders: number[][] = [];
  for (let turn = 0; turn < TURNS; turn++) {
    const from = Math.floor((turn * readings) / TURNS);
    const order = [...shuffle.slice(from), ...shuffle.slice(0, from)];
    orders.push(order, [...order].reverse());
  }
  return orders;
}
