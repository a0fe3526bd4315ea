/**
 * Whether a repaired bike charges: the same inference as the verdict's, on the bike as it is now (the new parts' own
 * figures), from what repairs leave in doubt (after-repair.ts) and what was read since.
 */
import type { ChargingSpec } from '../circuit/spec.ts';
import type { FaultId, RepairId } from '../fault/catalogue.ts';
import { FAULTS } from '../fault/faults.ts';
import { checkKey, completeKey } from '../reading/catalogue.ts';
import { meterScatter } from '../reading/noise.ts';
import { type AfterRepair, logPriorLeft } from './after-repair.ts';
import type { Band, Doubt, Evidence, FaultSet, NextReading } from './answer.ts';
import { askedOf } from './asked.ts';
import { openChooser } from './choose.ts';
import { contradicts, doubts, doubtsWith, slipShares } from './doubt.ts';
import { prepare, rowsOf, type Taken } from './evidence.ts';
import { catalogueWeights, type Field, fitOf, openField } from './field.ts';
import { openProofPlanner, type Planned } from './proof-plan.ts';
import { openRanker, type Ranked } from './rank.ts';
import { leaveOneOut, predict, type Row, type Weighed, weigh } from './weigh.ts';

/** A reading that was taken, beside what the repaired bike should have shown. */
export interface Held {
  readonly key: string;
  /** 95 of 100 sound bikes read inside, given the other readings that fit, the kind's unit; null for "OL" or a thing seen. */
  readonly band: Band | null;
  /** Whether it lies where a sound bike is read; null where it is no number. */
  readonly inside: boolean | null;
}

/** A fault that may be left. */
export interface Left {
  readonly fault: FaultId;
  readonly repair: RepairId;
  /** 0–1. */
  readonly probability: number;
}

export interface Proof {
  /** Chance that any fault is left, one that the catalogue does not have counted in, 0–1. */
  readonly faultLeft: number;
  /** The same before anything was read, 0–1. */
  readonly faultLeftBefore: number;
  readonly noneOfThese: number;
  /** Sets of faults that may be left, none first where that is likeliest. */
  readonly sets: readonly FaultSet[];
  /** Each fault that may be left, likeliest first. */
  readonly left: readonly Left[];
  /** What to read next, in this order; empty where a fault is likelier left than not. */
  readonly plan: readonly Planned[];
  /** Where a fault is likelier left than not: the reading that tells best which. Null elsewhere, or if none is worth it. */
  readonly next: NextReading | null;
  readonly held: readonly Held[];
  readonly doubtful: readonly Doubt[];
  /** The readings contradict the machine file or the set-up, and no single mistake puts that right. */
  readonly misfit: boolean;
}

export interface Prover {
  /** The words of the owner do not count here, only what was read since the repair. */
  readonly prove: (evidence: Evidence) => Proof;
  /** What the repaired bike shows for a key, as far as the readings so far tell: a running reading's band over rpm. */
  readonly band: (key: string, evidence: Evidence) => Band | null;
}

/** A reading within so many deviations is taken for a sound bike's when others are judged by it, 1. */
const QUIET = 3;
/** Faults left that are named: less likely ones only lengthen the list, 0–1. */
const NAMED = 0.001;
const BAND = 1.96;

/**
 * `spec` is the bike as it is now, the new parts' sheets counting; `must` are readings that these repairs want whatever
 * they find. Throws RangeError when a chance is not between 0 and 1.
 */
