/** What each hypothesis expects of a reading that has not been taken, and what the reading would tell. */
import type { ChargingSpec } from '../circuit/spec.ts';
import { normalBelow } from '../numbers/normal.ts';
import { completeKey } from '../reading/catalogue.ts';
import { type ReadingKey, readKey } from '../reading/key.ts';
import { meterScatter } from '../reading/noise.ts';
import { offeredKeys } from '../reading/offers.ts';
import { chanceSeen } from '../reading/seen.ts';
import { type Asked, askedOf } from './asked.ts';
import { facing } from './field.ts';
import { gridInformation } from './information.ts';
import type { Fit } from './line.ts';
import type { Projector } from './projection.ts';
import type { Ranked } from './rank.ts';
import { lineOf } from './sheets.ts';
import type { Given } from './weigh.ts';

/** A reading on offer. */
export interface Offer {
  readonly text: string;
  readonly key: ReadingKey;
  readonly asked: Asked;
  readonly phases: 1 | 3;
  /** Its kind and engine state: three alike pins are one idea. */
  readonly idea: string;
}

/** What each hypothesis expects of one reading. */
export interface Outlook {
  readonly means: Float64Array;
  readonly sds: Float64Array;
  /** Chance of "OL" (for a number) or of seeing it (for a thing seen). */
  readonly other: Float64Array;
  readonly seen: boolean;
}

/** Every reading that can be offered on this bike. */
export function offersOf(spec: ChargingSpec): readonly Offer[] {
  const { phases } = spec.alternator;
  const keys = offeredKeys({
    phases,
    senses: spec.regulator.senses,
    flooded: spec.battery.chemistry === 'flooded',
  });
  return keys.map((text) => offerOf(text, completeKey(readKey(text)!), phases));
}

/** A reading as it is offered. */
export function offerOf(text: string, key: ReadingKey, phases: 1 | 3): Offer {
  const { pin: _pin, pair: _pair, red: _red, black: _black, cell: _cell, ...rest } = key.state;
  return { text, key, asked: askedOf(key), phases, idea: `${key.kind} ${JSON.stringify(rest)}` };
}

/** Chance of no number from a hypothesis that expects none, 0–1. */
export const NO_NUMBER = 0.99;

/** Chance of no number where a line says `open`, 0–1: it is never sure. */
export function otherThan(open: number): number {
  return Math.min(Math.max(open, 0.005), 0.995);
}

const pair = new Float64Array(2);

/** What each hypothesis is given: the list a projector wants. */
export function givenOf(look: readonly Ranked[]): readonly Given[] {
  return look.map(({ weighed }) => weighed.given);
}

/** `states`: engine states that readings were taken in; in others a set is judged at a glance. `projector`: over `look` (`givenOf`). */
export function lookOut(
  look: readonly Ranked[],
  offer: Offer,
  states: ReadonlySet<string>,
  projector: Projector,
): Outlook {
  const n = look.length;
  const means = new Float64Array(n);
  const sds = new Float64Array(n).fill(1);
  const other = new Float64Array(n);
  const seen = offer.key.kind === 'visual';
  const known = !offer.asked.running || states.has(offer.asked.words);
  // Sets that differ by a fault which neither the readings nor this one feel share a prediction. Found by going through
  // the earlier ones: they are few, and a map for each line took more time than the predictions.
  const told: number[] = [];
  const fits: Fit[] = [];
  for (let i = 0; i < n; i++) {
    const { member, turn, sign } = look[i]!;
    if (seen) {
      other[i] = chanceSeen(offer.key.state.what!, member.base.faults, member.base.blown);
      continue;
    }
    const asked = facing(member, turn, offer.asked, offer.phases);
    const fit = lineOf(look[i]!, asked, known);
    other[i] = otherThan(fit.open);
    if (Number.isNaN(fit.middle)) {
      other[i] = NO_NUMBER;
      continue;
    }
    let t = 0;
    while (t < told.length && (fits[t] !== fit || look[told[t]!]!.sign !== sign)) t++;
    if (t < told.length) {
      means[i] = means[told[t]!]!;
      sds[i] = sds[told[t]!]!;
      continue;
    }
    told.push(i);
    fits.push(fit);
    projector.predict(i, fit, pair);
    means[i] = pair[0]!;
    sds[i] = Math.sqrt(pair[1]! + meterScatter(offer.key, pair[0]!) ** 2);
  }
  return { means, sds, other, seen };
}

