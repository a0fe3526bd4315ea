/** Opens an assessor for one bike and asks it for answers. Stub: replaced within the hour; the signature stays. */
import type { ChargingSpec } from '../circuit/spec.ts';
import type { Answer, Evidence, SoundShows } from './answer.ts';

export interface Assessor {
  /** The verdict on this evidence, with the next reading. Deterministic for a seed. */
  readonly assess: (evidence: Evidence) => Answer;
  /** What a sound bike of this kind shows for a reading key. */
  readonly sound: (key: string) => SoundShows;
}

export function openAssessor(_spec: ChargingSpec, _options: { readonly seed?: number } = {}): Assessor {
  throw new Error('not built yet');
}
