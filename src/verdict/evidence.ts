/** Evidence made ready: readings sorted into numbers, "OL" and things seen, each with its scatter and mistakes. */
import { logNormalDensity } from '../numbers/normal.ts';
import { checkKey, completeKey } from '../reading/catalogue.ts';
import type { ReadingKey } from '../reading/key.ts';
import { type Elsewhere, elsewhereOf, MISTAKES, type Mistake, mistakesFor } from '../reading/mistakes.ts';
import { meterScatter } from '../reading/noise.ts';
import { roundingScatter } from '../reading/rounding.ts';
import { chanceSeen } from '../reading/seen.ts';
import type { Evidence } from './answer.ts';
import { type Asked, askedOf } from './asked.ts';
import { facing, fitOf, type Member } from './field.ts';
import type { Instead } from './guess.ts';
import type { Fit } from './line.ts';
import { type Row, SLIP, SLIP_AGAIN } from './weigh.ts';

export interface Taken {
  /** As the evidence writes it. */
  readonly text: string;
  readonly key: ReadingKey;
  readonly asked: Asked;
  readonly value: number | null | boolean;
  readonly again: boolean;
  readonly mistakes: readonly Mistake[];
  /** Phases of the bike's alternator. */
  readonly phases: 1 | 3;
  /** Variance of rounding, the kind's unit squared. */
  readonly rounding: number;
  /** Number of its coming, for lists by reading. */
  readonly place: number;
  /** What each line makes of it, once worked out: thousands of hypotheses share some hundred lines. */
  readonly judged: Map<Fit, Judged>;
}

/** A reading against one line, or one set where it is a thing seen. */
export interface Judged {
  /** Log weight of what is no number, nats. */
  readonly log: number;
  readonly row: Row | null;
  /** The most that it can add to a log weight, whatever the other readings say, nats. */
  readonly most: number;
}

/**
 * Sorts readings by key, so that the order they were taken in cannot matter. Keys of no reading are passed over. With
 * `known`, readings that stood there the last time are taken as they were, with what lines made of them.
 */
export function prepare(evidence: Evidence, phases: 1 | 3, known?: Map<string, Taken>): Taken[] {
  const taken: Taken[] = [];
  let place = 0;
  for (const t of known?.values() ?? []) place = Math.max(place, t.place + 1);
  for (const text of Object.keys(evidence.readings).sort()) {
    const checked = checkKey(text);
    if (!checked.ok) continue;
    const key = completeKey(checked.key);
    const value = evidence.readings[text]!;
    const again = evidence.again.includes(text);
    const before = known?.get(text);
    if (before && Object.is(before.value, value) && before.again === again) {
      taken.push(before);
      continue;
    }
    taken.push({
      text,
      key,
      asked: askedOf(key),
      value,
      again,
      mistakes: typeof value !== 'number' ? [] : mistakesFor(key.kind, value),
      phases,
      rounding: typeof value !== 'number' ? 0 : roundingScatter(key.kind, value) ** 2,
      place: place++,
      judged: new Map(),
    });
  }
  known?.clear();
  for (const t of taken) known?.set(t.text, t);
  return taken;
}

const BLOWN_VAGUE = new Set(['reg_volts', 'drop_pos', 'drop_breaker', 'drop_dcplug', 'drop_neg']);

/**
 * Scatter, the kind's unit, of what nobody can foretell, 0 elsewhere: behind a blown fuse the regulator's volts run
 * free, and a regulator that is dead on the diode range may be so in any way.
 */
function isVague({ base }: Member, kind: string): number {
  if (base.blown && BLOWN_VAGUE.has(kind)) return 4;
  return base.deadAnyhow && kind === 'diode' ? 0.4 : 0;
}

/** A reading that shows OL, or not, when the line says otherwise: chance at least. */
const LEAST_OPEN = 0.004;

/**
 * Log weight, nats, of what is no number; fills `rows` (and their places `at`) with what is, for one hypothesis. `kept`
 * remembers by place what this hypothesis makes of each reading; it must be the same hypothesis on the same tables.
 */