export function openProver(
  spec: ChargingSpec,
  after: AfterRepair,
  { must = [], seed = 1 }: { readonly must?: readonly string[]; readonly seed?: number } = {},
): Prover {
  for (const [fault, chance] of Object.entries(after.left))
    if (!(chance > 0 && chance < 1))
      throw new RangeError(`chance of ${fault} must be above 0 and below 1, got ${chance}`);
  const field = openField(spec, catalogueWeights(), seed);
  const expected = { logPrior: logPriorLeft(after), noneOfThese: after.noneOfThese };
  const { rank } = openRanker(field, expected);
  const planOf = openProofPlanner(spec, must);
  const { choose } = openChooser(spec);
  const known = new Map<string, Taken>();
  const before = (1 - after.noneOfThese) * Math.exp(expected.logPrior({ atoms: [] }));
  return {
    prove: (evidence) => {
      const taken = prepare(evidence, spec.alternator.phases, known);
      const ranking = rank(taken, []);
      const { best, noneOfThese } = ranking;
      const suspected = slipShares(best);
      const doubtful = doubts(suspected, taken);
      const sets = setsOf(best);
      const sound = sets.find(({ faults }) => faults.length === 0)?.probability ?? 0;
      const now = soundNow(field, taken);
      const faultLeft = Math.min(1, Math.max(0, 1 - sound));
      const failed = faultLeft > 0.5;
      const faulty = best.filter((b) => !isSound(b));
      const ranked = {
        ...(best.find(isSound) ?? best[0]!),
        member: field.sound,
        turn: 0,
        weighed: now.weighed,
      };
      return {
        faultLeft,
        faultLeftBefore: 1 - before,
        noneOfThese,
        sets,
        left: leftOf(sets),
        plan: failed ? [] : planOf(ranked, faulty, evidence),
        next: failed ? choose(best, evidence, suspected, taken, doubtful, noneOfThese).next : null,
        held: now.held,
        doubtful: doubtsWith(doubtful, suspected, taken, undefined),
        misfit: contradicts(best, noneOfThese),
      };
    },
    band: (text, evidence) => {
      const checked = checkKey(text);
      if (!checked.ok) throw new RangeError(`reading key: ${checked.why}`);
      const key = completeKey(checked.key);
      if (key.kind === 'visual') return null;
      const fit = fitOf(field.sound, askedOf(key), true);
      if (Number.isNaN(fit.middle)) return null;
      const { weighed } = soundNow(field, prepare(evidence, spec.alternator.phases, known));
      const out = new Float64Array(2);
      predict(weighed.given, fit, out);
      const half = BAND * Math.sqrt(out[1]! + meterScatter(key, out[0]!) ** 2);
      return { low: out[0]! - half, high: out[0]! + half };
    },
  };
}

const isSound = ({ member }: Ranked) => member.base.faults.length === 0;

function setsOf(best: readonly Ranked[]): FaultSet[] {
  const sets = new Map<string, { faults: readonly FaultId[]; probability: number }>();
  for (const { member, probability } of best) {
    const faults = [...member.base.faults].sort();
    const name = faults.join('+');
    const set = sets.get(name);
    if (set) set.probability += probability;
    else sets.set(name, { faults, probability });
  }
  return [...sets.values()].sort((a, b) => b.probability - a.probability);
}

function leftOf(sets: readonly FaultSet[]): Left[] {
  const chances = new Map<FaultId, number>();
  for (const { faults, probability } of sets)
    for (const fault of faults) chances.set(fault, (chances.get(fault) ?? 0) + probability);
  return [...chances]
    .filter(([, probability]) => probability >= NAMED)
    .sort((a, b) => b[1] - a[1])
    .map(([fault, probability]) => ({ fault, repair: FAULTS[fault].repair, probability }));
}

/**
 * The sound bike on what was read. Readings far from any sound bike's say nothing of its joints: they are judged by the
 * others, and the others not by them.
 */
function soundNow(field: Field, taken: readonly Taken[]): { weighed: Weighed; held: readonly Held[] } {
  const rows: Row[] = [];
  const at: number[] = [];
  rowsOf(field.sound, 0, taken, true, rows, at);
  const own = (row: Row) => row.fit.slope.reduce((sum, s) => sum + s * s, row.scatter);
  const quiet = rows.filter((row) => Math.abs(row.value - row.fit.middle) < QUIET * Math.sqrt(own(row)));
  const weighed = weigh(quiet);
  const others = new Float64Array(2 * quiet.length);
  if (quiet.length > 0) leaveOneOut(weighed.given, others);
  const out = new Float64Array(2);
  const held = taken.map(({ text }, n): Held => {
    const row = rows[at.indexOf(n)];
    if (!row) return { key: text, band: null, inside: null };
    const place = quiet.indexOf(row);
    if (place >= 0) {
      out[0] = others[2 * place]!;
      out[1] = others[2 * place + 1]!;
    } else {
      predict(weighed.given, row.fit, out);
      out[1] = out[1]! + row.scatter;
    }
    const half = BAND * Math.sqrt(out[1]!);
    const band = { low: out[0]! - half, high: out[0]! + half };
    return { key: text, band, inside: row.value >= band.low && row.value <= band.high };
  });
  return { weighed, held };
}
