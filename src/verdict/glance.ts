/**
 * A glance at every reading on offer, with one hypothesis for each list of repairs, to find the few that are worth looking
 * at closely. What a reading can tell at the most is known from how far its values spread, so that most of them are passed
 * over without being put on a grid; those found are the same as if none were passed over.
 */
import { meterScatter } from '../reading/noise.ts';
import { chanceSeen } from '../reading/seen.ts';
import { bitsOf, NO_NUMBER, type Offer, type Outlook, otherThan } from './outlook.ts';
import type { Projector } from './projection.ts';
import type { Firsts } from './represent.ts';
import { OPEN, openSheets, type Speaker } from './sheets.ts';

/** A reading on offer by its number, and what a minute of it may tell at a glance, bits/min. */
export interface Glanced {
  readonly n: number;
  readonly rate: number;
}

/** Bins that a reading's values are cut into at a glance. */
const BINS = 16;
/** What rounding may add to a bound, bits, and what it may set two readings apart by, bits/min. */
const SLACK = 1e-5;
const ALIKE = 1e-9;

export interface Glance {
  /**
   * The best reading of each idea, best first, `count` ideas at the most. `projector` is over all that speak. `which`: readings that may be taken;
   * `familiar`: those of engine states that are judged in full; `minutes`: what each costs, min.
   */
  readonly best: (
    heard: Firsts,
    projector: Projector,
    which: readonly number[],
    familiar: Uint8Array,
    minutes: Float64Array,
    count: number,
  ) => readonly Glanced[];
  /** Writes the lines of a hypothesis that may be heard next time for the readings that were glanced at last. */
  readonly ready: (speaker: Speaker) => void;
}

export function openGlance(offers: readonly Offer[]): Glance {
  const sheets = openSheets(offers);
  let last: { readonly which: readonly number[]; readonly familiar: Uint8Array } = {
    which: [],
    familiar: new Uint8Array(0),
  };
  let means = new Float64Array(0);
  let sds = new Float64Array(0);
  let other = new Float64Array(0);
  const pair = new Float64Array(2);
  return {
    ready: (speaker) => {
      sheets.write(speaker, last.which, last.familiar);
    },
    best: ({ look, at: places, weights, classes, names }, projector, which, familiar, minutes, count) => {
      const size = look.length;
      last = { which, familiar };
      if (means.length < which.length * size) {
        means = new Float64Array(which.length * size);
        sds = new Float64Array(which.length * size);
        other = new Float64Array(which.length * size);
      }
      // Hypothesis by hypothesis: its sheet is read from top to bottom, and what the readings say of it stays at hand.
      look.forEach((ranked, h) => {
        const place = places[h]!;
        const { start, lines } = sheets.write(ranked, which, familiar);
        which.forEach((n, row) => {
          const at = row * size + h;
          const { key } = offers[n]!;
          means[at] = 0;
          sds[at] = 1;
          if (key.kind === 'visual') {
            const { faults, blown } = ranked.member.base;
            other[at] = chanceSeen(key.state.what!, faults, blown);
            return;
          }
          const from = start[n]!;
          if (Number.isNaN(lines[from]!)) {
            other[at] = NO_NUMBER;
            return;
          }
          other[at] = otherThan(lines[from + OPEN]!);
          projector.predictPacked(place, lines, from, pair);
          means[at] = pair[0]!;
          sds[at] = Math.sqrt(pair[1]! + meterScatter(key, pair[0]!) ** 2);
        });
      });
      const outlookOf = (row: number): Outlook => ({
        means: means.subarray(row * size, (row + 1) * size),
        sds: sds.subarray(row * size, (row + 1) * size),
        other: other.subarray(row * size, (row + 1) * size),
        seen: offers[which[row]!]!.key.kind === 'visual',
      });
      const bounds = which.map((n, row) => {
        const outlook = outlookOf(row);
        const bits = outlook.seen ? Number.POSITIVE_INFINITY : mostBits(outlook, weights);
        return { n, outlook, rate: (bits + SLACK) / minutes[n]! };
      });
      bounds.sort((a, b) => b.rate - a.rate);
      const found = new Map<string, Glanced>();
      let least = Number.NEGATIVE_INFINITY;
      for (const { n, outlook, rate: most } of bounds) {
        if (most < least) break;
        const told = bitsOf(outlook, weights, classes, names.length, BINS) / minutes[n]!;
        // Alike pins differ by what rounding leaves: the first of them is the one to name.
        const rate = Math.round(told / ALIKE) * ALIKE;
        const { idea } = offers[n]!;
        const before = found.get(idea);
        if (before && (before.rate > rate || (before.rate === rate && before.n < n))) continue;
        found.set(idea, { n, rate });
        if (rate > least && found.size >= count) least = bestOf(found, count).at(-1)!.rate;
      }
      return bestOf(found, count);
    },
  };
}

function bestOf(found: ReadonlyMap<string, Glanced>, count: number): Glanced[] {
  return [...found.values()].sort((a, b) => b.rate - a.rate || a.n - b.n).slice(0, count);
}

/**
 * The most that a reading can tell about which hypothesis holds, bits: whether it is a number at all, and of a number no
 * more than if the mixture of all hypotheses were normal, which of all distributions of its variance has the greatest
 * entropy (Cover & Thomas, Elements of Information Theory, theorem 8.6.5), nor more than there is to know.
 */
export function mostBits({ means, sds, other }: Outlook, weights: Float64Array): number {
  let value = 0;
  let sum = 0;
  let logs = 0;
  let doubt = 0;
  let all = 0;
  let open = 0;
  let told = 0;
  for (let h = 0; h < weights.length; h++) {
    const weight = weights[h]!;
    if (weight <= 0) continue;
    const rest = weight * (1 - other[h]!);
    value += rest;
    sum += rest * means[h]!;
    logs += rest * Math.log(sds[h]!);
    doubt -= rest * Math.log(rest);
    all += weight;
    open += weight * other[h]!;
    told += weight * binary(other[h]!);
  }
  const middle = sum / value;
  let square = 0;
  for (let h = 0; h < weights.length; h++)
    square += weights[h]! * (1 - other[h]!) * (sds[h]! ** 2 + (means[h]! - middle) ** 2);
  const spread = value * 0.5 * Math.log(square / value) - logs;
  const knowable = doubt + value * Math.log(value);
  return (Math.min(spread, knowable) + all * binary(open / all) - told) / all / Math.LN2;
}

/** Entropy of a chance, nats. */
function binary(p: number): number {
  return p <= 0 || p >= 1 ? 0 : -p * Math.log(p) - (1 - p) * Math.log1p(-p);
}
