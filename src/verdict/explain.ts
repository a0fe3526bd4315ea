/**
 * Why each suspect is suspected: what spoke for and against it and by how much, which guess the advice leans on, and
 * what the readings leave open. For a person who asks; an answer does not need it.
 */
import type { ChargingSpec } from '../circuit/spec.ts';
import type { FaultId, RepairId } from '../fault/catalogue.ts';
import { FAULTS } from '../fault/faults.ts';
import { REPAIR_IDS } from '../fault/repairs.ts';
import type { Evidence } from './answer.ts';
import { flatterBy } from './complaint.ts';
import type { Taken } from './evidence.ts';
import { alikeLists } from './explain-alike.ts';
import { type Effects, effectsOf, flatShare, SETTLED } from './explain-effects.ts';
import { flipsOf, type Lines } from './explain-flip.ts';
import { priorOfRepairs } from './explain-prior.ts';
import { gatherStories } from './explain-stories.ts';
import type { Effect, Explanation, RemainingDoubt, Suspect } from './explanation.ts';
import type { Field } from './field.ts';
import type { Ranking } from './rank.ts';
import { tempered } from './temper.ts';
import { type Told, told } from './told.ts';

/** Suspects explained at the most, and places among them that are kept for those that were likely and are cleared. */
const MOST = 6;
const CLEARED = 2;
/** Probability from which a repair is a suspect; and prior from which a cleared one is worth a word, 0–1. */
const SUSPECT = 0.02;
const WAS_LIKELY = 0.05;
/** An effect smaller than this is left out, bit. */
const LEAST_BITS = 0.1;
/** What an explanation needs beside the ranking. */
export interface Setting {
  readonly spec: ChargingSpec;
  readonly tools: Evidence['tools'];
  /** The advice, to see what would turn it. */
  readonly lines: Lines;
}

export function explain(
  field: Field,
  taken: readonly Taken[],
  symptoms: readonly string[],
  ranking: Ranking,
  { spec, tools, lines }: Setting,
): Explanation {
  const flatter = flatterBy(symptoms);
  const sure = told(ranking.best, flatter);
  const list = tempered(sure);
  const doubt = remainingDoubt(list, ranking.noneOfThese);
  if (taken.length === 0) return { suspects: [], alike: [], doubt };
  const before = priorOfRepairs(field, symptoms, flatShare(field.sound, [], flatter));
  const now = massOf(list, 'probability');
  const shares = massOf(sure, 'share');
  const evenedShares = massOf(list, 'share');
  const effects = effectsOf(gatherStories(field, taken, symptoms, ranking), taken.length, flatter);
  const suspects = suspected(before, now).map((repair): Suspect => {
    const supports = effectsOn(repair, effects, taken).filter((effect) => effect.bits > 0);
    const opposes = effectsOn(repair, effects, taken).filter((effect) => effect.bits < 0);
    const probability = now[repair];
    const reached = settled(logit(shares[repair]));
    let remainder = reached - logit(before[repair]);
    for (const { bits } of [...supports, ...opposes]) remainder -= bits;
    return {
      repair,
      faults: faultsBehind(repair, list),
      probability,
      before: before[repair],
      supports,
      opposes,
      remainder,
      evened: settled(logit(evenedShares[repair])) - reached,
      ...flipsOf(repair, list, ranking.noneOfThese, lines),
    };
  });
  return { suspects, alike: alikeLists(spec, tools, taken, ranking.best), doubt };
}

function logit(probability: number): number {
  return Math.log2(probability / (1 - probability));
}

/** Log odds held within what the effects count, bit. */
function settled(bits: number): number {
  return Math.max(-SETTLED, Math.min(SETTLED, bits));
}

/** Probability of each repair, or its share among the sets of the catalogue. */
function massOf(list: readonly Told[], of: 'probability' | 'share'): Record<RepairId, number> {
  const now = Object.fromEntries(REPAIR_IDS.map((id) => [id, 0])) as Record<RepairId, number>;
  for (const told of list) for (const repair of told.repairs) now[repair] += told[of];
  for (const repair of REPAIR_IDS) now[repair] = Math.min(1, now[repair]);
  return now;
}

/** The likeliest repairs, then those that were likely before and are cleared. */
function suspected(
  before: Readonly<Record<RepairId, number>>,
  now: Readonly<Record<RepairId, number>>,
): RepairId[] {
  const likely = REPAIR_IDS.filter((id) => now[id] >= SUSPECT).sort((a, b) => now[b] - now[a]);
  const cleared = REPAIR_IDS.filter((id) => now[id] < SUSPECT && before[id] >= WAS_LIKELY);
  cleared.sort((a, b) => before[b] - before[a]);
  const kept = Math.min(CLEARED, cleared.length);
  return [...likely.slice(0, MOST - kept), ...cleared].slice(0, MOST).sort((a, b) => now[b] - now[a]);
}

function effectsOn(repair: RepairId, effects: Effects, taken: readonly Taken[]): Effect[] {
  const row = REPAIR_IDS.indexOf(repair) * taken.length;
  return taken
    .map(({ text }, n) => ({ key: text, bits: effects.bits[row + n]!, lastBits: effects.lastBits[row + n]! }))
    .filter(({ bits }) => Math.abs(bits) >= LEAST_BITS)
    .sort((a, b) => Math.abs(b.bits) - Math.abs(a.bits));
}

function faultsBehind(repair: RepairId, list: readonly Told[]): Suspect['faults'] {
  const shares = new Map<FaultId, number>();
  for (const { faults, probability } of list) {
    for (const fault of faults)
      if (FAULTS[fault].repair === repair) shares.set(fault, (shares.get(fault) ?? 0) + probability);
  }
  return [...shares]
    .map(([fault, probability]) => ({ fault, probability: Math.min(1, probability) }))
    .filter(({ probability }) => probability >= 0.005)
    .sort((a, b) => b.probability - a.probability);
}

/** The likeliest list of repairs, its strongest rival, and what is left beside them. */
function remainingDoubt(list: readonly Told[], noneOfThese: number): RemainingDoubt {
  const lists = new Map<string, { repairs: readonly RepairId[]; probability: number }>();
  for (const { repairs, probability } of list) {
    const sorted = [...repairs].sort();
    const name = sorted.join('+');
    const one = lists.get(name);
    if (one) one.probability += probability;
    else lists.set(name, { repairs: sorted, probability });
  }
  const [likeliest, rival, ...rest] = [...lists.values()].sort((a, b) => b.probability - a.probability);
  return {
    likeliest: likeliest ?? { repairs: [], probability: 0 },
    rival: rival ?? null,
    others: rest.reduce((sum, { probability }) => sum + probability, 0),
    noneOfThese,
  };
}
