/** Evidence made ready: readings sorted into numbers, "OL" and things seen, each with its scatter and mistakes. */
import { logNormalDensity } from '../numbers/normal.ts';
import { checkKey, completeKey } from '../reading/catalogue.ts';
import type { ReadingKey } from '../reading/key.ts';
import { type Elsewhere, elsewhereOf, MISTAKES, type Mistake, mistakesFor } from '../reading/mistakes.ts';
import { meterScatter } from '../reading/noise.ts';
import { roundingScatter } from '../reading/rounding.ts';
import { chanceSeen } from '../reading/seen.ts';
import { POINT_KINDS, stateWords } from '../reading/show.ts';
import type { Evidence } from './answer.ts';
import { fitOf, type Member } from './field.ts';
import type { Instead } from './guess.ts';
import { homeOf, nameOf, turnKey } from './turn.ts';
import { type Row, SLIP, SLIP_AGAIN } from './weigh.ts';

export interface Taken {
  /** As the evidence writes it. */
  readonly text: string;
  readonly key: ReadingKey;
  /** The key turned back by 0, 1, 2 phases, with its table names. */
  readonly turned: readonly (readonly [ReadingKey, string])[];
  /** Turn that brings the reading's first phase letter to a: what a set without a place in the phases is read by. */
  readonly home: number;
  readonly value: number | null | boolean;
  readonly again: boolean;
  readonly mistakes: readonly Mistake[];
  /** Phases of the bike's alternator. */
  readonly phases: 1 | 3;
  /** Variance of rounding, the kind's unit squared. */
  readonly rounding: number;
}

/** Sorts readings by key, so that the order they were taken in cannot matter. Keys of no reading are passed over. */
export function prepare(evidence: Evidence, phases: 1 | 3): Taken[] {
  const taken: Taken[] = [];
  for (const text of Object.keys(evidence.readings).sort()) {
    const checked = checkKey(text);
    if (!checked.ok) continue;
    const key = completeKey(checked.key);
    const turned = [0, 1, 2].map((turn) => {
      const k = turnKey(key, -turn);
      return [k, nameOf(k)] as const;
    });
    const value = evidence.readings[text]!;
    const again = evidence.again.includes(text);
    taken.push({
      text,
      key,
      turned,
      home: phases === 3 ? homeOf(key) : 0,
      value,
      again,
      mistakes: typeof value !== 'number' ? [] : mistakesFor(key.kind, value),
      phases,
      rounding: typeof value !== 'number' ? 0 : roundingScatter(key.kind, value) ** 2,
    });
  }
  return taken;
}

const BLOWN_VAGUE = new Set(['reg_volts', 'drop_pos', 'drop_breaker', 'drop_dcplug', 'drop_neg']);

/**
 * Scatter, the kind's unit, of what nobody can foretell, 0 elsewhere: behind a blown fuse the regulator's volts run
 * free, and a regulator that is dead on the diode range may be so in any way.
 */
function isVague(member: Member, kind: string): number {
  for (const { fault, variant } of member.base.atoms) {
    if (fault === 'diode-shorted' && variant === 1 && BLOWN_VAGUE.has(kind)) return 4;
    if (fault === 'regulator-dead' && variant === 1 && kind === 'diode') return 0.4;
  }
  return 0;
}

/** A reading that shows OL, or not, when the line says otherwise: chance at least. */
const LEAST_OPEN = 0.004;

/** Log weight, nats, of what is no number; fills `rows` (and their places `at`) with what is, for one hypothesis. */
export function rowsOf(
  member: Member,
  turn: number,
  taken: readonly Taken[],
  spend: boolean,
  rows: Row[],
  at: number[],
): number {
  let log = 0;
  rows.length = 0;
  at.length = 0;
  for (let n = 0; n < taken.length; n++) {
    const t = taken[n]!;
    if (typeof t.value === 'boolean') {
      const blown = member.base.atoms.some((a) => a.fault === 'diode-shorted' && a.variant === 1);
      const p = chanceSeen(t.key.state.what ?? '', member.base.faults, blown);
      log += Math.log(t.value ? p : 1 - p);
      continue;
    }
    const [key, name] = t.turned[member.base.turns === 1 ? t.home : turn]!;
    const fit = fitOf(member, key, name, spend);
    const vague = isVague(member, t.key.kind);
    const open = vague ? 0.4 : Math.min(Math.max(fit.open, LEAST_OPEN), 1 - LEAST_OPEN);
    if (t.value === null) {
      log += Math.log(open);
      continue;
    }
    log += Math.log(1 - open);
    if (Number.isNaN(fit.middle)) {
      // A number where the physics shows none: a stray value between nothing and some tens.
      log += Math.log(1 / (10 + 2 * Math.abs(t.value)));
      continue;
    }
    const meter = meterScatter(t.key, sizeOf(fit.middle, t.value));
    rows.push({
      value: t.value,
      fit,
      scatter: fit.residual + meter * meter + t.rounding + (vague ? vague * vague : 0),
      mistakes: t.mistakes,
      slip: t.again ? SLIP_AGAIN : SLIP,
      anything: anythingDensity(t, fit.middle, meter),
    });
    at.push(n);
  }
  return log;
}

/**
 * Size by which the meter's scatter goes, the kind's unit: of what is expected, or half of what was noted where that is
 * more; but a value ten times out does not make the meter ten times worse.
 */
