/** The loop of a job for paper: what was suspected when the verdict was accepted, on this bike's circuit. */
import { drawLoop } from '../draw/loop.ts';
import type { SvgNode } from '../draw/svg.ts';
import { type FaultId, MEMBERS, type Member } from '../fault/catalogue.ts';
import { FAULTS } from '../fault/faults.ts';
import type { JobState } from '../job/fold.ts';
import { chargingSpec } from '../machine/charging-spec.ts';
import type { Machine } from '../machine/definition.ts';

/** Draws it wide. Without an accepted verdict its members are named and no more. */
export function loopOfJob({ accepted }: Pick<JobState, 'accepted'>, machine: Machine): SvgNode {
  const { alternator, regulator, loadsFedFrom } = chargingSpec(machine);
  return drawLoop({
    phases: alternator.phases,
    regulator: regulator.kind,
    senses: regulator.senses,
    loadsFedFrom,
    suspicion: suspicionOf(accepted?.sets ?? []),
    proven: [],
    shape: 'wide',
    plain: accepted === null,
  });
}

/** Probability that something is wrong with each member, 0–1, from the sets of faults. Words of a later version tell of none. */
export function suspicionOf(
  sets: readonly { readonly faults: readonly string[]; readonly probability: number }[],
): Record<Member, number> {
  const shares = Object.fromEntries(MEMBERS.map((member) => [member, 0])) as Record<Member, number>;
  for (const { faults, probability } of sets) {
    const members = faults.flatMap((fault) =>
      Object.hasOwn(FAULTS, fault) ? [FAULTS[fault as FaultId].member] : [],
    );
    for (const member of new Set(members)) shares[member] += probability;
  }
  for (const member of MEMBERS) shares[member] = Math.min(1, shares[member]);
  return shares;
}
