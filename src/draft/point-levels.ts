/** The names of the depths as they are made from what comes off after what: the bike whole, then layer after layer. */
import type { Json } from '../machine/json-value.ts';
import { movesOf, reachedAt } from './point-reach.ts';
import { MOST_IN_LIST } from './pointing.ts';

/** Levels of a file as pointing makes them; of a layer with very many facts the first ones, as the file can hold. */
export function madeLevels(file: Json): readonly Json[] {
  const moves = movesOf(file);
  const at = reachedAt(moves);
  // The last level takes all that lies deeper than a file can name.
  const layers: string[][] = Array.from({ length: MOST_IN_LIST - 1 }, () => []);
  for (const fact of new Set(moves.flatMap(({ gives }) => gives))) {
    const depth = at.get(fact);
    if (depth !== undefined) layers[Math.min(depth, layers.length - 1)]!.push(fact);
  }
  const levels = layers.flatMap((facts, n) =>
    facts.length === 0
      ? []
      : [{ name: n === 0 ? 'outside' : `layer ${n + 1}`, facts: facts.slice(0, MOST_IN_LIST) }],
  );
  return levels.length === 0 ? [] : [{ name: 'bike whole', facts: [] }, ...levels];
}