function sizeOf(middle: number, noted: number): number {
  const size = Math.abs(middle);
  return Math.max(size, Math.min(0.5 * Math.abs(noted), 3 * size + 1));
}

/** Density of a value that means nothing, per unit: flat over several times what is plausible. */
function anythingDensity(taken: Taken, middle: number, meter: number): number {
  const width = 3 * Math.max(Math.abs(middle), Math.abs(taken.value as number), 20 * meter);
  return 1 / width;
}

/** A reading that may have been taken instead, under the names that the tables know it by in each turn. */
interface Named {
  readonly key: ReadingKey;
  readonly mistake: Mistake;
  readonly home: number;
  readonly turned: readonly (readonly [ReadingKey, string])[];
}

/**
 * Looks up, for rows that do not fit, what else may have been measured: another pair or pin, other points, another
 * engine state that readings were taken in. Names are made once an answer; lines only for the rows that ask.
 */
export function openElsewhere(taken: readonly Taken[]) {
  const phases = taken[0]?.phases ?? 3;
  const states = new Set<string>();
  for (const t of taken) if (POINT_KINDS.has(t.key.kind)) states.add(stateWords(t.key));
  const named = new Map<number, readonly Named[]>();
  const namedOf = (n: number): readonly Named[] => {
    let list = named.get(n);
    if (!list) {
      list = elsewhereOf(taken[n]!.key, phases, states).map(({ key, mistake }: Elsewhere) => ({
        key,
        mistake,
        home: phases === 3 ? homeOf(key) : 0,
        turned: [0, 1, 2].map((turn) => {
          const k = turnKey(key, -turn);
          return [k, nameOf(k)] as const;
        }),
      }));
      named.set(n, list);
    }
    return list;
  };
  /** For one hypothesis: the readings that may have been taken instead of each one in `taken`. */
  return (member: Member, turn: number, spend: boolean): InsteadOf =>
    (n) => {
      const t = taken[n]!;
      const found: Instead[] = [];
      for (const { key, mistake, home, turned } of namedOf(n)) {
        const [turnedKey, name] = turned[member.base.turns === 1 ? home : turn]!;
        const fit = fitOf(member, turnedKey, name, spend);
        const meter = meterScatter(key, sizeOf(fit.middle || 0, Number(t.value)));
        found.push({ mistake, fit, scatter: fit.residual + meter * meter + t.rounding });
      }
      return found;
    };
}

/** The readings that may have been taken instead of reading n. */
export type InsteadOf = (n: number) => readonly Instead[];

/** Readings that show "OL" where a number is due, or the other way round. */
export interface Odd {
  /** What mistakes add to the hypothesis' log weight, nats. */
  readonly gain: number;
  readonly slips: readonly {
    readonly n: number;
    readonly mistake: Mistake;
    readonly meant: number;
    readonly share: number;
  }[];
}

export const NOTHING_ODD: Odd = { gain: 0, slips: [] };

/** Weighs what is no number where one is due, and the other way round, under one hypothesis. `meant` NaN = "OL". */
export function oddOf(
  member: Member,
  turn: number,
  taken: readonly Taken[],
  spend: boolean,
  instead: InsteadOf,
): Odd {
  let gain = 0;
  const slips: { n: number; mistake: Mistake; meant: number; share: number }[] = [];
  taken.forEach((t, n) => {
    if (typeof t.value === 'boolean' || isVague(member, t.key.kind)) return;
    const [key, name] = t.turned[member.base.turns === 1 ? t.home : turn]!;
    const fit = fitOf(member, key, name, spend);
    const due = !Number.isNaN(fit.middle) && fit.open < 0.5;
    if (due === (t.value !== null)) return;
    const slip = t.again ? SLIP_AGAIN : SLIP;
    // As in rowsOf: the least chance is that of a lead without contact, or of a stray value.
    const stray = t.value === null ? LEAST_OPEN : LEAST_OPEN / (10 + 2 * Math.abs(t.value as number));
    const right =
      t.value === null
        ? Math.max(fit.open, LEAST_OPEN)
        : Math.max(stray, Number.isNaN(fit.middle) ? 0 : 1 - fit.open);
    const found: { mistake: Mistake; weight: number }[] = [
      t.value === null
        ? { mistake: MISTAKES.noContact, weight: Math.min(stray, slip * MISTAKES.noContact.share) }
        : { mistake: MISTAKES.anything, weight: stray },
    ];
    let total = right;
    for (const other of instead(n)) {
      const open = Math.min(Math.max(other.fit.open, LEAST_OPEN), 1 - LEAST_OPEN);
      let weight = slip * other.mistake.share;
      if (t.value === null) weight *= open;
      else if (Number.isNaN(other.fit.middle)) continue;
      else {
        let variance = other.scatter;
        for (const s of other.fit.slope) variance += s * s;
        weight *= (1 - open) * Math.exp(logNormalDensity((t.value as number) - other.fit.middle, variance));
      }
      found.push({ mistake: other.mistake, weight });
      total += weight;
    }
    gain += Math.log(total / right);
    for (const { mistake, weight } of found)
      slips.push({ n, mistake, meant: fit.open > 0.5 ? Number.NaN : fit.middle, share: weight / total });
  });
  return { gain, slips };
}