export function rowsOf(
  member: Member,
  turn: number,
  taken: readonly Taken[],
  spend: boolean,
  rows: Row[],
  at: number[],
  kept?: Judged[],
): number {
  let log = 0;
  rows.length = 0;
  at.length = 0;
  for (let n = 0; n < taken.length; n++) {
    const t = taken[n]!;
    let judged = kept?.[t.place];
    if (!judged) {
      judged = judgedOf(member, turn, t, spend);
      if (kept) kept[t.place] = judged;
    }
    log += judged.log;
    if (judged.row) {
      rows.push(judged.row);
      at.push(n);
    }
  }
  return log;
}

/** What one hypothesis makes of a reading. */
export function judgedOf(member: Member, turn: number, t: Taken, spend: boolean): Judged {
  if (typeof t.value === 'boolean') {
    const p = chanceSeen(t.key.state.what ?? '', member.base.faults, member.base.blown);
    const log = Math.log(t.value ? p : 1 - p);
    return { log, row: null, most: log };
  }
  const fit = fitOf(member, facing(member, turn, t.asked, t.phases), spend);
  const vague = isVague(member, t.key.kind);
  let judged = vague ? undefined : t.judged.get(fit);
  if (!judged) {
    judged = judge(t, t.value, fit, vague);
    if (!vague) t.judged.set(fit, judged);
  }
  return judged;
}

function judge(t: Taken, value: number | null, fit: Fit, vague: number): Judged {
  const open = vague ? 0.4 : Math.min(Math.max(fit.open, LEAST_OPEN), 1 - LEAST_OPEN);
  if (value === null) return { log: Math.log(open), row: null, most: Math.log(open) };
  const log = Math.log(1 - open);
  // A number where the physics shows none: a stray value between nothing and some tens.
  if (Number.isNaN(fit.middle)) {
    const stray = log - Math.log(10 + 2 * Math.abs(value));
    return { log: stray, row: null, most: stray };
  }
  const meter = meterScatter(t.key, sizeOf(fit.middle, value));
  const scatter = fit.residual + meter * meter + t.rounding + vague * vague;
  const row: Row = {
    value,
    fit,
    scatter,
    mistakes: t.mistakes,
    slip: t.again ? SLIP_AGAIN : SLIP,
    anything: anythingDensity(t, fit.middle, meter),
    mark:
      fit.middle +
      Math.SQRT2 * scatter +
      Math.E * fit.residual +
      Math.LN2 * (fit.slope[3]! + Math.PI * fit.slope[7]!),
  };
  // The other readings cannot tell it closer than its own scatter.
  const peak = Math.log1p(-row.slip) + logNormalDensity(0, scatter);
  return { log, row, most: log + Math.max(peak, Math.log(row.slip * row.anything)) };
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

/** A reading that may have been taken instead. */
interface Named {
  readonly asked: Asked;
  readonly mistake: Mistake;
}

/**
 * Looks up, for rows that do not fit, what else may have been measured: another pair or pin, other points, another
 * engine state that readings were taken in. Names are made once an answer; lines only for the rows that ask.
 */
export function openElsewhere(taken: readonly Taken[]) {
  const phases = taken[0]?.phases ?? 3;
  const states = new Set<string>();
  for (const { asked } of taken) if (asked.running) states.add(asked.words);
  const named = new Map<number, readonly Named[]>();
  const namedOf = (n: number): readonly Named[] => {
    let list = named.get(n);
    if (!list) {
      list = elsewhereOf(taken[n]!.key, phases, states).map(({ key, mistake }: Elsewhere) => ({
        asked: askedOf(key),
        mistake,
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
      for (const { asked, mistake } of namedOf(n)) {
        const fit = fitOf(member, facing(member, turn, asked, phases), spend);
        const meter = meterScatter(asked.key, sizeOf(fit.middle || 0, Number(t.value)));
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

/** Weighs what is no number where one is due, and the other way round, under one hypothesis; `kept` as in `rowsOf`. `meant` NaN = "OL". */
export function oddOf(
  member: Member,
  turn: number,
  taken: readonly Taken[],
  spend: boolean,
  instead: InsteadOf,
  kept: readonly Judged[],
): Odd {
  let gain = 0;
  const slips: { n: number; mistake: Mistake; meant: number; share: number }[] = [];
  taken.forEach((t, n) => {
    if (typeof t.value === 'boolean' || isVague(member, t.key.kind)) return;
    const fit = kept[t.place]?.row?.fit ?? fitOf(member, facing(member, turn, t.asked, t.phases), spend);
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
