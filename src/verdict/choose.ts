/**
 * The next reading: expected information about the repairs per minute, set-up counted in full only where nothing
 * else will share it, and a stop when no reading is worth its minutes.
 */

import type { ChargingSpec } from '../circuit/spec.ts';
import { FAULTS } from '../fault/faults.ts';
import { completeKey, KINDS, SET_UP_MINUTES, setUpsOf } from '../reading/catalogue.ts';
import { type ReadingKey, readKey } from '../reading/key.ts';
import { meterScatter } from '../reading/noise.ts';
import { offeredKeys } from '../reading/offers.ts';
import { chanceSeen } from '../reading/seen.ts';
import { POINT_KINDS, stateWords } from '../reading/show.ts';
import type { Doubt, Evidence, NextReading } from './answer.ts';
import { branchesOf } from './branches.ts';
import { fitOf } from './field.ts';
import { gridInformation } from './information.ts';
import type { Ranked } from './rank.ts';
import { homeOf, nameOf, turnKey } from './table.ts';
import { predict } from './weigh.ts';

interface Offer {
  readonly text: string;
  readonly home: number;
  readonly key: ReadingKey;
  readonly turned: readonly (readonly [ReadingKey, string])[];
}

/** What each hypothesis expects of one reading. */
export interface Outlook {
  readonly means: Float64Array;
  readonly sds: Float64Array;
  /** Chance of "OL" (for a number) or of seeing it (for a thing seen). */
  readonly other: Float64Array;
  readonly seen: boolean;
}

export interface Choice {
  readonly next: NextReading | null;
  readonly alternatives: readonly { readonly key: string; readonly minutes: number; readonly bits: number }[];
}

/** Hypotheses looked at when choosing. */
const LOOK = 80;
/** A reading that tells less than this is not offered, bits. */
const LEAST_BITS = 0.008;

export function openChooser(spec: ChargingSpec) {
  const offers: Offer[] = offeredKeys({
    phases: spec.alternator.phases,
    senses: spec.regulator.senses,
    flooded: spec.battery.chemistry === 'flooded',
  }).map((text) => {
    const key = completeKey(readKey(text)!);
    return {
      text,
      key,
      home: spec.alternator.phases === 3 ? homeOf(key) : 0,
      turned: [0, 1, 2].map((turn) => [turnKey(key, -turn), nameOf(turnKey(key, -turn))] as const),
    };
  });

  return (best: readonly Ranked[], evidence: Evidence, doubtful: readonly Doubt[]): Choice => {
    let mass = 0;
    const look: Ranked[] = [];
    for (const b of best) {
      if (look.length >= LOOK || mass > 0.996) break;
      look.push(b);
      mass += b.share;
    }
    const weights = Float64Array.from(look, (b) => b.share / mass);
    const names = [...new Set(look.map((b) => b.member.base.repairs))];
    const classes = Int32Array.from(look, (b) => names.indexOf(b.member.base.repairs));
    const paid = new Set<string>();
    for (const text of Object.keys(evidence.readings)) {
      const key = readKey(text);
      if (key) for (const need of setUpsOf(key)) paid.add(need);
    }
    const minutesOf = (key: ReadingKey) => {
      let minutes = KINDS[key.kind]!.minutes;
      let setUp = 0;
      for (const need of setUpsOf(key)) if (!paid.has(need)) setUp += SET_UP_MINUTES[need];
      if (key.kind === 'capacity_minutes') minutes += 0;
      return { minutes, setUp };
    };
    const again = retake(doubtful, evidence);
    const sure = surest(best);
    const taken = Object.keys(evidence.readings).length;
    const states = statesOf(evidence);
    const scored: { offer: Offer; bits: number; minutes: number; rate: number; outlook: Outlook }[] = [];
    for (const offer of offers) {
      if (offer.text in evidence.readings) continue;
      if (!allowed(offer.key, evidence)) continue;
      if (POINT_KINDS.has(offer.key.kind) && !opened(offer.key, taken)) continue;
      const outlook = lookOut(look, offer, states);
      const bits = outlook.seen
        ? seenBits(outlook.other, weights, classes, names.length)
        : gridInformation(
            outlook.means,
            outlook.sds,
            weights,
            classes,
            names.length,
            { count: 1, given: outlook.other },
            48,
          );
      if (bits < LEAST_BITS) continue;
      const { minutes, setUp } = minutesOf(offer.key);
      scored.push({ offer, bits, minutes: minutes + setUp, rate: bits / (minutes + 0.6 * setUp), outlook });
    }
    scored.sort((a, b) => b.rate - a.rate);
    const alternatives = onePerKind(scored)
      .slice(0, 12)
      .map((s) => ({ key: s.offer.text, minutes: s.minutes, bits: s.bits }));
    if (again) {
      const key = readKey(again.key)!;
      return {
        next: {
          key: again.key,
          minutes: KINDS[key.kind]?.minutes ?? 3,
          bits: 0,
          why: `it does not fit the other readings (${again.mistake}); take it again before believing it`,
          branches: [],
        },
        alternatives,
      };
    }
    const top = scored[0];
    if (!top || !worthIt(top.bits, top.rate, sure)) return { next: null, alternatives };
    return {
      next: {
        key: top.offer.text,
        minutes: top.minutes,
        bits: top.bits,
        why: whyWords(top.bits, top.minutes, look, weights, classes, top.outlook),
        branches: branchesOf(look, weights, top.offer.key, top.outlook),
      },
      alternatives: alternatives.slice(1),
    };
  };
}

