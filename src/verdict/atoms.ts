/**
 * The hypotheses' building stones: each fault in each place and each stratum of its severity. Strata keep the
 * straight-line fit of table.ts honest where a severity spans a factor of ten or ends in an open circuit.
 */
import type { ChargingSpec } from '../circuit/spec.ts';
import type { FaultId } from '../fault/catalogue.ts';
import { FAULTS, faultPossible, LOCATED } from '../fault/faults.ts';

export interface Atom {
  readonly fault: FaultId;
  readonly phase: 0 | 1 | 2;
  readonly variant: number;
  /** Severity shares [from, to], and of the second severity. */
  readonly span: readonly [number, number];
  readonly second: readonly [number, number];
  /** Share of the fault's prior that falls to this atom, before the phases share it. */
  readonly share: number;
  /** Whether the fault sits in one of three alike phases. */
  readonly located: boolean;
}

type Stratum = readonly [
  variant: number,
  from: number,
  to: number,
  second: readonly [number, number],
  share: number,
];
const ALL = [0, 1] as const;
const HALVES: readonly Stratum[] = [
  [0, 0, 0.5, ALL, 0.5],
  [0, 0.5, 1, ALL, 0.5],
];
const ONE: readonly Stratum[] = [[0, 0, 1, ALL, 1]];

const STRATA: Partial<Readonly<Record<FaultId, readonly Stratum[]>>> = {
  'battery-sulphated': HALVES,
  // Whether five cells gas early or the dead one still takes its share bends every running reading.
  'battery-shorted-cell': [
    [0, 0, 1, [0, 0.5], 0.5],
    [0, 0, 1, [0.5, 1], 0.5],
  ],
  'positive-post-joint': HALVES,
  'negative-post-joint': HALVES,
  // Variant 2 is loose: bad only while the harness is moved. Most often a breaker or fuse holder (guess).
  'output-joint': [
    [0, 0, 0.5, ALL, 0.47],
    [0, 0.5, 1, ALL, 0.47],
    [2, 0.3, 1, ALL, 0.06],
  ],
  'ground-joint': [
    [0, 0, 0.5, ALL, 0.42],
    [0, 0.5, 1, ALL, 0.34],
    [1, 0, 1, ALL, 0.18],
    [2, 0.3, 1, ALL, 0.06],
  ],
  'breaker-joint': [
    [0, 0, 0.5, ALL, 0.35],
    [0, 0.5, 1, ALL, 0.35],
    [2, 0, 0.5, ALL, 0.15],
    [2, 0.5, 1, ALL, 0.15],
  ],
  'plug-pin': [
    [0, 0, 0.5, ALL, 0.25],
    [0, 0.5, 1, ALL, 0.35],
    [1, 0, 1, ALL, 0.4],
  ],
  'plug-pins': [
    [0, 0, 0.5, ALL, 0.45],
    [0, 0.5, 1, ALL, 0.45],
    [1, 0, 1, ALL, 0.05],
    [2, 0, 1, ALL, 0.05],
  ],
  'stator-open': [
    [0, 0, 1, ALL, 0.4],
    [1, 0, 1, ALL, 0.3],
    [2, 0, 1, ALL, 0.3],
  ],
  'stator-core-midway': [
    [0, 0, 1, [0, 0.5], 0.5],
    [0, 0, 1, [0.5, 1], 0.5],
  ],
  'stator-hot-short': [
    [0, 0, 1, [0, 0.5], 0.5],
    [0, 0, 1, [0.5, 1], 0.5],
  ],
  'stator-shorted-turns': HALVES,
  'rotor-weak': HALVES,
  'diode-open': [
    [0, 0, 1, ALL, 0.5],
    [1, 0, 1, ALL, 0.5],
  ],
  'diode-shorted': [
    [0, 0, 1, ALL, 0.75],
    [1, 0, 1, ALL, 0.25],
  ],
  'regulator-dead': [
    [0, 0, 1, ALL, 0.75],
    [1, 0, 1, ALL, 0.25],
  ],
  drain: HALVES,
  overload: HALVES,
};

/** Every atom that can exist on this bike; located faults once for each phase they can sit in. */
export function atomsOf(spec: ChargingSpec): Atom[] {
  const three = spec.alternator.phases === 3;
  const build = { phases: spec.alternator.phases, senses: spec.regulator.senses };
  const atoms: Atom[] = [];
  for (const fault of Object.keys(FAULTS) as FaultId[]) {
    // A flat battery is no hypothesis of its own: it is a sound bike whose state of charge is low (see told.ts).
    if (!faultPossible(fault, build) || fault === 'battery-flat') continue;
    const located = LOCATED.has(fault);
    // On two wires the pins and legs are two, the winding is one.
    const places = !located ? 1 : three ? 3 : fault === 'plug-pin' || fault.startsWith('diode') ? 2 : 1;
    for (const [variant, from, to, second, share] of STRATA[fault] ?? ONE) {
      for (let phase = 0; phase < places; phase++) {
        atoms.push({
          fault,
          phase: phase as 0 | 1 | 2,
          variant,
          span: [from, to],
          second,
          share: share / places,
          located: located && three,
        });
      }
    }
  }
  return atoms;
}
