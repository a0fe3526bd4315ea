/**
 * What the verdict's model expects of readings that were kept back, under the faults that are really there: the
 * probability integral transform (Dawid 1984; Talts et al. 2018, arXiv 1804.06788, for samplers), as a z-score that
 * should be standard normal. Three times over: from the model alone, from some readings, from all the others.
 */

import type { FaultId } from '../../src/fault/catalogue.ts';
import type { Stream } from '../../src/numbers/random.ts';
import { KINDS } from '../../src/reading/catalogue.ts';
import { rowsOf, type Taken } from '../../src/verdict/evidence.ts';
import { type Field, facing, fitOf, type Member } from '../../src/verdict/field.ts';
import { baseName } from '../../src/verdict/sets.ts';
import type { Row } from '../../src/verdict/weigh.ts';
import { tailZ } from './tail.ts';

/** One reading kept back. z-scores, dimensionless; NaN where the model or the bike shows no number. */
export interface Kept {
  readonly key: string;
  readonly kind: string;
  readonly value: number | null;
  /** Given the faults alone. */
  readonly alone: number;
  /** Given the faults and some readings, this one not among them; NaN for those. */
  readonly some: number;
  /** Given the faults and all other readings. */
  readonly rest: number;
  /** Mean and deviation behind `some` (or `rest`), the kind's unit. */
  readonly mean: number;
  readonly sd: number;
  /** Chance of "OL" that the model gives from `some`, 0–1. */
  readonly open: number;
}

/** A way the true set may lie: which strata, which phases. */
interface Way {
  readonly member: Member;
  readonly turn: number;
  log: number;
}

/** Every base of exactly these faults, triples grown from their pairs. */
function basesOf(field: Field, faults: readonly FaultId[], taken: readonly Taken[]): Way[] {
  const wanted = faults
    .filter((id) => id !== 'battery-flat')
    .toSorted()
    .join('+');
  const is = (member: Member, name: string) => member.base.faults.toSorted().join('+') === name;
  const turned = (members: readonly Member[]): Way[] =>
    members.flatMap((member) =>
      Array.from({ length: member.base.turns }, (_, turn) => ({ member, turn, log: 0 })),
    );
  if (faults.length < 3) return turned(field.members.filter((member) => is(member, wanted)));
  const found = new Map<string, Member>();
  for (const left of faults) {
    const pair = faults
      .filter((id) => id !== left)
      .toSorted()
      .join('+');
    const ways = turned(field.members.filter((member) => is(member, pair)));
    for (const { member } of best(ways, taken, false, 3)) {
      field.promote(member);
      for (const triple of field.grow(member)) {
        if (!is(triple, wanted)) continue;
        const name = baseName(triple.base.atoms);
        if (!found.has(name)) found.set(name, triple);
      }
    }
  }
  return turned([...found.values()]);
}

/** The likeliest ways on all numbers, each as itself; `spend`: from its own physics. */
function best(ways: readonly Way[], taken: readonly Taken[], spend: boolean, keep: number): Way[] {
  const rows: Row[] = [];
  const at: number[] = [];
  for (const way of ways) {
    way.log = way.member.base.logPrior + rowsOf(way.member, way.turn, taken, spend, rows, at);
    // Doubled deviations and a floor for each reading: one bad line must not throw the right place out.
    for (const row of rows) {
      let variance = row.scatter;
      for (const s of row.fit.slope) variance += s * s;
      const z = (row.value - row.fit.middle) / Math.sqrt(variance);
      way.log += -0.5 * Math.min(z * z, 30) - 0.5 * Math.log(variance);
    }
  }
  return [...ways].sort((a, b) => b.log - a.log).slice(0, keep);
}

/** Cholesky factor of the readings' covariance and what is left of them, for one way. */
class Joint {
  readonly rows: readonly Row[];
  readonly lower: Float64Array;
  readonly white: Float64Array;
  /** Log density of the rows, nats. */
  readonly log: number;

