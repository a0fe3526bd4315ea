/** Why each suspect is suspected. */
import type { Taken } from './evidence.ts';
import type { Explanation } from './explanation.ts';
import type { Field } from './field.ts';
import type { Ranking } from './rank.ts';

export function explain(
  _field: Field,
  _taken: readonly Taken[],
  _symptoms: readonly string[],
  _ranking: Ranking,
): Explanation {
  return { suspects: [], alike: [] };
}
