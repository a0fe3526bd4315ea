/**
 * Scores of verdicts on practice cases. A set of repairs is judged after those of faults that no reading shows
 * (`masked`) are forgiven either way.
 */

import { FAULTS } from '../fault/faults.ts';
import { faultOfName, repairName } from './exchange.ts';
import type { Player } from './player.ts';

/** What the score looks at in an answer of the line mode; anything may be missing. */
export interface GivenAnswer {
  readonly error?: string;
  readonly sets?: readonly { readonly faults: readonly string[]; readonly p: number }[];
  readonly repairs?: readonly { readonly repair: string; readonly p: number; readonly do?: boolean }[];
  readonly next?: { readonly key: string } | null;
  readonly doubtful?: readonly { readonly key: string }[];
}

/** One case played and scored. */
export interface ScoreRow {
  readonly id: string;
  /** How many faults the bike has. */
  readonly n: number;
  /** Repairs exactly right, masked ones forgiven. */
  readonly exact: boolean;
  readonly need: readonly string[];
  readonly do: readonly string[];
  readonly masked: readonly string[];
  readonly minutes: number;
  readonly asked: number;
  /** The true set is among those that hold 95 % together. */
  readonly inside: boolean;
  /** How many sets those are. */
  readonly size: number;
  /** Probability given to the true set. */
  readonly pt: number;
  /** [probability claimed for a repair, whether it was needed]. */
  readonly claims: readonly (readonly [number, boolean])[];
  readonly slip: boolean;
  readonly blamed: boolean;
  readonly false_doubt: boolean;
}

/** Exchange name of the repair that cures a fault. */
function repairOf(fault: string): string {
  const id = faultOfName(fault);
  if (id === null)
    throw new RangeError(`fault must be a name of the exchange format, got ${JSON.stringify(fault)}`);
  return repairName(FAULTS[id].repair);
}

const without = <T>(set: ReadonlySet<T>, gone: ReadonlySet<T>) =>
  new Set([...set].filter((item) => !gone.has(item)));
const equal = <T>(a: ReadonlySet<T>, b: ReadonlySet<T>) =>
  a.size === b.size && [...a].every((item) => b.has(item));

/** Scores the last answer on a case; `blamed` tells whether the spoiled reading was ever called doubtful. */
export function scoreCase(player: Player, answer: GivenAnswer, blamed: boolean): ScoreRow {
  const { truth, id } = player.practice;
  const masked = new Set(truth.masked);
  const free = new Set(truth.masked.map(repairOf));
  const need = new Set(truth.repairs);
  const done = new Set((answer.repairs ?? []).filter((line) => line.do).map((line) => line.repair));
  const real = without(new Set(truth.faults), masked);
  let cumulated = 0;
  let inside = false;
  let size = 0;
  let onTruth = 0;
  for (const set of [...(answer.sets ?? [])].sort((a, b) => b.p - a.p)) {
    const same = equal(without(new Set(set.faults), masked), real);
    if (same) onTruth += set.p;
    if (cumulated < 0.95) {
      size++;
      inside ||= same;
    }
    cumulated += set.p;
  }
  return {
    id,
    n: truth.faults.length,
    exact: equal(without(done, free), without(need, free)),
    need: [...need].sort(),
    do: [...done].sort(),
    masked: truth.masked,
    minutes: player.minutes,
    asked: player.asked,
    inside,
    size,
    pt: onTruth,
    claims: (answer.repairs ?? [])
      .filter((line) => !free.has(line.repair))
      .map((line) => [line.p, need.has(line.repair)] as const),
    slip: player.spoiled !== null,
    blamed,
    false_doubt: player.spoiled === null && (answer.doubtful ?? []).length > 0,
  };
}

/** A number with `digits` decimals, an exact tie to the even digit, as the format's scorer prints; "nan" for none. */
export function printed(value: number, digits: number, sign = false): string {
  if (Number.isNaN(value)) return sign ? '+nan' : 'nan';
  let text = Math.abs(value).toFixed(digits);
  // A tie at d decimals is an odd multiple of 2^−(d+1); toFixed goes up there.
  if ((Math.abs(value) * 2 ** (digits + 1)) % 2 === 1) {
    const below = Math.floor(Math.abs(value) * 10 ** digits);
    text = ((below % 2 === 0 ? below : below + 1) / 10 ** digits).toFixed(digits);
  }
  const minus = value < 0 || Object.is(value, -0);
  return `${minus ? '-' : sign ? '+' : ''}${text}`;
}

