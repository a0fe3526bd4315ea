/**
 * Simulation-based calibration (Cook, Gelman & Rubin 2006; Talts et al. 2018, arXiv 1804.06788): bikes drawn from the
 * very prior that the verdict believes in, cascades, strata and reading mistakes included; if the inference is right,
 * the truth lies anywhere in the posterior evenly. Three kinds of rank: the set of faults among all sets, the
 * unknowns of the bike, readings that were kept back. A pile at both ends means too sure, a heap in the middle too unsure.
 */

import { drawSymptoms, SYMPTOMS } from '../../src/cases/draw-faults.ts';
import { openNamed, pickWeighted } from '../../src/cases/draw-stream.ts';
import { displayed, drawBike } from '../../src/cases/drawn-bike.ts';
import type { ChargingSpec } from '../../src/circuit/spec.ts';
import type { Instance } from '../../src/fault/build.ts';
import { normalBelow } from '../../src/numbers/normal.ts';
import { drawNormal, type Stream } from '../../src/numbers/random.ts';
import { completeKey } from '../../src/reading/catalogue.ts';
import { readKey, type Value } from '../../src/reading/key.ts';
import { MISTAKES, type Mistake, mistakesFor } from '../../src/reading/mistakes.ts';
import { meterScatter } from '../../src/reading/noise.ts';
import type { Symptom } from '../../src/verdict/answer.ts';
import { askedOf } from '../../src/verdict/asked.ts';
import { atomsOf } from '../../src/verdict/atoms.ts';
import { complaintWeight, flatterBy } from '../../src/verdict/complaint.ts';
import { prepare } from '../../src/verdict/evidence.ts';
import { catalogueWeights, facing, fitOf, openField } from '../../src/verdict/field.ts';
import { AT, FLAT_BELOW, UNKNOWNS } from '../../src/verdict/latent.ts';
import { type Fit, levelSlopes } from '../../src/verdict/line.ts';
import { openRanker } from '../../src/verdict/rank.ts';
import { type Base, extend, makeBase } from '../../src/verdict/sets.ts';
import { told } from '../../src/verdict/told.ts';
import { predict, SLIP } from '../../src/verdict/weigh.ts';
import { EVERY_TOOL } from './answer-checks.ts';
import { tailZ } from './tail.ts';

/** What one drawn bike says of the inference. */
export interface Trial {
  readonly truth: string;
  /** Sets with their probabilities, "none of these" as its own, and which of them is so. */
  readonly claims: readonly (readonly [number, boolean])[];
  /** Repairs likewise. */
  readonly repairs: readonly (readonly [number, boolean])[];
  readonly probability: number;
  /** Randomised rank of the truth, 0–1: among sets by name, and among sets by falling probability. */
  readonly byName: number;
  readonly byProbability: number;
  /** z-scores of the bike's unknowns under the posterior. */
  readonly unknowns: Readonly<Record<string, number>>;
  /** z-scores of the readings kept back. */
  readonly kept: readonly { readonly key: string; readonly z: number }[];
}

const CHECKED = [
  ...['openVolts', 'ratedAmps', 'pairOhm', 'setVolts', 'load', 'batteryOhm', 'charge', 'chargeTop', 'pinOhm'],
  ...[
    'outputJoint',
    'outputWire',
    'breaker',
    'positivePost',
    'negativePost',
    'ground',
    'leadOhm',
    'capacity',
  ],
] as const satisfies readonly (keyof typeof AT)[];

/** Symptoms that the verdict weighs, and every complaint made of them. */
const HEARD = SYMPTOMS.filter((symptom) => symptom !== 'weak_battery');
const COMPLAINTS: readonly (readonly Symptom[])[] = Array.from({ length: 2 ** HEARD.length }, (_, bits) =>
  HEARD.filter((_, n) => (bits >> n) & 1),
);
/** Share of bikes with nothing wrong whose battery is flat, 1. */
const FLAT_SHARE = normalBelow(FLAT_BELOW);

/** What the owner says, by the verdict's own odds. */
function complaintOf(seed: number, base: Base, flat: boolean): readonly Symptom[] {
  if (base.faults.length > 0) return drawSymptoms(seed, base.faults);
  if (flat) return drawSymptoms(seed, ['battery-flat']);
  // The words for "nothing wrong" hold both voices: the flat battery's is taken out.
  return pickWeighted(openNamed(seed, 'complaint'), COMPLAINTS, (words) =>
    Math.max(
      0,
      Math.exp(complaintWeight(words, [])) - FLAT_SHARE * Math.exp(complaintWeight(words, ['battery-flat'])),
    ),
  );
}

