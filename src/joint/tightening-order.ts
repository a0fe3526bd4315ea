/**
 * The order in which to tighten the screws of a joint, for any layout in a plane. The book's own order always wins; a
 * ring gets the star of flange practice; any other layout the most even order there is, exactly where that can be
 * solved, else a good one with how far from the best it may be. Screws are numbered from 1 as the layout lists them.
 */

import { exactOrder, MOST_EXACT } from './exact-order.ts';
import { heuristicOrder, heuristicPairs } from './heuristic-order.ts';
import { type Layout, leastUnevenness, type Place, readLayout, unevenness } from './layout.ts';
import { type Refusal, refuse, requireWithin } from './require.ts';
import { oppositePairs, readRing, star } from './ring.ts';
import { sayList } from './say.ts';

export interface OrderWish {
  /** The order the book gives, screw numbers from 1; it wins over everything else. */
  readonly book?: readonly number[];
  /** Screw to start at, from 1; free when not given. */
  readonly start?: number;
  /**
   * 'pairs': opposite screws follow one another, so that the part is level after every second screw (needs a layout
   * in which every screw has an opposite). 'free': the most even order whatsoever. When not given, rings go in pairs
   * and other layouts free.
   */
  readonly rule?: 'pairs' | 'free';
}

export interface TighteningOrder {
  readonly ok: true;
  /** Screw numbers from 1, in the order of tightening. */
  readonly order: readonly number[];
  /** J of that order, dimensionless; small is even. */
  readonly objective: number;
  /** No order has a smaller J than this, dimensionless; the objective itself where the order is exact and free. */
  readonly bound: number;
  /** Exact: no order under the rule is more even (a ring taken as evenly spaced). */
  readonly how: 'exact' | 'heuristic' | 'book';
  readonly rule: 'pairs' | 'free';
  /** The screws sit evenly on one circle. */
  readonly ring: boolean;
  /** One sentence on where the order comes from. */
  readonly note: string;
}

/** Up to this ring the star is the most even order of pairs, count: tried against all; from 20 on it is not. */
const LONGEST_EVEN_STAR = 16;

/**
 * The order for screws at these places (any one unit of length). Refuses two screws in one place, a book order that
 * does not name every screw once, and pairs where a screw has no opposite. Throws RangeError for a place that is not
 * finite or a start that is no screw's number.
 */
export function tighteningOrder(places: readonly Place[], wish: OrderWish = {}): TighteningOrder | Refusal {
  const layout = readLayout(places);
  if (!layout.ok) return layout;
  const { count } = layout;
  if (wish.start !== undefined) demandScrew('start', wish.start, count);
  if (wish.book) return bookOrder(layout, wish.book);
  const first = wish.start === undefined ? null : wish.start - 1;
  const around = readRing(layout, first ?? 0);
  const pairs = oppositePairs(layout);
  if (wish.rule === 'pairs' && !pairs)
    return refuse(
      'Not every screw of this layout has an opposite one, so it cannot go in pairs: use the free order.',
    );
  const rule = wish.rule ?? (around && pairs ? 'pairs' : 'free');
  const seats = rule === 'pairs' && around ? star(count) : null;
  const found = (order: readonly number[], how: 'exact' | 'heuristic', note: string): TighteningOrder => {
    const objective = unevenness(layout, order);
    const bound =
      how === 'exact' && rule === 'free' ? objective : Math.min(objective, leastUnevenness(layout));
    return {
      ok: true,
      order: order.map((i) => i + 1),
      objective,
      bound,
      how,
      rule,
      ring: around !== null,
      note,
    };
  };
  if (seats && around) {
    const at = seats.map((seat) => around[seat]!);
    return count <= LONGEST_EVEN_STAR
      ? found(at, 'exact', 'Star over a ring (pattern of ASME PCC-1, from memory); the book wins.')
      : found(
          at,
          'heuristic',
          'Star over a ring, carried on from the published patterns of 4, 8 and 12; not the most even order of pairs; the book wins.',
        );
  }
  const steps = rule === 'pairs' && pairs ? pairs : singles(count);
  const led = steps.findIndex((step) => first !== null && step.some((screw) => screw === first));
  // A start that is the second of its pair becomes the first.
  const turned = steps.map((step, j) =>
    j === led && step.length === 2 && step[0] !== first ? ([step[1], step[0]] as const) : step,
  );
  if (turned.length <= MOST_EXACT)
    return found(
      exactOrder(layout, turned, led < 0 ? null : led),
      'exact',
      rule === 'pairs'
        ? 'The most even order of opposite pairs, by trying all; the book wins.'
        : 'The most even order there is, by trying all; the book wins.',
    );
  const order =
    rule === 'pairs' ? heuristicPairs(layout, turned, led < 0 ? null : led) : heuristicOrder(layout, first);
  const worst = Math.max(0, unevenness(layout, order) / leastUnevenness(layout) - 1);
  return found(
    order,
    'heuristic',
    `A good order, not proven best: with ${count} screws too many orders exist to try all (at most ${Math.round(worst * 100)} % above the least conceivable unevenness); the book wins.`,
  );
}

function singles(count: number): (readonly [number])[] {
  return Array.from({ length: count }, (_, i) => [i] as const);
}

function demandScrew(name: string, screw: number, count: number): void {
  if (!Number.isInteger(screw)) throw new RangeError(`${name} must be a whole number, got ${screw}`);
  requireWithin(name, screw, 1, count);
}

function bookOrder(layout: Layout, book: readonly number[]): TighteningOrder | Refusal {
  const { count } = layout;
  const strange = book.filter((screw) => !Number.isInteger(screw) || screw < 1 || screw > count);
  const twice = [...new Set(book.filter((screw, i) => book.indexOf(screw) !== i))];
  const missing = singles(count).flatMap(([i]) => (book.includes(i + 1) ? [] : [i + 1]));
  const wrong = [
    strange.length > 0 ? `names ${sayList(strange)}, and the layout has screws 1 to ${count}` : '',
    twice.length > 0 ? `names ${sayList(twice)} more than once` : '',
    missing.length > 0 ? `leaves out ${sayList(missing)}` : '',
  ].filter((part) => part !== '');
  if (wrong.length > 0)
    return refuse(`The book's order ${wrong.join('; ')}: read it again, every screw stands in it once.`);
  const order = book.map((screw) => screw - 1);
  const objective = unevenness(layout, order);
  return {
    ok: true,
    order: [...book],
    objective,
    bound: Math.min(objective, leastUnevenness(layout)),
    how: 'book',
    rule: 'free',
    ring: readRing(layout) !== null,
    note: "The book's own order; it wins over any worked out here.",
  };
}
