/** Faults and repairs in words for somebody who has never held a meter. Words of a later version are shown as they are. */
import type { FaultId, Member, RepairId } from '../fault/catalogue.ts';
import { FAULTS } from '../fault/faults.ts';
import { REPAIRS } from '../fault/repairs.ts';

/** What each part is to somebody who only rides. */
const THINGS: Readonly<Record<Member, string>> = {
  rotor: 'the magnets that spin in the generator',
  stator: 'the copper windings of the generator inside the engine case',
  'stator-plug': 'the plug between the generator and the regulator',
  regulator: 'the regulator, the box that keeps the charging voltage right',
  'output-joint': 'a connection in the wire that carries the charge to the battery',
  'output-wire': 'the wire that carries the charge to the battery',
  breaker: 'the main fuse and its connections',
  'positive-post': 'the clamp on the plus side of the battery',
  battery: 'the battery',
  'negative-post': 'the clamp on the minus side of the battery',
  ground: 'the connection between the regulator and the frame',
  'sense-wire': 'the thin wire by which the regulator measures',
  loads: 'the lamps and extras together',
  drain: 'something that draws current with the key off',
};

/** What is wrong with it, where the part alone does not say it. */
const STATES: Readonly<Partial<Record<FaultId, string>>> = {
  'battery-flat': 'the battery was empty, but not worn out',
  'battery-sulphated': 'the battery has aged and no longer takes its charge',
  'battery-shorted-cell': 'one cell of the battery is dead',
  'battery-worn': 'the battery is worn out and holds too little',
  'plug-pin': 'a pin was burnt in the plug between the generator and the regulator',
  'plug-pins': 'pins were burnt in the plug between the generator and the regulator',
  'rotor-weak': 'the magnets that spin in the generator have grown weak',
  'regulator-runaway': 'the regulator let too much through',
  'regulator-set-low': 'the regulator let too little through',
  drain: 'something drew current while the key was off',
  overload: 'the lamps and extras took more than the generator can give',
  'thin-wire': 'the wire that carries the charge was too thin',
};

export function plainFault(fault: string): string {
  if (!Object.hasOwn(FAULTS, fault)) return fault;
  const { id, member } = FAULTS[fault as FaultId];
  return STATES[id] ?? `${asSubject(member)} had failed`;
}

/** What explains itself after a comma ends with one. */
function asSubject(member: Member): string {
  return THINGS[member].includes(',') ? `${THINGS[member]},` : THINGS[member];
}

const DEEDS: Readonly<Record<string, string>> = {
  replace: 'was replaced by a new one',
  remake: 'was cleaned and made again',
  charge: 'was charged',
};

export function plainRepair(repair: string): string {
  if (!Object.hasOwn(REPAIRS, repair)) return repair;
  const { id, member } = REPAIRS[repair as RepairId];
  if (id === 'find-drain') return 'what drew current with the key off was found and put right';
  if (id === 'reduce-load') return 'some of the lamps and extras were taken off or made lighter';
  if (id === 'replace-stator') return `${THINGS[member]} were replaced by new ones`;
  if (id === 'replace-rotor') return `${THINGS[member]} were replaced by new ones`;
  if (id === 'replace-stator-plug') return `${THINGS[member]} was replaced on both sides`;
  return `${asSubject(member)} ${DEEDS[id.split('-')[0]!] ?? 'was repaired'}`;
}
