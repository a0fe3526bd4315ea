/**
 * A reading as the tables know it: one object for each complete key, so that tables look it up by identity and nothing
 * about it is worked out twice. Writing its name anew at every look took a fifth of an answer's time.
 */
import type { ReadingKey } from '../reading/key.ts';
import { POINT_KINDS, stateWords } from '../reading/show.ts';
import { homeOf, nameOf, turnKey } from './turn.ts';

export interface Asked {
  readonly key: ReadingKey;
  /** The key as a table name. */
  readonly name: string;
  /** The engine state as a short key. */
  readonly words: string;
  /** Whether it needs the engine running, and an operating point of the whole circuit. */
  readonly running: boolean;
  /** Place of the first phase that the reading names, 0–2. */
  readonly home: number;
  /** The same reading with the phases turned back by 0, 1, 2 places. */
  readonly turned: readonly [Asked, Asked, Asked];
  /** What the bridge gives in the same engine state: what fades with it is reckoned by this. */
  readonly amps: Asked;
}

/** All readings ever asked about: the catalogue is finite, so this list is. */
const all = new Map<string, Asked>();

/** The reading of a complete key. */
export function askedOf(key: ReadingKey): Asked {
  const name = nameOf(key);
  let asked = all.get(name);
  if (!asked) {
    asked = makeAsked(key, name);
    all.set(name, asked);
  }
  return asked;
}

function makeAsked(key: ReadingKey, name: string): Asked {
  let turned: readonly [Asked, Asked, Asked] | undefined;
  let amps: Asked | undefined;
  return {
    key,
    name,
    words: stateWords(key),
    running: POINT_KINDS.has(key.kind),
    home: homeOf(key),
    get turned() {
      turned ??= [askedOf(key), askedOf(turnKey(key, -1)), askedOf(turnKey(key, -2))];
      return turned;
    },
    get amps() {
      if (!amps) {
        const { rpm, lights, temp, charged, acc } = key.state;
        const state = { rpm, lights, temp, charged, acc, wiggle: 'False' } as Record<string, string>;
        amps = askedOf({ kind: 'alt_amps', state });
      }
      return amps;
    },
  };
}
