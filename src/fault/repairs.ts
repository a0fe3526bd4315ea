/** What can be done about it: every repair with its part, its minutes, and the covers it needs off. */
import type { Cover, CoverId, Member, Repair, RepairId } from './catalogue.ts';

/** Minutes to take off and put back, both together: guesses, no source. */
export const COVERS: Readonly<Record<CoverId, Cover>> = {
  seat: { id: 'seat', title: 'the seat, with the battery laid free', minutes: 10 },
  side: { id: 'side', title: 'the side cover over the regulator and its plugs', minutes: 15 },
  alternator: { id: 'alternator', title: 'the alternator cover, with its gasket and oil', minutes: 120 },
};

export const COVER_IDS: readonly CoverId[] = Object.keys(COVERS) as CoverId[];

function repair(
  id: RepairId,
  member: Member,
  title: string,
  covers: readonly CoverId[],
  partCost: number,
  minutes: number,
): Repair {
  return { id, member, title, covers, partCost, minutes };
}

/** Costs in an invented currency, minutes of one pair of hands once the covers are off: guesses, no source. */
export const REPAIRS: Readonly<Record<RepairId, Repair>> = {
  'charge-battery': repair('charge-battery', 'battery', 'Charge the battery on the bench', ['seat'], 0, 10),
  'replace-battery': repair('replace-battery', 'battery', 'Replace the battery', ['seat'], 90, 10),
  'remake-positive-post': repair(
    'remake-positive-post',
    'positive-post',
    'Clean and remake the joint at the + post',
    ['seat'],
    2,
    5,
  ),
  'remake-negative-post': repair(
    'remake-negative-post',
    'negative-post',
    'Clean and remake the joint at the − post',
    ['seat'],
    2,
    5,
  ),
  'remake-output-joint': repair(
    'remake-output-joint',
    'output-joint',
    'Remake the joint in the regulator output lead',
    ['side'],
    6,
    15,
  ),
  'remake-ground': repair(
    'remake-ground',
    'ground',
    'Clean and remake the regulator ground',
    ['side'],
    3,
    10,
  ),
  'remake-breaker': repair(
    'remake-breaker',
    'breaker',
    'Clean or replace the main breaker and its joints',
    ['seat'],
    12,
    15,
  ),
  'replace-stator-plug': repair(
    'replace-stator-plug',
    'stator-plug',
    'Replace the stator plug, both halves',
    ['side'],
    15,
    30,
  ),
  // Its lead runs up to the plug behind the side cover.
  'replace-stator': repair('replace-stator', 'stator', 'Replace the stator', ['alternator', 'side'], 160, 45),
  'replace-rotor': repair('replace-rotor', 'rotor', 'Replace the rotor', ['alternator'], 240, 60),
  'replace-regulator': repair('replace-regulator', 'regulator', 'Replace the regulator', ['side'], 120, 25),
  'remake-sense-wire': repair(
    'remake-sense-wire',
    'sense-wire',
    'Repair the sense wire and its joints',
    ['side'],
    5,
    15,
  ),
  'find-drain': repair('find-drain', 'drain', 'Find and cure the key-off drain', [], 5, 60),
  'reduce-load': repair('reduce-load', 'loads', 'Take load off: fewer accessories, lighter lamps', [], 0, 20),
  // From the regulator to the battery: both ends.
  'replace-output-wire': repair(
    'replace-output-wire',
    'output-wire',
    'Replace the output wire by a thicker one',
    ['seat', 'side'],
    10,
    20,
  ),
};

export const REPAIR_IDS: readonly RepairId[] = Object.keys(REPAIRS) as RepairId[];

/** Covers that a list of repairs needs off, each named once. */
export function coversOf(repairs: readonly RepairId[]): CoverId[] {
  return COVER_IDS.filter((cover) => repairs.some((id) => REPAIRS[id].covers.includes(cover)));
}
