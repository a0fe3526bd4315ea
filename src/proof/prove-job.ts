/** A job's proof, from its state and its machine file: what the app's worker, the command line and the papers ask. */
import type { ChargingSpec } from '../circuit/spec.ts';
import { type JobState, proofEvidenceOf } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import type { AfterRepair } from '../verdict/after-repair.ts';
import type { Evidence } from '../verdict/answer.ts';
import { openProver, type Proof, type Prover } from '../verdict/prove.ts';
import { type Look, looksFor } from './looks.ts';
import { allRepairs, expectedOf, mustRead, repairedSpec } from './repaired.ts';
import { type Standing, standingOf } from './standing.ts';

/** A band over engine speed, [rpm, low V, high V] in order of rpm. */
export type VoltsBand = readonly (readonly [rpm: number, low: number, high: number])[];

/** What the inference needs of one repaired bike. */
export interface Repaired {
  readonly spec: ChargingSpec;
  readonly after: AfterRepair;
  /** Readings taken whatever they find, by key. */
  readonly must: readonly string[];
  readonly evidence: Evidence;
}

export interface JobProof {
  readonly proof: Proof;
  readonly volts: VoltsBand;
  readonly looks: readonly Look[];
  readonly standing: Standing;
}

/** Engine speeds of the chart, rpm, with the word of a reading's key; idle is where most engines of this kind idle. */
const SPEEDS = [
  [1030, 'idle'],
  [2000, '2000'],
  [3000, '3000'],
  [5000, '5000'],
] as const;

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

/** Battery volts that the repaired bike should show, low beam on and the battery charged. */
export function voltsBand(prover: Prover, evidence: Evidence): VoltsBand {
  return SPEEDS.flatMap(([rpm, word]) => {
    const band = prover.band(`batt_volts charged=True lights=low rpm=${word}`, evidence);
    return band ? [[rpm, band.low, band.high] as const] : [];
  });
}

/** The whole proof of a job, some tenths of a second of work; null while nothing was said to be repaired. */
export function proveJob(state: JobState, machine: Machine): JobProof | null {
  const repaired = repairedOf(state, machine);
  if (repaired === null) return null;
  const { spec, after, must, evidence } = repaired;
  const prover = openProver(spec, after, { must });
  const proof = prover.prove(evidence);
  const repairs = allRepairs(state);
  const looks = looksFor(machine, state, repairs);
  return {
    proof,
    volts: voltsBand(prover, evidence),
    looks,
    standing: standingOf(proof, looks, state.proof, repairs),
  };
}
