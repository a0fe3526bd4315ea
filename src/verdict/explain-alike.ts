/** Which likely lists of repairs no further reading would tell apart. */
import type { ChargingSpec } from '../circuit/spec.ts';
import type { RepairId } from '../fault/catalogue.ts';
import { KINDS } from '../reading/catalogue.ts';
import { POINT_KINDS, stateWords } from '../reading/show.ts';
import type { Evidence } from './answer.ts';
import type { Taken } from './evidence.ts';
import { bitsOf, givenOf, lookOut, type Offer, offersOf } from './outlook.ts';
import { openProjector } from './projection.ts';
import type { Ranked } from './rank.ts';
import { represent } from './represent.ts';

/** Lists compared, and the share from which a list is worth comparing, 0–1. */
const LISTS = 5;
const LEAST_SHARE = 0.04;
/**
 * What the best reading must tell between two lists believed equally, bit, to count as telling them apart. A twentieth
 * of a bit moves one to one to about four to three.
 */
const TELLS = 0.05;

const NEEDS = {
  'clamp-meter': 'clamp',
  'load-tester': 'loadTester',
  hydrometer: 'hydrometer',
  supply: 'supply',
} as const;

export interface Alike {
  readonly one: readonly RepairId[];
  readonly other: readonly RepairId[];
}

/** Pairs of likely lists that no reading on offer with these tools tells apart, likeliest pair first. */
export function alikeLists(
  spec: ChargingSpec,
  tools: Evidence['tools'],
  taken: readonly Taken[],
  best: readonly Ranked[],
): Alike[] {
  const { look, weights, classes, names } = represent(best);
  const shares = new Float64Array(names.length);
  for (let h = 0; h < look.length; h++) shares[classes[h]!]! += weights[h]!;
  const likely = names.map((_, c) => c).filter((c) => c < LISTS && shares[c]! > LEAST_SHARE);
  let pairs: Pair[] = [];
  for (const [n, one] of likely.entries())
    for (const other of likely.slice(n + 1)) pairs.push({ one, other });
  if (pairs.length === 0) return [];
  const among = look.map((_, h) => h).filter((h) => likely.includes(classes[h]!));
  const speakers = among.map((h) => look[h]!);
  const sides = pairs.map(({ one, other }) => {
    const weigh = among.map((h) => {
      const c = classes[h]!;
      return c === one || c === other ? weights[h]! / (2 * shares[c]!) : 0;
    });
    return {
      weights: Float64Array.from(weigh),
      classes: Int32Array.from(among, (h) => (classes[h] === one ? 0 : 1)),
    };
  });
  const open = new Set(pairs.keys());
  const had = new Set(taken.map((t) => t.text));
  const states = new Set(taken.filter((t) => POINT_KINDS.has(t.key.kind)).map((t) => stateWords(t.key)));
  const projector = openProjector().over(givenOf(speakers));
  for (const offer of cheapFirst(offersOf(spec), states)) {
    if (open.size === 0) break;
    const tool = NEEDS[KINDS[offer.key.kind]!.tool as keyof typeof NEEDS];
    if (had.has(offer.text) || (tool !== undefined && !tools[tool])) continue;
    const outlook = lookOut(speakers, offer, states, projector);
    for (const n of open) {
      const side = sides[n]!;
      if (bitsOf(outlook, side.weights, side.classes, 2) > TELLS) open.delete(n);
    }
  }
  pairs = [...open].map((n) => pairs[n]!);
  return pairs
    .sort((a, b) => shares[b.one]! * shares[b.other]! - shares[a.one]! * shares[a.other]!)
    .map(({ one, other }) => ({ one: repairsOf(names[one]!), other: repairsOf(names[other]!) }));
}

/** Two lists by their class. */
interface Pair {
  readonly one: number;
  readonly other: number;
}

function repairsOf(name: string): RepairId[] {
  return name === '' ? [] : (name.split('+') as RepairId[]);
}

/** Readings without the engine running first, then in states known already: the others cost physics. */
function cheapFirst(offers: readonly Offer[], states: ReadonlySet<string>): Offer[] {
  const cost = ({ key }: Offer) => (!POINT_KINDS.has(key.kind) ? 0 : states.has(stateWords(key)) ? 1 : 2);
  return [...offers].sort((a, b) => cost(a) - cost(b));
}
