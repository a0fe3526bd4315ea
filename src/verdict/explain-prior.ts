/** What is believed of each repair before any reading: every set of up to three faults, the owner's words heard. */
import type { FaultId, RepairId } from '../fault/catalogue.ts';
import { FAULTS } from '../fault/faults.ts';
import { REPAIR_IDS } from '../fault/repairs.ts';
import { complaintWeight } from './complaint.ts';
import type { Field } from './field.ts';
import { CASCADE, COUNT, mayJoin } from './sets.ts';

/**
 * Probability of each repair before any reading, 0–1. Summed over sets of faults, not of atoms: where a fault sits and
 * how bad it is does not change what cures it. `flat`: share of sound bikes whose battery is only flat.
 */
export function priorOfRepairs(
  field: Field,
  symptoms: readonly string[],
  flat: number,
): Record<RepairId, number> {
  const share = new Map<FaultId, number>();
  for (const { base } of field.members) {
    if (base.faults.length !== 1) continue;
    const mass = (base.turns * Math.exp(base.logPrior)) / COUNT[1];
    share.set(base.faults[0]!, (share.get(base.faults[0]!) ?? 0) + mass);
  }
  const faults = [...share.keys()];
  const masses = Object.fromEntries(REPAIR_IDS.map((id) => [id, 0])) as Record<RepairId, number>;
  let total = 0;
  const add = (set: readonly FaultId[]) => {
    let mass = COUNT[set.length as 0 | 1 | 2 | 3];
    // n! orders of n distinct faults make the same set.
    set.forEach((fault, n) => {
      mass *= (n + 1) * share.get(fault)!;
    });
    for (const [a, b, factor] of CASCADE) if (set.includes(a) && set.includes(b)) mass *= factor;
    mass *= Math.exp(complaintWeight(symptoms, set));
    total += mass;
    if (set.length === 0) masses['charge-battery'] += mass * flat;
    for (const repair of new Set(set.map((fault) => FAULTS[fault].repair))) masses[repair] += mass;
  };
  const grow = (set: readonly FaultId[], from: number) => {
    add(set);
    if (set.length === 3) return;
    const together = set.map((fault) => ({ fault }));
    for (let n = from; n < faults.length; n++)
      if (mayJoin(together, { fault: faults[n]! })) grow([...set, faults[n]!], n + 1);
  };
  grow([], 0);
  for (const repair of REPAIR_IDS) masses[repair] /= total;
  return masses;
}
