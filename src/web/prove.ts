/** The wire between the station Proof and its worker: one question on its way, the newest behind it. */
import type { VoltsBand } from '../proof/prove-job.ts';
import type { Repaired } from '../proof/repaired.ts';
import type { SoundShows } from '../verdict/answer.ts';
import type { Proof } from '../verdict/prove.ts';

export interface Question extends Repaired {
  /** A reading whose band is wanted beside; null for none. */
  readonly wanted: string | null;
}

export interface Told {
  readonly proof: Proof;
  readonly volts: VoltsBand;
  readonly shows: SoundShows | null;
}

export type Reply =
  | { readonly id: number; readonly ok: true; readonly told: Told }
  | { readonly id: number; readonly ok: false; readonly why: string };
