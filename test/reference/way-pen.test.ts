/**
 * Bourjault's ballpoint pen, the textbook product of assembly planning: liaisons head–tube, ink–tube, head–body,
 * cap–body, button–body with HT before IT, HB before CB, and IT before HB or before BB. 12 assembly sequences: count
 * from memory of De Fazio and Whitney (1987), confirmed by listing all 120 orders below. Taken apart, the same
 * backwards.
 */
import { expect, it } from 'vitest';
import { countOrders, type Ready } from '../../src/way/count-orders.ts';

const [HT, IT, HB, CB, BB] = [0, 1, 2, 3, 4];

function ordersOf(n: number): number[][] {
  if (n === 0) return [[]];
  return ordersOf(n - 1).flatMap((order) =>
    Array.from({ length: n }, (_, at) => [...order.slice(0, at), n - 1, ...order.slice(at)]),
  );
}

function keeps(order: readonly number[]): boolean {
  const before = (a: number, b: number) => order.indexOf(a) < order.indexOf(b);
  return before(HT, IT) && before(HB, CB) && (before(IT, HB) || before(IT, BB));
}

it('12 sequences to put the pen together, and 12 to take it apart', () => {
  // IT before HB or BB: whichever of HB and BB comes second comes after IT.
  const ready: (readonly Ready[])[] = [];
  ready[HT] = [[]];
  ready[IT] = [[HT]];
  ready[HB] = [[IT], []];
  ready[CB] = [[HB]];
  ready[BB] = [[IT], []];
  // HB may come first of the two without IT; the count below splits by which is first.
  const ink: (readonly Ready[])[] = [...ready];
  const split = (first: number, second: number) =>
    countOrders(ink.map((ways, step) => (step === second ? [[IT, first]] : step === first ? [[]] : ways)));
  expect(split(HB, BB) + split(BB, HB)).toBe(12);
  const listed = ordersOf(5).filter(keeps);
  expect(listed.length).toBe(12);
  // Apart: steps in reverse. IT goes once HB or BB has gone, and before HT; CB before HB.
  const apart: (readonly Ready[])[] = [];
  apart[HT] = [[IT]];
  apart[IT] = [[HB], [BB]];
  apart[HB] = [[CB]];
  apart[CB] = [[]];
  apart[BB] = [[]];
  expect(countOrders(apart)).toBe(12);
});
