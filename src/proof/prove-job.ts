/** A job's proof, from its state and its machine file: what the app's worker, the command line and the papers ask. */
import type { JobState } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import type { Evidence } from '../verdict/answer.ts';
import { openProver, type Proof, type Prover } from '../verdict/prove.ts';
import { type Look, looksFor } from './looks.ts';
import { allRepairs, repairedOf } from './repaired.ts';
import { type Standing, standingOf } from './standing.ts';

/** A band over engine speed, [rpm, low V, high V] in order of rpm. */
export type VoltsBand = readonly (readonly [rpm: number, low: number, high: number])[];

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