/** Every set of up to three faults with its prior weight, the complaint's share counted in. */
export function priorOf(spec: ChargingSpec): { readonly base: Base; readonly weight: number }[] {
  const weights = catalogueWeights();
  const atoms = atomsOf(spec);
  const bases: Base[] = [makeBase([], weights)];
  const singles = extend([], atoms, 0, weights);
  bases.push(...singles);
  for (const single of singles) {
    const at = atoms.indexOf(single.atoms[0]!);
    for (const pair of extend(single.atoms, atoms, at + 1, weights)) {
      bases.push(pair);
      // A pair may have been turned home: what joins must still come later in the catalogue than its last.
      const last = atoms.findIndex((a) => a.fault === pair.atoms[1]!.fault);
      bases.push(
        ...extend(pair.atoms, atoms, last + 1, weights).filter(
          (triple) => triple.atoms.length === 3 && new Set(triple.faults).size === 3,
        ),
      );
    }
  }
  // Owners' words are believed by two thirds, which favours sets that more words speak of: the same factor here.
  const heard = new Map<string, number>();
  const said = (base: Base): number => {
    const name = base.faults.join('+');
    let factor = heard.get(name);
    if (factor === undefined) {
      const silent = complaintWeight([], base.faults);
      factor = Math.exp(silent);
      for (const symptom of HEARD) factor *= 1 + Math.exp(complaintWeight([symptom], base.faults) - silent);
      // Nothing wrong is told in two voices, sound and flat: a sum, not a product.
      if (base.faults.length === 0)
        factor = COMPLAINTS.reduce((sum, words) => sum + Math.exp(complaintWeight(words, [])), 0);
      heard.set(name, factor);
    }
    return factor;
  };
  return bases.map((base) => ({ base, weight: base.turns * Math.exp(base.logPrior) * said(base) }));
}

/** A concrete set of faults of a base, severities even over its strata. */
function instancesOf(base: Base, stream: Stream): Instance[] {
  const turn = Math.floor(base.turns * stream());
  return base.atoms.map((atom) => ({
    id: atom.fault,
    severity: atom.span[0] + (atom.span[1] - atom.span[0]) * stream(),
    second: atom.second[0] + (atom.second[1] - atom.second[0]) * stream(),
    place: {
      phase: (atom.located ? (atom.phase + turn) % 3 : atom.phase) as 0 | 1 | 2,
      variant: atom.variant,
    },
  }));
}

/** What a mistake makes of a value. */
function mistaken(mistake: Mistake, kind: string, value: number, stream: Stream): number {
  switch (mistake.id) {
    case 'ten-times':
      return 10 * value;
    case 'a-tenth':
      return value / 10;
    case 'thousand':
      return 1000 * value;
    case 'wrong-mode':
    case 'wrong-range':
      return 2.2 * value * (1 + 0.01 * drawNormal(stream));
    case 'contact':
      return 0.7 * value * (1 + 0.06 * drawNormal(stream));
    case 'contact-ohms':
      return value + 3;
    case 'reversed':
      return -value;
    default:
      return 3 * stream() * Math.max(Math.abs(value), 20 * meterScatter({ kind, state: {} }, value));
  }
}

/** A reading as it is noted: one in 33 by mistake, if `slips`. */
function noted(kind: string, value: Value, stream: Stream, slips: boolean): Value {
  const luck = stream();
  if (!slips || typeof value !== 'number' || luck >= SLIP) return value;
  let share = luck / SLIP;
  for (const mistake of [...mistakesFor(kind, value), MISTAKES.anything]) {
    share -= mistake.share;
    if (share < 0) return displayed(kind, mistaken(mistake, kind, value, stream));
  }
  return value;
}

const outcome = new Float64Array(2);
const unknown = (at: number): Fit => ({
  middle: 0,
  slope: levelSlopes().fill(1, at, at + 1),
  places: Uint8Array.of(at),
  residual: 1e-9,
  open: 0,
});

