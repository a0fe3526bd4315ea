/**
 * The next reading: expected information about the repairs per minute, set-up paid once, two readings of look-ahead,
 * and a stop when no reading is worth its minutes against the expected loss of acting now.
 */
import type { ChargingSpec } from '../circuit/spec.ts';
import { completeKey, KINDS, SET_UP_MINUTES, setUpsOf } from '../reading/catalogue.ts';
import { type ReadingKey, readKey } from '../reading/key.ts';
import { POINT_KINDS, stateWords } from '../reading/show.ts';
import type { Doubt, Evidence, NextReading } from './answer.ts';
import type { Asked } from './asked.ts';
import { branchesOf } from './branches.ts';
import type { SlipShare } from './doubt.ts';
import { ENGINE_STATES } from './engine-states.ts';
import type { Taken } from './evidence.ts';
import { openGlance } from './glance.ts';
import { chooseTest, type TestModel } from './lookahead.ts';
import { bitsOf, givenOf, lookOut, type Offer, type Outlook, offersOf, outcomesOf } from './outlook.ts';
import { openProjector } from './projection.ts';
import type { Ranked } from './rank.ts';
import type { Costs } from './repairs.ts';
import { firstsOf, represent } from './represent.ts';
import { stopLossOf } from './stop-loss.ts';
import { whyWords } from './why-next.ts';

export interface Choice {
  readonly next: NextReading | null;
  readonly alternatives: readonly { readonly key: string; readonly minutes: number; readonly bits: number }[];
}

/** A reading that tells less than this is not offered, bits. */
const LEAST_BITS = 0.002;
/** Readings that are looked at with every hypothesis that speaks, after a glance at all with one for each list of repairs. */
const STUDIED = 16;
/** Readings looked at two deep. */
const DEEP = 8;
/** Share of a set-up that counts when readings are first sorted: others will share it, 1. */
const SHARED = 0.6;
/** A doubt from which taking the reading again is weighed against other readings, 0–1. */
const WORTH_DOUBTING = 0.03;

/** Chance of "none of these" from which the verdict goes on looking, whatever acting on the rest would cost, 0–1. */
const UNEXPLAINED = 0.2;

interface Scored {
  readonly offer: Offer;
  readonly bits: number;
  readonly minutes: number;
  readonly setUps: number;
  readonly rate: number;
  readonly outlook: Outlook;
}

const byRate = (a: Scored, b: Scored) => b.rate - a.rate;

const SET_UPS = Object.keys(SET_UP_MINUTES) as (keyof typeof SET_UP_MINUTES)[];

export function openChooser(spec: ChargingSpec, prices: Costs = {}) {
  const offers = offersOf(spec);
  const glance = openGlance(offers);
  const projector = openProjector();

  const choose = (
    best: readonly Ranked[],
    evidence: Evidence,
    suspected: readonly SlipShare[],
    before: readonly Taken[],
    doubtful: readonly Doubt[],
    noneOfThese: number,
  ): Choice => {
    const represented = represent(best);
    const { look, weights, classes, names } = represented;
    const spokesmen = firstsOf(represented);
    const paid = paidSetUps(evidence);
    const taken = Object.keys(evidence.readings).length;
    const states = statesOf(evidence);
    const costs = offers.map(({ key }) => costOf(key, paid));
    const score = (n: number): Scored => {
      const offer = offers[n]!;
      const outlook = lookOut(look, offer, states, projector);
      const bits = bitsOf(outlook, weights, classes, names.length);
      const { minutes, setUps, counted } = costs[n]!;
      return { offer, bits, minutes, setUps, rate: bits / counted, outlook };
    };
    const possible: number[] = [];
    offers.forEach(({ text, key, asked }, n) => {
      if (!(text in evidence.readings) && allowed(key, evidence) && (!asked.running || opened(asked, taken)))
        possible.push(n);
    });
    const familiar = Uint8Array.from(offers, ({ asked }) =>
      !asked.running || states.has(asked.words) ? 1 : 0,
    );
    const counted = Float64Array.from(costs, (cost) => cost.counted);
    projector.over(givenOf(look));
    const glanced = glance.best(spokesmen, projector, possible, familiar, counted, STUDIED);
    const ideas = glanced
      .map(({ n }) => score(n))
      .filter(({ bits }) => bits >= LEAST_BITS)
      .sort(byRate);
    const alternatives = ideas
      .slice(0, 12)
      .map((s) => ({ key: s.offer.text, minutes: s.minutes, bits: s.bits }));
    const doubts = suspected
      .map((doubt) => retakeOf(doubt, before, look))
      .filter((again) => allowed(again.taken.key, evidence) && !again.taken.again);
    const worst = doubts.find(({ taken }) => doubtful.some(({ key }) => key === taken.text));
    if (worst) return { next: takeAgain(worst), alternatives };
    const deep = ideas.slice(0, DEEP);
    const retakes = doubts.filter(({ doubt }) => doubt.probability > WORTH_DOUBTING).slice(0, 3);
    const model: TestModel = {
      hypotheses: look.length,
      tests: [
        ...deep.map((s) => ({
          ...outcomesOf(s.outlook, weights),
          cost: KINDS[s.offer.key.kind]!.minutes,
          setUps: s.setUps,
        })),
        ...retakes.map(({ taken: { key }, given }) => ({
          outcomes: 2,
          given,
          cost: KINDS[key.kind]!.minutes,
          setUps: 0,
        })),
      ],
      setUpCost: SET_UPS.map((need) => SET_UP_MINUTES[need]),
      stopLoss: stopLossOf(represented, prices),
      classes,
      nClasses: names.length,
    };
    const choice = chooseTest(model, weights, 0, { by: 'information', keep: DEEP });
    const again = choice.test === null ? undefined : retakes[choice.test - deep.length];
    if (again) return { next: takeAgain(again), alternatives };
    // No reason to act where nothing explains the readings: the likeliest sets are only the least unlikely.
    const top = deep[choice.test ?? (noneOfThese > UNEXPLAINED ? 0 : -1)];
    if (!top) return { next: null, alternatives };
    return {
      next: {
        key: top.offer.text,
        minutes: top.minutes,
        bits: top.bits,
        why: whyWords(top.bits, top.minutes, look, weights, classes, top.outlook),
        branches: branchesOf(look, weights, top.offer.key, top.outlook),
      },
      alternatives: alternatives.filter((a) => a.key !== top.offer.text),
    };
  };
  return { choose, ready: glance.ready };
}

