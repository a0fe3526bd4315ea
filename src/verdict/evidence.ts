/** Evidence made ready: readings sorted into numbers, "OL" and things seen, each with its scatter and mistakes. */
import { completeKey } from '../reading/catalogue.ts';
import { type ReadingKey, readKey } from '../reading/key.ts';
import { type Mistake, mistakesFor } from '../reading/mistakes.ts';
import { meterScatter } from '../reading/noise.ts';
import { chanceSeen } from '../reading/seen.ts';
import type { Evidence } from './answer.ts';
import { fitOf, type Member } from './field.ts';
import { homeOf, nameOf, turnKey } from './table.ts';
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
}

/** Sorts readings by key, so that the order they were taken in cannot matter. Unknown keys are passed over. */
export function prepare(evidence: Evidence, phases: 1 | 3): Taken[] {
  const taken: Taken[] = [];
  for (const text of Object.keys(evidence.readings).sort()) {
    const partial = readKey(text);
    if (!partial) continue;
    const key = completeKey(partial);
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
    const meter = meterScatter(t.key, Math.max(Math.abs(fit.middle), Math.abs(t.value) * 0.5));
    rows.push({
      value: t.value,
      fit,
      scatter: fit.residual + meter * meter + (vague ? vague * vague : 0),
      mistakes: t.mistakes,
      slip: t.again ? SLIP_AGAIN : SLIP,
      anything: anythingDensity(t, fit.middle, meter),
    });
    at.push(n);
  }
  return log;
}

/** Density of a value that means nothing, per unit: flat over several times what is plausible. */
function anythingDensity(taken: Taken, middle: number, meter: number): number {
  const width = 3 * Math.max(Math.abs(middle), Math.abs(taken.value as number), 20 * meter);
  return 1 / width;
}