/** The best of each kind and engine state: three alike pins are one idea. */
function onePerKind<T extends { readonly offer: Offer }>(scored: readonly T[]): T[] {
  const seen = new Set<string>();
  return scored.filter(({ offer }) => {
    const { pin: _pin, pair: _pair, red: _red, black: _black, cell: _cell, ...rest } = offer.key.state;
    const idea = `${offer.key.kind} ${JSON.stringify(rest)}`;
    if (seen.has(idea)) return false;
    seen.add(idea);
    return true;
  });
}

/** Share of the likeliest list of repairs, over all hypotheses and not only those looked at, 0–1. */
function surest(best: readonly Ranked[]): number {
  const shares = new Map<string, number>();
  let most = 0;
  for (const { member, share } of best) {
    const sum = (shares.get(member.base.repairs) ?? 0) + share;
    shares.set(member.base.repairs, sum);
    most = Math.max(most, sum);
  }
  return most;
}

/** Whether the best reading is still worth its minutes when the likeliest repairs have probability `sure`. */
function worthIt(bits: number, rate: number, sure: number): boolean {
  if (sure > 0.985) return false;
  // Each minute must lower the doubt: the less doubt is left, the more a minute must tell.
  return rate > 0.004 + 0.08 * Math.max(0, sure - 0.9) && bits > 0.01;
}

/**
 * Engine states in the order they come into play: one more with each reading, because each costs physics for every
 * single fault and minutes at the lift. The first look is at what needs no running engine.
 */
const STATES: readonly string[] = [
  'idle|low|cold|False|True',
  '3000|low|cold|False|True',
  '5000|low|cold|False|True',
  '5000|off|cold|False|True',
  '3000|low|cold|False|False',
  'idle|low|hot|False|True',
  '3000|low|hot|False|True',
  '5000|off|cold|True|True',
  'idle|low|cold|True|True',
  '3000|low|cold|True|True',
];

/** Engine states that readings were taken in, and standing still. */
function statesOf(evidence: Evidence): Set<string> {
  const states = new Set<string>();
  for (const text of Object.keys(evidence.readings)) {
    const key = readKey(text);
    if (key && POINT_KINDS.has(key.kind)) states.add(stateWords(completeKey(key)));
  }
  return states;
}