  constructor(rows: readonly Row[]) {
    const m = rows.length;
    this.rows = rows;
    this.lower = new Float64Array(m * m);
    this.white = new Float64Array(m);
    let log = -0.5 * m * Math.log(2 * Math.PI);
    for (let i = 0; i < m; i++) {
      let left = rows[i]!.value - rows[i]!.fit.middle;
      for (let j = 0; j <= i; j++) {
        let c = shared(rows[i]!, rows[j]!) + (i === j ? rows[i]!.scatter : 0);
        for (let k = 0; k < j; k++) c -= this.lower[i * m + k]! * this.lower[j * m + k]!;
        if (i === j) {
          this.lower[i * m + i] = Math.sqrt(Math.max(c, 1e-12));
        } else {
          this.lower[i * m + j] = c / this.lower[j * m + j]!;
          left -= this.lower[i * m + j]! * this.white[j]!;
        }
      }
      this.white[i] = left / this.lower[i * m + i]!;
      log -= Math.log(this.lower[i * m + i]!) + 0.5 * this.white[i]! ** 2;
    }
    this.log = log;
  }

  /** Mean and variance of a further row, meter included. */
  expect(row: Row): [number, number] {
    const m = this.rows.length;
    const cross = new Float64Array(m);
    let mean = row.fit.middle;
    let variance = shared(row, row) + row.scatter;
    for (let i = 0; i < m; i++) {
      let c = shared(this.rows[i]!, row);
      for (let j = 0; j < i; j++) c -= this.lower[i * m + j]! * cross[j]!;
      c /= this.lower[i * m + i]!;
      cross[i] = c;
      mean += c * this.white[i]!;
      variance -= c * c;
    }
    return [mean, Math.max(variance, 1e-12)];
  }

  /** Mean and variance of every row given all the others. */
  leaveOneOut(): [number, number][] {
    const m = this.rows.length;
    const half = new Float64Array(m * m);
    for (let col = 0; col < m; col++) {
      half[col * m + col] = 1 / this.lower[col * m + col]!;
      for (let i = col + 1; i < m; i++) {
        let sum = 0;
        for (let j = col; j < i; j++) sum -= this.lower[i * m + j]! * half[j * m + col]!;
        half[i * m + col] = sum / this.lower[i * m + i]!;
      }
    }
    return this.rows.map((row, j) => {
      let precision = 0;
      let pull = 0;
      for (let k = j; k < m; k++) {
        precision += half[k * m + j]! ** 2;
        pull += half[k * m + j]! * this.white[k]!;
      }
      return [row.value - pull / precision, 1 / precision];
    });
  }
}

function shared(a: Row, b: Row): number {
  let sum = 0;
  for (const place of a.fit.places) sum += a.fit.slope[place]! * b.fit.slope[place]!;
  return sum;
}

interface Part {
  readonly log: number;
  readonly mean: number;
  readonly variance: number;
}

/** z-score of a value under a mixture of normals, from the log weights of its parts. */
function zOf(value: number, parts: readonly Part[]): { z: number; mean: number; sd: number } {
  const top = Math.max(...parts.map((part) => part.log));
  let all = 0;
  let mean = 0;
  let square = 0;
  const list = parts.map(({ log, mean: m, variance }) => {
    const weight = Math.exp(log - top);
    all += weight;
    mean += weight * m;
    square += weight * (variance + m * m);
    return { weight, z: (value - m) / Math.sqrt(variance) };
  });
  mean /= all;
  return { z: tailZ(list), mean, sd: Math.sqrt(Math.max(square / all - mean * mean, 0)) };
}

/** Whether every reading belongs to the faults' own physics (`spend`) or to their lines put together. */
export interface KeptOptions {
  readonly spend?: boolean;
  /** Numbers that `some` is given, 12. */
  readonly given?: number;
  /** Ways of the true set that are followed, 6. */
  readonly ways?: number;
}