/** Expected information of a reading on the classes (what to repair), bits. `bins`: how finely its values are cut. */
export function bitsOf(
  outlook: Outlook,
  weights: Float64Array,
  classes: Int32Array,
  nClasses: number,
  bins = 48,
): number {
  if (outlook.seen) return seenBits(outlook.other, weights, classes, nClasses);
  const extra = { count: 1, given: outlook.other };
  return gridInformation(outlook.means, outlook.sds, weights, classes, nClasses, extra, bins);
}

function seenBits(seen: Float64Array, weights: Float64Array, classes: Int32Array, nClasses: number): number {
  const mass = new Float64Array(nClasses);
  const yes = new Float64Array(nClasses);
  for (let i = 0; i < weights.length; i++) {
    mass[classes[i]!] = mass[classes[i]!]! + weights[i]!;
    yes[classes[i]!] = yes[classes[i]!]! + weights[i]! * seen[i]!;
  }
  const h = (p: number) => (p <= 0 || p >= 1 ? 0 : -p * Math.log2(p) - (1 - p) * Math.log2(1 - p));
  let all = 0;
  let within = 0;
  for (let c = 0; c < nClasses; c++) {
    all += yes[c]!;
    if (mass[c]! > 0) within += mass[c]! * h(yes[c]! / mass[c]!);
  }
  return Math.max(0, h(all) - within);
}

/** Shares of the mixture at which a reading's values are cut into outcomes: fine in the tails, where rare faults show. */
const CUTS = [0.01, 0.03, 0.08, 0.2, 0.4, 0.6, 0.8, 0.92, 0.97, 0.99];

/** A reading as a listed test: P(outcome | hypothesis) in rows, and how many outcomes. */
export function outcomesOf(
  outlook: Outlook,
  weights: Float64Array,
): { readonly outcomes: number; readonly given: Float64Array } {
  const n = weights.length;
  if (outlook.seen) {
    const given = new Float64Array(2 * n);
    for (let i = 0; i < n; i++) {
      given[2 * i] = outlook.other[i]!;
      given[2 * i + 1] = 1 - outlook.other[i]!;
    }
    return { outcomes: 2, given };
  }
  const edges = quantiles(outlook, weights);
  const outcomes = edges.length + 2;
  const given = new Float64Array(outcomes * n);
  for (let i = 0; i < n; i++) {
    const value = 1 - outlook.other[i]!;
    let below = 0;
    for (let k = 0; k < edges.length; k++) {
      const upto = normalBelow((edges[k]! - outlook.means[i]!) / outlook.sds[i]!);
      given[i * outcomes + k] = value * (upto - below);
      below = upto;
    }
    given[i * outcomes + edges.length] = value * (1 - below);
    given[i * outcomes + edges.length + 1] = outlook.other[i]!;
  }
  return { outcomes, given };
}

/** Edges that cut the mixture at CUTS, from each hypothesis' own quantiles taken as points of its share. */
function quantiles({ means, sds, other }: Outlook, weights: Float64Array): number[] {
  const points: { at: number; mass: number }[] = [];
  let total = 0;
  for (let i = 0; i < weights.length; i++) {
    const mass = weights[i]! * (1 - other[i]!);
    if (mass < 1e-6) continue;
    total += mass;
    for (const z of SPREAD) points.push({ at: means[i]! + z * sds[i]!, mass: mass / SPREAD.length });
  }
  points.sort((a, b) => a.at - b.at);
  const edges: number[] = [];
  let sum = 0;
  let cut = 0;
  for (const { at, mass } of points) {
    sum += mass;
    if (cut < CUTS.length && sum >= CUTS[cut]! * total) {
      while (cut < CUTS.length && sum >= CUTS[cut]! * total) cut++;
      if (edges.at(-1) !== at) edges.push(at);
    }
  }
  return edges;
}

/** Middles of seven equal slices of the normal distribution. */
const SPREAD = [-1.465, -0.792, -0.366, 0, 0.366, 0.792, 1.465];
