/**
 * Unknowns that are not normal where the readings are straight in them. A joint's volts are straight in its ohms, and
 * ohms are spread in ratios: a worn joint of three times the usual ohms is one in two hundred, but 4 deviations off for
 * a normal of the same spread, and the verdict then called it a fault (a sound breaker that lost 0.17 V where 0.06 V
 * are usual stood at 1 to 80). A fault's severity is spread in ratios or evenly between two ends and has no tail at all.
 *
 * The Gaussian of all unknowns is kept; what one unknown's own shape changes in the weight is put right by one integral
 * each, with what the readings say of it taken from the Gaussian's posterior with its prior divided out (the cavity of
 * expectation propagation: Minka 2001, from memory). For one unknown that is exact; for several that one reading tells
 * of together it leaves their mutual pull out.
 */
import type { FaultId } from '../fault/catalogue.ts';
import { GRADES, grade } from '../fault/grades.ts';
import { normalBelow } from '../numbers/normal.ts';
import { AT, WEAR_SPREADS } from './latent.ts';
import type { Base } from './sets.ts';
import { solvedOf } from './unknowns.ts';
import type { Given } from './weigh.ts';

/** One unknown's own shape: points of equal steps of its normal number, with their chance and where the line puts them. */
interface Skew {
  readonly at: number;
  /** Places on the line, in deviations as the design saw them, and the square of half the way to the neighbours. */
  readonly places: Float64Array;
  readonly blur: Float64Array;
}

const POINTS = 49;
const REACH = 3.6;
const STEP = (2 * REACH) / (POINTS - 1);
const NORMALS = Float64Array.from({ length: POINTS }, (_, n) => -REACH + n * STEP);
const CHANCES = NORMALS.map((z) => (STEP * Math.exp(-0.5 * z * z)) / Math.sqrt(2 * Math.PI));

/** `size`: what the readings are straight in, as a function of the unknown's normal number. */
function skewOf(at: number, size: (z: number) => number): Skew {
  // The design runs at one deviation up and down: the line goes through these two.
  const middle = (size(1) + size(-1)) / 2;
  const half = (size(1) - size(-1)) / 2;
  const places = NORMALS.map((z) => (size(z) - middle) / half);
  const blur = places.map((_, n) => {
    const width = places[Math.min(n + 1, POINTS - 1)]! - places[Math.max(n - 1, 0)]!;
    return (0.35 * width) ** 2;
  });
  return { at, places, blur };
}

const WEAR: readonly Skew[] = Object.entries(WEAR_SPREADS).map(([name, spread]) =>
  skewOf(AT[name as keyof typeof WEAR_SPREADS], (z) => Math.exp(spread * z)),
);

const severities = new Map<string, Skew>();

function severityOf(id: FaultId, span: readonly [number, number], at: number): Skew {
  const name = `${id} ${span[0]} ${span[1]} ${at}`;
  let skew = severities.get(name);
  if (!skew) {
    skew = skewOf(at, (z) => grade(id, span[0] + (span[1] - span[0]) * normalBelow(z)));
    severities.set(name, skew);
  }
  return skew;
}

const own = new Map<Base, readonly Skew[]>();

/** Shapes of the severities of a set. */
function severitiesOf(base: Base): readonly Skew[] {
  let skews = own.get(base);
  if (!skews) {
    skews = base.atoms.flatMap(({ fault, span, second }, slot) => {
      if (!GRADES[fault]) return [];
      const first = severityOf(fault, span, AT.severity + 2 * slot);
      return fault === 'plug-pins' ? [first, severityOf(fault, second, AT.severity + 2 * slot + 1)] : [first];
    });
    own.set(base, skews);
  }
  return skews;
}

/** What the readings must say of an unknown for its shape to matter: share of its variance that is left, 0–1. */
const TOLD = 0.9;
/** The most that one shape may speak for or against a set, nats: the line itself is not straight that far out. */
const MOST_FOR = 6;
const MOST_AGAINST = 6;

/** What the shapes of all wear unknowns add to a set's log weight, nats. */
export function wearGain(given: Given): number {
  let gain = 0;
  for (const skew of WEAR) gain += gainOf(given, skew);
  return gain;
}

/** What the shapes of a set's severities add to its log weight, nats. */
export function severityGain(given: Given, base: Base): number {
  let gain = 0;
  for (const skew of severitiesOf(base)) gain += gainOf(given, skew);
  return gain;
}

/** Both together, nats. */
export function skewGain(given: Given, base: Base): number {
  return wearGain(given) + severityGain(given, base);
}

/** Variance in what the readings alone say of an unknown from which its shape is summed in wider steps. */
const WIDE = 1;

function gainOf(given: Given, { at, places, blur }: Skew): number {
  const { felt, slopes } = solvedOf(given);
  const unknown = felt.indexOf(at);
  if (unknown < 0) return 0;
  const m = given.rows.length;
  const from = unknown * m;
  let mean = 0;
  let left = 1;
  for (let i = 0; i < m; i++) {
    const c = slopes[from + i]!;
    mean += c * given.innovation[i]!;
    left -= c * c;
  }
  if (left > TOLD) return 0;
  left = Math.max(left, 1e-6);
  // What the readings alone say of it.
  const variance = left / (1 - left);
  const middle = mean / (1 - left);
  let sum = 0;
  // Where the readings leave it wide, every other point gives the same sum: 1.3e-3 nats off at the most over what wear can show.
  const step = variance > WIDE ? 2 : 1;
  for (let n = 0; n < POINTS; n += step) {
    const spread = variance + blur[n]!;
    const away = places[n]! - middle;
    const square = (away * away) / spread;
    if (square < 80) sum += (CHANCES[n]! * Math.exp(-0.5 * square)) / Math.sqrt(spread);
  }
  sum *= step;
  if (!(sum > 0)) return -MOST_AGAINST;
  const normal = (-0.5 * middle * middle) / (1 + variance) - 0.5 * Math.log(1 + variance);
  return Math.max(-MOST_AGAINST, Math.min(MOST_FOR, Math.log(sum) - normal));
}
