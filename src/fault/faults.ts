/** The catalogue: every fault with its repair and prior weight. What each repair takes is in repairs.ts. */
import type { Fault, FaultId, Member, RepairId } from './catalogue.ts';

const GUESS = 'guess of this project, no source; common practice says joints and batteries fail most';

function fault(id: FaultId, member: Member, repair: RepairId, prior: number, title: string): Fault {
  return { id, member, repair, title, prior, priorSource: GUESS };
}

/** Prior weights are per bike that somebody complains of; sets of faults multiply them (see verdict/sets.ts). */
export const FAULTS: Readonly<Record<FaultId, Fault>> = {
  'battery-flat': fault('battery-flat', 'battery', 'charge-battery', 0.05, 'battery sound but flat'),
  'battery-sulphated': fault('battery-sulphated', 'battery', 'replace-battery', 0.1, 'battery sulphated'),
  'battery-shorted-cell': fault(
    'battery-shorted-cell',
    'battery',
    'replace-battery',
    0.04,
    'battery with a shorted cell',
  ),
  'battery-worn': fault('battery-worn', 'battery', 'replace-battery', 0.06, 'battery worn down in capacity'),
  'positive-post-joint': fault(
    'positive-post-joint',
    'positive-post',
    'remake-positive-post',
    0.04,
    'bad joint at the battery + post',
  ),
  'negative-post-joint': fault(
    'negative-post-joint',
    'negative-post',
    'remake-negative-post',
    0.04,
    'bad joint at the battery − post',
  ),
  'output-joint': fault(
    'output-joint',
    'output-joint',
    'remake-output-joint',
    0.11,
    'bad joint in the regulator output lead',
  ),
  'ground-joint': fault('ground-joint', 'ground', 'remake-ground', 0.07, 'bad ground at the regulator'),
  'breaker-joint': fault(
    'breaker-joint',
    'breaker',
    'remake-breaker',
    0.04,
    'bad joint at the main breaker or fuse',
  ),
  'plug-pin': fault(
    'plug-pin',
    'stator-plug',
    'replace-stator-plug',
    0.11,
    'one burnt pin in the stator plug',
  ),
  'plug-pins': fault(
    'plug-pins',
    'stator-plug',
    'replace-stator-plug',
    0.06,
    'several burnt pins in the stator plug',
  ),
  'stator-open': fault('stator-open', 'stator', 'replace-stator', 0.04, 'stator winding open'),
  'stator-core-terminal': fault(
    'stator-core-terminal',
    'stator',
    'replace-stator',
    0.04,
    'stator lead touching the core',
  ),
  'stator-core-midway': fault(
    'stator-core-midway',
    'stator',
    'replace-stator',
    0.05,
    'stator winding touching the core partway',
  ),
  'stator-shorted-turns': fault(
    'stator-shorted-turns',
    'stator',
    'replace-stator',
    0.05,
    'shorted turns in the stator',
  ),
  'stator-hot-short': fault(
    'stator-hot-short',
    'stator',
    'replace-stator',
    0.04,
    'stator touching the core only when hot',
  ),
  'rotor-weak': fault('rotor-weak', 'rotor', 'replace-rotor', 0.04, 'weak rotor magnets'),
  'diode-open': fault('diode-open', 'regulator', 'replace-regulator', 0.05, 'a rectifier device open'),
  'diode-shorted': fault(
    'diode-shorted',
    'regulator',
    'replace-regulator',
    0.05,
    'a rectifier device shorted',
  ),
  'regulator-dead': fault(
    'regulator-dead',
    'regulator',
    'replace-regulator',
    0.05,
    'regulator gives no output',
  ),
  'regulator-runaway': fault(
    'regulator-runaway',
    'regulator',
    'replace-regulator',
    0.05,
    'regulator does not limit the volts',
  ),
  'regulator-set-low': fault(
    'regulator-set-low',
    'regulator',
    'replace-regulator',
    0.04,
    'regulator limits too low',
  ),
  'sense-drop': fault('sense-drop', 'sense-wire', 'remake-sense-wire', 0.05, 'volts lost in the sense wire'),
  drain: fault('drain', 'drain', 'find-drain', 0.08, 'drain with the key off'),
  overload: fault('overload', 'loads', 'reduce-load', 0.08, 'more load than the alternator can carry'),
  'thin-wire': fault('thin-wire', 'output-wire', 'replace-output-wire', 0.03, 'output wire too thin'),
};

export const FAULT_IDS: readonly FaultId[] = Object.keys(FAULTS) as FaultId[];

/** Whether a fault can exist on a bike of this build at all. */
export function faultPossible(id: FaultId, build: { phases: 1 | 3; senses: 'output' | 'wire' }): boolean {
  if (id === 'sense-drop') return build.senses === 'wire';
  return true;
}

/** Faults that sit in one of several phases, pins or legs alike. */
export const LOCATED: ReadonlySet<FaultId> = new Set([
  'plug-pin',
  'plug-pins',
  'stator-open',
  'stator-core-terminal',
  'stator-core-midway',
  'stator-hot-short',
  'stator-shorted-turns',
  'diode-open',
  'diode-shorted',
]);