/** Draws and judges `count` bikes of one circuit. `keys` are read, `backs` are kept back. */
export function* trials(
  spec: ChargingSpec,
  keys: readonly string[],
  backs: readonly string[],
  count: number,
  first = 1,
  slips = true,
): Generator<Trial> {
  const prior = priorOf(spec);
  const field = openField(spec, catalogueWeights(), 1);
  const { rank } = openRanker(field);
  for (let seed = first; seed < first + count; seed++) {
    const stream = openNamed(seed, 'calibration');
    const { base } = pickWeighted(stream, prior, (one) => one.weight);
    const faults = instancesOf(base, stream);
    const bike = drawBike(seed, { spec, faults, wider: 1 });
    const wear = openNamed(seed, 'wear');
    const z = Float64Array.from({ length: UNKNOWNS }, () => drawNormal(wear));
    const flat = faults.length === 0 && z[AT.charge]! < FLAT_BELOW;
    const truth = flat ? 'battery-flat' : base.faults.toSorted().join('+');
    const symptoms = complaintOf(seed, base, flat);
    const readings = Object.fromEntries(
      keys.map((key) => [key, noted(readKey(key)!.kind, bike.read(key), stream, slips)]),
    );
    const taken = prepare({ symptoms, readings, again: [], tools: EVERY_TOOL }, spec.alternator.phases);
    const { best, noneOfThese } = rank(taken, symptoms);

    const sets = new Map<string, number>();
    const repairs = new Map<string, number>();
    for (const { faults: set, repairs: needs, probability } of told(best, flatterBy(symptoms))) {
      const name = set.toSorted().join('+');
      sets.set(name, (sets.get(name) ?? 0) + probability);
      for (const repair of needs) repairs.set(repair, (repairs.get(repair) ?? 0) + probability);
    }
    const needed = new Set(flat ? ['charge-battery'] : base.repairs.split('+').filter((name) => name !== ''));
    for (const repair of needed) if (!repairs.has(repair)) repairs.set(repair, 0);
    if (!sets.has(truth)) sets.set(truth, 0);
    sets.set('none of these', noneOfThese);
    const p = sets.get(truth)!;
    const tie = stream();
    let below = 0;
    let above = 0;
    for (const [name, share] of sets) {
      if (name < truth) below += share;
      if (share > p) above += share;
    }

    const shares = best.map((b) => b.share);
    const zUnder = (
      value: number,
      fitFor: (n: number) => Fit | null,
      meter: (mean: number) => number,
    ): number => {
      const parts: { weight: number; z: number }[] = [];
      best.forEach((b, n) => {
        const fit = fitFor(n);
        if (!fit || Number.isNaN(fit.middle)) return;
        predict(b.weighed.given, fit, outcome);
        const sd = Math.sqrt(outcome[1]! + meter(outcome[0]!) ** 2);
        parts.push({ weight: shares[n]! * (1 - fit.open), z: (value - outcome[0]!) / sd });
      });
      return parts.some(({ weight }) => weight > 0) ? tailZ(parts) : Number.NaN;
    };
    const unknowns = Object.fromEntries(
      CHECKED.map((name) => [
        name,
        zUnder(
          z[AT[name]]!,
          () => unknown(AT[name]),
          () => 0,
        ),
      ]),
    );
    const kept = backs.flatMap((text) => {
      const value = bike.read(text);
      if (typeof value !== 'number') return [];
      const key = completeKey(readKey(text)!);
      const asked = askedOf(key);
      const fitFor = (n: number) => {
        const { member, turn, computed } = best[n]!;
        return fitOf(member, facing(member, turn, asked, spec.alternator.phases), computed);
      };
      const score = zUnder(value, fitFor, (mean) => meterScatter(key, mean));
      return Number.isNaN(score) ? [] : [{ key: text, z: score }];
    });
    yield {
      truth: truth || 'sound',
      claims: [...sets].map(([name, share]) => [share, name === truth]),
      repairs: [...repairs].map(([name, share]) => [Math.min(1, share), needed.has(name)]),
      probability: p,
      byName: below + tie * p,
      byProbability: above + tie * p,
      unknowns,
      kept,
    };
  }
}

/** χ² of shares 0–1 against evenness in `bins` bins, and its z by Wilson & Hilferty 1931, dimensionless. */
export function evenness(
  shares: readonly number[],
  bins = 10,
): { readonly counts: number[]; readonly z: number } {
  const counts = new Array<number>(bins).fill(0);
  for (const share of shares) counts[Math.min(bins - 1, Math.max(0, Math.floor(bins * share)))]!++;
  const expected = shares.length / bins;
  const square = counts.reduce((sum, n) => sum + (n - expected) ** 2 / expected, 0);
  return { counts, z: chiZ(square, bins - 1) };
}

/** A χ² with `free` degrees of freedom as a z-score (Wilson & Hilferty 1931), dimensionless. */
export function chiZ(square: number, free: number): number {
  const ninth = 2 / (9 * free);
  return ((square / free) ** (1 / 3) - (1 - ninth)) / Math.sqrt(ninth);
}

/** Claims p against what was so: how many, expected and so, in deviations; and the Brier score likewise. */
export function against(claims: readonly (readonly [number, boolean])[]) {
  let expected = 0;
  let so = 0;
  let variance = 0;
  let brier = 0;
  let foretold = 0;
  let brierVariance = 0;
  for (const [p, yes] of claims) {
    expected += p;
    so += Number(yes);
    variance += p * (1 - p);
    brier += (Number(yes) - p) ** 2;
    foretold += p * (1 - p);
    brierVariance += p * (1 - p) * (1 - 2 * p) ** 2;
  }
  return {
    count: claims.length,
    expected,
    so,
    z: (so - expected) / Math.sqrt(Math.max(variance, 1e-9)),
    brier: brier / claims.length,
    foretold: foretold / claims.length,
    brierZ: (brier - foretold) / Math.sqrt(Math.max(brierVariance, 1e-9)),
  };
}
