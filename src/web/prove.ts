/** The wire between the station Proof and its worker: one question on its way, the newest behind it. */
import type { ChargingSpec } from '../circuit/spec.ts';
import type { AfterRepair } from '../verdict/after-repair.ts';
import type { Evidence, SoundShows } from '../verdict/answer.ts';
import type { Proof } from '../verdict/prove.ts';

/** Band over engine speed, [rpm, low V, high V] in order of rpm. */
export type CurveBand = readonly (readonly [rpm: number, low: number, high: number])[];

export interface Question {
  readonly spec: ChargingSpec;
  readonly after: AfterRepair;
  readonly must: readonly string[];
  readonly evidence: Evidence;
  /** A reading whose band is wanted beside; null for none. */
  readonly wanted: string | null;
}

export interface Told {
  readonly proof: Proof;
  readonly curve: CurveBand;
  readonly shows: SoundShows | null;
}

export type Reply =
  | { readonly id: number; readonly ok: true; readonly told: Told }
  | { readonly id: number; readonly ok: false; readonly why: string };