function opened(key: ReadingKey, taken: number): boolean {
  if (key.state.wiggle === 'True') return false;
  const place = STATES.indexOf(stateWords(key));
  return place >= 0 && place < taken;
}

/** The most doubtful reading that has not been taken twice yet and can be, with the tools at hand. */
function retake(doubtful: readonly Doubt[], evidence: Evidence): Doubt | null {
  const could = (doubt: Doubt) => {
    const key = readKey(doubt.key);
    return (
      doubt.probability > 0.3 && !evidence.again.includes(doubt.key) && key !== null && allowed(key, evidence)
    );
  };
  return doubtful.find(could) ?? null;
}

function allowed(key: ReadingKey, evidence: Evidence): boolean {
  const tool = KINDS[key.kind]!.tool;
  if (tool === 'clamp-meter') return evidence.tools.clamp;
  if (tool === 'load-tester') return evidence.tools.loadTester;
  if (tool === 'hydrometer') return evidence.tools.hydrometer;
  if (tool === 'supply') return evidence.tools.supply;
  return true;
}

const pair = new Float64Array(2);

/** `states`: engine states that readings were taken in; in others a set is judged by its faults put together. */
function lookOut(look: readonly Ranked[], offer: Offer, states: ReadonlySet<string>): Outlook {
  const n = look.length;
  const means = new Float64Array(n);
  const sds = new Float64Array(n).fill(1);
  const other = new Float64Array(n);
  const seen = offer.key.kind === 'visual';
  for (let i = 0; i < n; i++) {
    const { member, turn, weighed, computed } = look[i]!;
    if (seen) {
      const blown = member.base.atoms.some((a) => a.fault === 'diode-shorted' && a.variant === 1);
      other[i] = chanceSeen(offer.key.state.what!, member.base.faults, blown);
      continue;
    }
    const [key, name] = offer.turned[member.base.turns === 1 ? offer.home : turn]!;
    const fit = fitOf(member, key, name, computed && states.has(stateWords(key)));
    if (Number.isNaN(fit.middle)) {
      other[i] = 0.99;
      continue;
    }
    predict(weighed.given, fit, pair);
    means[i] = pair[0]!;
    sds[i] = Math.sqrt(pair[1]! + meterScatter(offer.key, pair[0]!) ** 2);
    other[i] = Math.min(Math.max(fit.open, 0.005), 0.995);
  }
  return { means, sds, other, seen };
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

/** Says which two readings of the bike the reading parts best: the classes furthest apart that still count. */
function whyWords(
  bits: number,
  minutes: number,
  look: readonly Ranked[],
  weights: Float64Array,
  classes: Int32Array,
  outlook: Outlook,
): string {
  let best = { gap: 0, a: -1, b: -1 };
  for (let i = 0; i < look.length; i++) {
    for (let j = i + 1; j < look.length; j++) {
      if (classes[i] === classes[j]) continue;
      const apart = outlook.seen
        ? 0
        : Math.min(3, Math.abs(outlook.means[i]! - outlook.means[j]!) / (outlook.sds[i]! + outlook.sds[j]!));
      const gap =
        Math.sqrt(weights[i]! * weights[j]!) *
        (Math.max(Math.abs(outlook.other[i]! - outlook.other[j]!) * 2, apart) + 1e-3);
      if (gap > best.gap) best = { gap, a: i, b: j };
    }
  }
  const words = (r: Ranked) =>
    r.member.base.faults.length
      ? r.member.base.faults.map((f) => FAULTS[f].title).join(' with ')
      : 'nothing wrong';
  const tells = bits > 0.4 ? 'tells a lot' : bits > 0.12 ? 'tells something' : 'tells a little';
  const apart =
    best.a < 0
      ? ''
      : `; best of all readings per minute, it parts “${words(look[best.a]!)}” from “${words(look[best.b]!)}”`;
  return `${tells} for ${minutes} min${apart}`;
}
