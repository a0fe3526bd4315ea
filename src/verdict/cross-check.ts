/**
 * Which readings nothing else would show to be wrong. A reading is cross-checked when, had one of the usual mistakes
 * been made in it, the verdict would have doubted it: the other readings expect something else of it, and no likely
 * set of faults would have swallowed the wrong value. It is unchecked when, of the mistakes that would have changed
 * it by more than three deviations of the meter, most (by how often they happen) would have passed unseen.
 *
 * For each hypothesis h and reading j: the weight W of h without j, and what h expects of j given all the others. With
 * w the value a mistake would have left, the chance that w is doubted is
 *     Σ W·s·D(w)  /  Σ W·((1 − s)·N(w) + s·D(w)),
 * s the chance of a slip, N the density of w read rightly and D under all mistakes. Hypotheses that j alone rules out
 * count here: they are what would have swallowed the mistake.
 */
import { logNormalDensity } from '../numbers/normal.ts';
import { MISTAKES, type Mistake, mistakesFor, spoilt } from '../reading/mistakes.ts';
import { meterScatter } from '../reading/noise.ts';
import { rowsOf, type Taken } from './evidence.ts';
import type { Ranking } from './rank.ts';
import { signOf } from './rating.ts';
import { roughWeight, setAside } from './rough-weight.ts';
import { leaveOneOut, MOST_ROWS, type Row, SLIP, type Weighed, weigh } from './weigh.ts';

/** Chance of being doubted under which a mistake passes unseen, 0–1. */
const SEEN = 0.25;
/** Deviations of the meter by which a mistake must change a reading to matter. */
const MATTERS = 3;
/** Hypotheses looked from: the likeliest, and for each reading the likeliest of those that fit all but this one. */
const LIKELY = 8;
const APART = 3;
const VIEWS = 30;
/** Work spent on finding them: hypotheses times readings squared, and hypotheses at the most. */
const WORK = 45_000;
const THROUGH = 500;
/** A view that weighs less than this against the weightiest is not heard, 1. */
const FAINT = 1e-5;
/** Nats behind the best at which a hypothesis swallows no mistake any more. */
const FAR = 22;

/** What one hypothesis expects of each reading, given all the others. */
interface View {
  readonly mean: Float64Array;
  readonly variance: Float64Array;
  readonly anything: Float64Array;
  /** Log weight of the hypothesis without the reading, nats. */
  readonly without: Float64Array;
}

/** Keys of numeric readings that nothing cross-checks, in the order of `taken`. A reading taken twice is checked. */
export function uncheckedKeys(ranking: Ranking, taken: readonly Taken[]): string[] {
  const views = viewsOf(ranking, taken);
  if (views.length === 0) return [];
  return taken.filter((t, n) => isUnchecked(views, t, n)).map((t) => t.text);
}

const rows: Row[] = [];
const at: number[] = [];
const pairs = new Float64Array(2 * MOST_ROWS);

function viewsOf({ best, rated, chosen, settle }: Ranking, taken: readonly Taken[]): View[] {
  const views: View[] = [];
  const met = new Set<number>();
  // What was weighed for the answer need not be weighed again: the same rows are the same weight.
  const known = new Map<number, Weighed>();
  for (const b of best.slice(0, 4 * VIEWS)) if (!known.has(b.sign)) known.set(b.sign, b.weighed);
  const top = rated[0]?.log ?? 0;
  const apart = new Map<number, number>();
  const look = ({ member, turn, log, rough: put, computed }: Ranking['rated'][number], likely: boolean) => {
    const own = chosen.has(member);
    rowsOf(member, turn, taken, own, rows, at, (own ? computed : put).judged);
    // A further fault that no reading feels makes no other view.
    const sign = signOf(rows, at);
    if (met.has(sign) || rows.length > MOST_ROWS) return;
    met.add(sign);
    const rough = roughWeight(rows);
    if (!likely) {
      if (setAside.length !== 1) return;
      const n = at[rows.indexOf(setAside[0]!)]!;
      const many = apart.get(n) ?? 0;
      if (many >= APART) return;
      apart.set(n, many + 1);
    }
    const weighed = known.get(sign) ?? weigh([...rows]);
    views.push(viewOf(weighed, log - rough + weighed.log, taken.length));
  };
  for (const h of rated.slice(0, 4 * LIKELY)) if (views.length < LIKELY) look(h, true);
  // Sets no larger than the likeliest first: a larger one mostly adds what no reading feels.
  const size = rated[0]?.member.base.atoms.length ?? 0;
  const least = rated.findIndex((h) => h.log < top - FAR);
  const near = least < 0 ? rated : rated.slice(0, least);
  const through = Math.min(THROUGH, Math.floor(WORK / Math.max(1, taken.length) ** 2));
  const small = near.filter((h) => h.member.base.atoms.length <= size);
  const large = near.filter((h) => h.member.base.atoms.length > size && h.log < top - LEAST_BEHIND);
  settle(small, through);
  settle(large, through - small.length);
  for (const h of [...small, ...large].slice(0, through))
    if (views.length < VIEWS && h.log >= top - FAR) look(h, false);
  return views;
}

