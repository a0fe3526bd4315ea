/**
 * Room `proof`: what shows that a repaired bike charges. It puts together the bike as it is now (the new parts' own
 * figures), what the accepted verdict and the repairs leave in doubt, what is to be read and looked at, and how the
 * proof stands. The inference itself is room `verdict`'s.
 *
 * This file: the repaired bike.
 */
import type { ChargingSpec } from '../circuit/spec.ts';
import type { RepairId } from '../fault/catalogue.ts';
import { FAULT_IDS } from '../fault/faults.ts';
import { REPAIR_IDS } from '../fault/repairs.ts';
import { type JobState, proofEvidenceOf } from '../job/fold.ts';
import type { Made } from '../job/proof-fold.ts';
import { chargingSpec } from '../machine/charging-spec.ts';
import type { Machine } from '../machine/definition.ts';
import { partsOfRepairs } from '../machine/new-parts.ts';
import { type AfterRepair, afterRepair } from '../verdict/after-repair.ts';
import type { Evidence, FaultSet } from '../verdict/answer.ts';

/** The bike with the new parts that the repairs brought, all rounds together. */
export function repairedSpec(machine: Machine, made: readonly string[]): ChargingSpec {
  return chargingSpec(machine, partsOfRepairs(made));
}

/** The repairs of all rounds so far, each once. */
export function allRepairs(state: JobState): readonly string[] {
  const { made, before } = state.proof;
  return [...new Set([...before.flatMap((round) => round.made.repairs), ...(made?.repairs ?? [])])];
}

/** What is believed of the repaired bike before it is read: as it was written down when the repairs were made. */
export function expectedOf({ left, noneOfThese }: Made): AfterRepair {
  const known = left.filter(
    ({ fault, chance }) => (FAULT_IDS as readonly string[]).includes(fault) && chance > 0 && chance < 1,
  );
  return { left: Object.fromEntries(known.map(({ fault, chance }) => [fault, chance])), noneOfThese };
}

/** What a round of repairs leaves in doubt, from what was believed before it. */
export function leftAfter(
  believed: { readonly sets: readonly FaultSet[]; readonly noneOfThese: number },
  repairs: readonly string[],
  spec: ChargingSpec,
): AfterRepair {
  const build = { phases: spec.alternator.phases, senses: spec.regulator.senses };
  const made = REPAIR_IDS.filter((id) => repairs.includes(id));
  return afterRepair(believed.sets, believed.noneOfThese, made, build);
}

/** Repairs that were most likely made: those the accepted verdict called for, and those whose steps are ticked. */
export function likelyMade(state: JobState, machine: Machine): readonly RepairId[] {
  const wanted = new Set<string>();
  for (const { repair, worthDoing, whileOpen } of state.accepted?.repairs ?? [])
    if (worthDoing || whileOpen) wanted.add(repair);
  const done = doneSteps(state);
  for (const target of Object.values(machine.work?.targets ?? {}))
    if (target.work?.some(({ id }) => done.has(id)))
      for (const repair of target.repairs ?? []) wanted.add(repair);
  return REPAIR_IDS.filter((id) => wanted.has(id));
}

/** Ids of the steps ticked as done. */
export function doneSteps(state: JobState): ReadonlySet<string> {
  return new Set(state.way.ticks.filter(({ done }) => done !== null).map(({ step }) => step));
}

/**
 * Readings that no proof of such repairs goes without, beside those of every proof: a new stator is measured to the
 * core before it is plugged in. Common practice, no source.
 */
export function mustRead(repairs: readonly string[]): readonly string[] {
  return repairs.includes('replace-stator') ? ['ohms_case pin=a temp=cold'] : [];
}

/** What the inference needs of one repaired bike. */
export interface Repaired {
  readonly spec: ChargingSpec;
  readonly after: AfterRepair;
  /** Readings taken whatever they find, by key. */
  readonly must: readonly string[];
  readonly evidence: Evidence;
}

/** The repaired bike of a job; null while nothing was said to be repaired. */
export function repairedOf(state: JobState, machine: Machine): Repaired | null {
  const { made } = state.proof;
  if (made === null) return null;
  const repairs = allRepairs(state);
  return {
    spec: repairedSpec(machine, repairs),
    after: expectedOf(made),
    must: mustRead(repairs),
    evidence: proofEvidenceOf(state),
  };
}