/** Every number of `taken` under the true faults. `stream` picks which readings the others are foretold from. */
export function keptBack(
  field: Field,
  taken: readonly Taken[],
  faults: readonly FaultId[],
  stream: Stream,
  options: KeptOptions = {},
): Kept[] {
  const { spend = true, given = 12, ways: most = 6 } = options;
  const numbers = taken.filter((t) => typeof t.value === 'number' && KINDS[t.key.kind]);
  const ways = best(basesOf(field, faults, taken), numbers, false, most);
  if (ways.length === 0)
    throw new RangeError(`faults must be a set the field holds, got ${faults.join('+')}`);
  if (spend) for (const way of ways) if (!way.member.computed) field.promote(way.member);
  const pool = [...numbers];
  const base = new Set<Taken>();
  while (base.size < given && pool.length > 0)
    base.add(pool.splice(Math.floor(stream() * pool.length), 1)[0]!);

  const alone = new Map<Taken, Part[]>();
  const some = new Map<Taken, Part[]>();
  const rest = new Map<Taken, Part[]>();
  const opens = new Map<Taken, { open: number; log: number }[]>();
  for (const way of ways) {
    const rowFor = new Map<Taken, Row>();
    const read = (list: readonly Taken[]) => {
      const rows: Row[] = [];
      const at: number[] = [];
      const log = rowsOf(way.member, way.turn, list, spend, rows, at);
      for (const [n, place] of at.entries()) rowFor.set(list[place]!, rows[n]!);
      return { rows, log };
    };
    const all = read(numbers);
    const some12 = read(numbers.filter((t) => base.has(t)));
    const first = new Joint(some12.rows);
    const whole = new Joint(all.rows);
    const logSome = way.member.base.logPrior + some12.log + first.log;
    const logAll = way.member.base.logPrior + all.log + whole.log;
    const others = whole.leaveOneOut();
    const put = (into: Map<Taken, Part[]>, t: Taken, part: Part) =>
      into.set(t, [...(into.get(t) ?? []), part]);
    let n = 0;
    for (const t of numbers) {
      const row = rowFor.get(t);
      if (!row || whole.rows[n]?.value !== row.value) continue;
      const full = whole.rows[n]!;
      const [mean, variance] = others[n++]!;
      put(alone, t, {
        log: way.member.base.logPrior,
        mean: full.fit.middle,
        variance: shared(full, full) + full.scatter,
      });
      if (!base.has(t)) {
        const [m, v] = first.expect(full);
        put(some, t, { log: logSome, mean: m, variance: v });
      }
      // Its own say on the way is taken out again.
      const own =
        -0.5 * Math.log(2 * Math.PI * variance) - (0.5 * ((t.value as number) - mean) ** 2) / variance;
      put(rest, t, { log: logAll - own, mean, variance });
    }
    for (const t of taken) {
      if (typeof t.value === 'boolean' || base.has(t)) continue;
      const fit = fitOf(way.member, facing(way.member, way.turn, t.asked, t.phases), spend);
      opens.set(t, [...(opens.get(t) ?? []), { open: fit.open, log: logSome }]);
    }
  }
  const openOf = (t: Taken): number => {
    const list = opens.get(t);
    if (!list) return Number.NaN;
    const top = Math.max(...list.map((o) => o.log));
    let all = 0;
    let open = 0;
    for (const o of list) {
      all += Math.exp(o.log - top);
      open += Math.exp(o.log - top) * o.open;
    }
    return open / all;
  };
  return taken
    .filter((t) => typeof t.value !== 'boolean')
    .map((t) => {
      const value = t.value as number | null;
      const under = (parts: Part[] | undefined) =>
        value === null || !parts?.length
          ? { z: Number.NaN, mean: Number.NaN, sd: Number.NaN }
          : zOf(value, parts);
      const [a, s, r] = [under(alone.get(t)), under(some.get(t)), under(rest.get(t))];
      const shown = Number.isNaN(s.z) ? r : s;
      return {
        key: t.text,
        kind: t.key.kind,
        value,
        alone: a.z,
        some: s.z,
        rest: r.z,
        mean: shown.mean,
        sd: shown.sd,
        open: openOf(t),
      };
    });
}