/** A set that fits all but one reading is at least so far behind one that fits all, nats. */
const LEAST_BEHIND = 4;

/** What the hypothesis of `rows` expects; `whole` is its log weight on all readings, nats. */
function viewOf(weighed: Weighed, whole: number, count: number): View {
  leaveOneOut(weighed.given, pairs);
  const view: View = {
    mean: new Float64Array(count).fill(Number.NaN),
    variance: new Float64Array(count),
    anything: new Float64Array(count),
    without: new Float64Array(count).fill(Number.NEGATIVE_INFINITY),
  };
  rows.forEach((row, j) => {
    const n = at[j]!;
    view.mean[n] = pairs[2 * j]!;
    view.variance[n] = pairs[2 * j + 1]!;
    view.anything[n] = row.anything;
    const seen =
      (1 - row.slip) * normal(row.value - view.mean[n]!, view.variance[n]!) +
      row.slip * wrongly(row.mistakes, row.value, view, n);
    view.without[n] = whole - Math.log(Math.max(seen, 1e-300));
  });
  return view;
}

function normal(away: number, variance: number): number {
  return away * away > 80 * variance ? 0 : Math.exp(logNormalDensity(away, variance));
}

/** Density of a value under all mistakes, for a reading that a view expects, per unit. */
function wrongly(mistakes: readonly Mistake[], value: number, view: View, n: number): number {
  let sum = MISTAKES.anything.share * view.anything[n]!;
  for (const mistake of mistakes) {
    const meant = mistake.undo(value);
    if (meant === null) continue;
    const variance = view.variance[n]! + (mistake.spread * meant) ** 2 + mistake.blur ** 2;
    sum += mistake.share * mistake.stretch(value) * normal(meant - view.mean[n]!, variance);
  }
  return sum;
}

function isUnchecked(views: readonly View[], t: Taken, n: number): boolean {
  if (typeof t.value !== 'number' || t.again) return false;
  let most = Number.NEGATIVE_INFINITY;
  for (const view of views) if (view.without[n]! > most) most = view.without[n]!;
  const { kind } = t.key;
  const least = MATTERS * Math.sqrt(meterScatter(t.key, t.value) ** 2 + t.rounding);
  let unseen = 0;
  let all = 0;
  for (const { share, value } of spoilt(kind, t.value)) {
    if (Math.abs(value - t.value) < least) continue;
    const mistakes = mistakesFor(kind, value);
    let right = 0;
    let wrong = 0;
    for (const view of views) {
      // NaN: this view expects no number here, and a number is no less odd for being another.
      if (Number.isNaN(view.mean[n]!)) continue;
      const weight = Math.exp(view.without[n]! - most);
      if (weight < FAINT) continue;
      right += weight * (1 - SLIP) * normal(value - view.mean[n]!, view.variance[n]!);
      wrong += weight * SLIP * wrongly(mistakes, value, view, n);
    }
    all += share;
    if (!(wrong > SEEN * (right + wrong))) unseen += share;
  }
  return unseen > 0.5 * all;
}