/** A reading that could be taken again: a test with two outcomes, the same figure or another. */
interface Retake {
  readonly doubt: SlipShare;
  readonly taken: Taken;
  readonly given: Float64Array;
}

function retakeOf(doubt: SlipShare, before: readonly Taken[], look: readonly Ranked[]): Retake {
  const given = new Float64Array(2 * look.length);
  look.forEach(({ weighed, at }, h) => {
    let wrong = 0;
    for (const slip of weighed.slips) if (at[slip.row] === doubt.at) wrong += slip.share;
    given[2 * h] = 1 - Math.min(1, wrong);
    given[2 * h + 1] = Math.min(1, wrong);
  });
  return { doubt, taken: before[doubt.at]!, given };
}

function takeAgain({ doubt, taken }: Retake): NextReading {
  return {
    key: taken.text,
    minutes: KINDS[taken.key.kind]?.minutes ?? 3,
    bits: 0,
    why: `it does not fit the other readings (${doubt.mistake.title}); take it again before believing it`,
    branches: [],
  };
}

/** Set-ups that readings taken have paid for. */
export function paidSetUps(evidence: Pick<Evidence, 'readings'>): Set<string> {
  const paid = new Set<string>();
  for (const text of Object.keys(evidence.readings)) {
    const key = readKey(text);
    if (key) for (const need of setUpsOf(key)) paid.add(need);
  }
  return paid;
}

/** What a reading costs: its minutes with the set-ups still to be paid for, which these are, and minutes that count, min. */
function costOf(key: ReadingKey, paid: ReadonlySet<string>) {
  const { minutes } = KINDS[key.kind]!;
  let setUps = 0;
  let setUp = 0;
  for (const need of setUpsOf(key)) {
    if (paid.has(need)) continue;
    setUps |= 1 << SET_UPS.indexOf(need);
    setUp += SET_UP_MINUTES[need];
  }
  return { minutes: minutes + setUp, setUps, counted: minutes + SHARED * setUp };
}

/** Engine states that readings were taken in, and standing still. */
function statesOf(evidence: Evidence): Set<string> {
  const states = new Set<string>();
  for (const text of Object.keys(evidence.readings)) {
    const key = readKey(text);
    if (key && POINT_KINDS.has(key.kind)) states.add(stateWords(completeKey(key)));
  }
  return states;
}

function opened(asked: Asked, taken: number): boolean {
  const place = ENGINE_STATES.indexOf(asked.words);
  return place >= 0 && place < taken;
}

/** Whether the tools for a reading are at hand. */
export function allowed(key: ReadingKey, evidence: Pick<Evidence, 'tools'>): boolean {
  const tool = KINDS[key.kind]?.tool;
  // A reading that nobody knows how to take cannot be asked for again.
  if (tool === undefined) return false;
  if (tool === 'clamp-meter') return evidence.tools.clamp;
  if (tool === 'load-tester') return evidence.tools.loadTester;
  if (tool === 'hydrometer') return evidence.tools.hydrometer;
  if (tool === 'supply') return evidence.tools.supply;
  return true;
}
