/**
 * Room `fault`: what can be wrong with a charging circuit, which repair cures it, which member of the loop it
 * sits in, and how each fault with a severity changes the circuit. It knows no readings and no probabilities
 * of a particular bike beyond stated priors.
 */

/** A member of the loop drawing: a thing one can point at. */
export type Member =
  | 'rotor'
  | 'stator'
  | 'stator-plug'
  | 'regulator'
  | 'output-joint'
  | 'output-wire'
  | 'breaker'
  | 'positive-post'
  | 'battery'
  | 'negative-post'
  | 'ground'
  | 'sense-wire'
  | 'loads'
  | 'drain';

export const MEMBERS: readonly Member[] = [
  'rotor',
  'stator',
  'stator-plug',
  'regulator',
  'output-joint',
  'output-wire',
  'breaker',
  'positive-post',
  'battery',
  'negative-post',
  'ground',
  'sense-wire',
  'loads',
  'drain',
];

export type FaultId =
  | 'battery-flat'
  | 'battery-sulphated'
  | 'battery-shorted-cell'
  | 'battery-worn'
  | 'positive-post-joint'
  | 'negative-post-joint'
  | 'output-joint'
  | 'ground-joint'
  | 'breaker-joint'
  | 'plug-pin'
  | 'plug-pins'
  | 'stator-open'
  | 'stator-core-terminal'
  | 'stator-core-midway'
  | 'stator-shorted-turns'
  | 'stator-hot-short'
  | 'rotor-weak'
  | 'diode-open'
  | 'diode-shorted'
  | 'regulator-dead'
  | 'regulator-runaway'
  | 'regulator-set-low'
  | 'sense-drop'
  | 'drain'
  | 'overload'
  | 'thin-wire';

export type RepairId =
  | 'charge-battery'
  | 'replace-battery'
  | 'remake-positive-post'
  | 'remake-negative-post'
  | 'remake-output-joint'
  | 'remake-ground'
  | 'remake-breaker'
  | 'replace-stator-plug'
  | 'replace-stator'
  | 'replace-rotor'
  | 'replace-regulator'
  | 'remake-sense-wire'
  | 'find-drain'
  | 'reduce-load'
  | 'replace-output-wire';

export interface Fault {
  readonly id: FaultId;
  readonly member: Member;
  readonly repair: RepairId;
  /** In words, as a mechanic would say it; lower case, no full stop. */
  readonly title: string;
  /** Odds before any reading that this fault is present, on a bike somebody complains of. Guess unless said. */
  readonly prior: number;
  readonly priorSource: string;
}

/** A cover that must come off before a repair can be done. */
export type CoverId = 'seat' | 'side' | 'alternator';

export interface Cover {
  readonly id: CoverId;
  /** In words; lower case, no full stop. */
  readonly title: string;
  /** Taking it off and putting it back, min. Guess. */
  readonly minutes: number;
}

export interface Repair {
  readonly id: RepairId;
  readonly member: Member;
  /** Imperative, as on a shopping or work list. */
  readonly title: string;
  /** Covers that must be off: opened once for all repairs done together. */
  readonly covers: readonly CoverId[];
  /** Parts, in an invented common currency. Guess. */
  readonly partCost: number;
  /** Work once the covers are off, min. Guess. */
  readonly minutes: number;
}