const mean = (list: readonly (number | boolean)[]): number =>
  list.length === 0 ? Number.NaN : list.reduce<number>((sum, item) => sum + Number(item), 0) / list.length;
const count = (list: readonly boolean[]): number => list.filter(Boolean).length;
const percent = (list: readonly boolean[]): string => printed(100 * mean(list), 1);

/** The report on cases played, line by line; `latencies` are the times of single answers, s. At least one row and one answer. */
export function report(rows: readonly ScoreRow[], latencies: readonly number[]): string[] {
  if (rows.length === 0 || latencies.length === 0)
    throw new RangeError('rows and latencies must not be empty');
  const lines: string[] = [];
  for (const n of [...new Set(rows.map((row) => row.n))].sort((a, b) => a - b)) {
    const those = rows.filter((row) => row.n === n);
    const exact = those.map((row) => row.exact);
    lines.push(
      `${n} faults: repairs exactly right ${count(exact)}/${those.length} = ${percent(exact)} %, minutes ${printed(mean(those.map((row) => row.minutes)), 1)}`,
    );
  }
  const exact = percent(rows.map((row) => row.exact));
  lines.push(
    `all ${rows.length}: exact ${exact} %, minutes ${printed(mean(rows.map((row) => row.minutes)), 1)}, readings ${printed(mean(rows.map((row) => row.asked)), 1)}`,
  );
  const sizes = rows.map((row) => row.size).sort((a, b) => a - b);
  lines.push(
    `truth in the 95 % set ${percent(rows.map((row) => row.inside))} %, median size ${sizes[Math.floor(sizes.length / 2)]}, mean p on the truth ${printed(mean(rows.map((row) => row.pt)), 3)}`,
  );
  const sound = rows.filter((row) => row.n === 0);
  lines.push(
    `sound bikes with a part bought: ${count(sound.map((row) => row.do.length > 0))}/${sound.length}`,
  );
  lines.push(claimLine(rows.flatMap((row) => row.claims)));
  const slips = rows.filter((row) => row.slip);
  const clean = rows.filter((row) => !row.slip);
  lines.push(
    `spoiled reading blamed ${count(slips.map((row) => row.blamed))}/${slips.length}, exact there ${percent(slips.map((row) => row.exact))} %; good readings doubted in ${count(clean.map((row) => row.false_doubt))}/${clean.length} clean cases`,
  );
  const times = [...latencies].sort((a, b) => a - b);
  const ms = (index: number) => printed(1e3 * times[index]!, 0);
  lines.push(
    `answer ms p50 ${ms(Math.floor(times.length / 2))} p95 ${ms(Math.floor(times.length * 0.95))} max ${ms(times.length - 1)}`,
  );
  lines.push(`score ${exact}`);
  return lines;
}

/** How far the probabilities claimed for repairs can be taken at their word: mean gap over ten bins, bias, and bold claims. */
function claimLine(claims: readonly (readonly [number, boolean])[]): string {
  let error = 0;
  for (let b = 0; b < 10; b++) {
    const those = claims.filter(([p]) => (b / 10 <= p && p < (b + 1) / 10) || (b === 9 && p === 1));
    if (those.length === 0) continue;
    const gap = Math.abs(mean(those.map(([p]) => p)) - mean(those.map(([, true_]) => true_)));
    error += (those.length / claims.length) * gap;
  }
  const bold = claims.filter(([p]) => p >= 0.99);
  const bias = mean(claims.map(([p, needed]) => p - Number(needed)));
  return `calibration error over repairs ${printed(error, 3)} (${claims.length} claims), overconfidence ${printed(bias, 3, true)}; claims of 99 % or more wrong ${count(bold.map(([, needed]) => !needed))}/${bold.length}`;
}
