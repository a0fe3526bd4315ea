/** Opens an assessor for one bike and asks it for answers. */
import type { ChargingSpec } from '../circuit/spec.ts';
import { type FaultId, MEMBERS, type Member } from '../fault/catalogue.ts';
import { FAULTS } from '../fault/faults.ts';
import { checkKey, completeKey } from '../reading/catalogue.ts';
import { meterScatter } from '../reading/noise.ts';
import type { Answer, Evidence, FaultSet, SoundShows } from './answer.ts';
import { askedOf } from './asked.ts';
import { beyondThree } from './beyond.ts';
import { openChooser } from './choose.ts';
import { flatterBy } from './complaint.ts';
import { uncheckedKeys } from './cross-check.ts';
import { contradicts, doubts, doubtsWith, slipShares } from './doubt.ts';
import { type Hopeful, hopefulOf, openWarmer } from './engine-states.ts';
import { prepare, type Taken } from './evidence.ts';
import { explain } from './explain.ts';
import type { Explanation } from './explanation.ts';
import { catalogueWeights, openField } from './field.ts';
import { offersOf } from './outlook.ts';
import { openRanker } from './rank.ts';
import { type Costs, openRepairLines } from './repairs.ts';
import type { Speaker } from './sheets.ts';
import { tempered } from './temper.ts';
import { type Told, told } from './told.ts';

/** Kinds of reading that may be negative on a sound bike. */
const SIGNED = new Set(['batt_amps', 'drop_pos', 'drop_breaker']);

export interface Assessor {
  /** The verdict on this evidence, with the next reading. Deterministic for a seed. */
  readonly assess: (evidence: Evidence) => Answer;
  /** What a sound bike of this kind shows for a reading key. */
  readonly sound: (key: string) => SoundShows;
  /**
   * Works out beforehand a little of what coming answers need: some milliseconds at each call, false when nothing is left
   * to do before the next answer. It never changes an answer.
   */
  readonly warm: () => boolean;
  /** Why each suspect is suspected on this evidence. Slower than an answer: for a person who asks. */
  readonly explain: (evidence: Evidence) => Explanation;
}

export interface AssessorOptions {
  readonly seed?: number;
  /** Prior weights to use instead of the catalogue's. */
  readonly weights?: Readonly<Partial<Record<FaultId, number>>>;
  /** What parts cost and repairs take on this bike, where the machine file or the owner says better. */
  readonly costs?: Costs;
}

export function openAssessor(spec: ChargingSpec, options: AssessorOptions = {}): Assessor {
  const weights = { ...catalogueWeights(), ...options.weights };
  const field = openField(spec, weights, options.seed ?? 1);
  const { rank, ahead } = openRanker(field);
  const { choose, ready } = openChooser(spec, options.costs);
  const repairs = openRepairLines(options.costs);
  let hopeful: readonly Hopeful[] = [];
  const offered = offersOf(spec).map(({ asked }) => asked);
  const warm = openWarmer(field, offered, spec.alternator.phases, () => hopeful);
  const known = new Map<string, Taken>();
  let speakers: Speaker[] = [];
  const glanceAhead = (): boolean => {
    const speaker = speakers.pop();
    if (speaker) ready(speaker);
    return speaker !== undefined;
  };
  return {
    warm: () => ahead() || warm() || glanceAhead(),
    assess: (evidence) => {
      const taken = prepare(evidence, spec.alternator.phases, known);
      const ranking = rank(taken, evidence.symptoms);
      const { best, noneOfThese } = ranking;
      hopeful = hopefulOf(ranking.rated);
      // Taken from the end: the likeliest first.
      speakers = hopeful
        .map(({ member, turn }) => ({ member, turn, computed: ranking.chosen.has(member) }))
        .reverse();
      const list = tempered(told(best, flatterBy(evidence.symptoms)));
      const suspected = slipShares(best);
      const doubtful = doubts(suspected, taken);
      const { next, alternatives } = choose(best, evidence, suspected, taken, doubtful, noneOfThese);
      const again = next && next.key in evidence.readings ? next.key : undefined;
      return {
        sets: faultSets(list),
        suspicion: suspicions(list),
        repairs: repairs(list, noneOfThese),
        next,
        alternatives,
        doubtful: doubtsWith(doubtful, suspected, taken, again),
        noneOfThese,
        beyondThree: beyondThree(field, best, taken),
        unchecked: uncheckedKeys(ranking, taken),
        misfit: contradicts(best, noneOfThese),
      };
    },
    explain: (evidence) => {
      const taken = prepare(evidence, spec.alternator.phases);
      const ranking = rank(taken, evidence.symptoms);
      const setting = { spec, tools: evidence.tools, lines: repairs };
      return explain(field, taken, evidence.symptoms, ranking, setting);
    },
    sound: (text) => {
      const checked = checkKey(text);
      if (!checked.ok) throw new RangeError(`reading key: ${checked.why}`);
      const key = completeKey(checked.key);
      if (key.kind === 'visual') return { band: null, openShare: 0 };
      const { fit } = field.sound.rough.read(askedOf(key));
      if (Number.isNaN(fit.middle)) return { band: null, openShare: 1 };
      let variance = fit.residual + meterScatter(key, fit.middle) ** 2;
      for (const s of fit.slope) variance += s * s;
      // 95 of 100 sound bikes read inside.
      const half = 1.96 * Math.sqrt(variance);
      // No meter shows less than nothing, but for the few readings that have a sign.
      const least = SIGNED.has(key.kind) ? fit.middle - half : Math.max(0, fit.middle - half);
      return { band: { low: least, high: fit.middle + half }, openShare: fit.open };
    },
  };
}

/** Hypotheses gathered by their set of faults, most probable first. */
function faultSets(list: readonly Told[]): FaultSet[] {
  const sets = new Map<string, { faults: readonly FaultId[]; probability: number }>();
  for (const { faults, probability } of list) {
    const name = faults.join('+');
    const set = sets.get(name);
    if (set) set.probability += probability;
    else sets.set(name, { faults, probability });
  }
  return [...sets.values()].sort((a, b) => b.probability - a.probability);
}

function suspicions(list: readonly Told[]): Record<Member, number> {
  const shares = Object.fromEntries(MEMBERS.map((m) => [m, 0])) as Record<Member, number>;
  for (const { faults, probability } of list)
    for (const m of new Set(faults.map((f) => FAULTS[f].member))) shares[m] += probability;
  for (const m of MEMBERS) shares[m] = Math.min(1, shares[m]);
  return shares;
}
