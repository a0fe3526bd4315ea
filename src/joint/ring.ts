/**
 * Layouts with a plan of their own: rings, tightened in the star that flange practice publishes, and layouts in which
 * every screw has an opposite one.
 */
import type { Layout } from './layout.ts';

/** How far a ring's screws may lie off even spacing and off the circle, as a share of the radius, dimensionless. */
export const RING_SLACK = 0.03;

/**
 * Screws of a ring in the order they are met around it, starting at `first`; null where they are not evenly spaced on
 * one circle. Goes around the way the numbers do, so that a star reads as it is published.
 */
export function readRing({ count, pulls }: Layout, first = 0): number[] | null {
  if (count < 3) return null;
  const turn = (2 * Math.PI) / count;
  const start = Math.atan2(pulls[first * 4 + 1]!, pulls[first * 4]!);
  const around: number[] = new Array(count).fill(-1);
  for (let i = 0; i < count; i++) {
    const [x, y] = [pulls[i * 4]!, pulls[i * 4 + 1]!];
    if (Math.abs(Math.hypot(x, y) - 1) > RING_SLACK) return null;
    const turned = (Math.atan2(y, x) - start) / turn;
    if (Math.abs(turned - Math.round(turned)) * turn > RING_SLACK) return null;
    const seat = ((Math.round(turned) % count) + count) % count;
    if (around[seat] !== -1) return null;
    around[seat] = i;
  }
  const after = (seat: number) => around[((seat % count) + count) % count]!;
  // Clockwise on paper or not: whichever way screw 2 lies from screw 1, or the nearer low number.
  const back = around.map((_, seat) => after(-seat));
  const wanted = (first + 1) % count;
  return back.indexOf(wanted) < around.indexOf(wanted) ? back : around;
}

/**
 * Star over a ring of `count` seats, from 0: each screw's opposite next, then the two across; null unless count is a
 * multiple of 4. Published for 4, 8 and 12 (ASME PCC-1 legacy pattern, from memory); longer rings spread their
 * quarters the same way, the even ones before the odd ones.
 */
export function star(count: number): number[] | null {
  if (count < 4 || count % 4 !== 0) return null;
  const quarter = count / 4;
  const seats = Array.from({ length: quarter }, (_, i) => i);
  const spread =
    quarter < 4 ? seats : [...seats.filter((i) => i % 2 === 0), ...seats.filter((i) => i % 2 === 1)];
  return spread.flatMap((i) => [i, i + 2 * quarter, i + quarter, i + 3 * quarter]);
}

/**
 * Steps of a layout in which every screw has an opposite: the pairs, and a screw in the middle alone; null for any
 * other layout. Tightened pair after pair, such a joint is in balance after every pair.
 */
export function oppositePairs({
  count,
  pulls,
}: Layout): (readonly [number] | readonly [number, number])[] | null {
  const steps: (readonly [number] | readonly [number, number])[] = [];
  const taken = new Set<number>();
  for (let i = 0; i < count; i++) {
    if (taken.has(i)) continue;
    let found = -1;
    for (let j = i; j < count && found < 0; j++) {
      const apart = Math.hypot(pulls[i * 4]! + pulls[j * 4]!, pulls[i * 4 + 1]! + pulls[j * 4 + 1]!);
      if (!taken.has(j) && apart <= RING_SLACK) found = j;
    }
    if (found < 0) return null;
    taken.add(i).add(found);
    steps.push(found === i ? [i] : [i, found]);
  }
  return steps;
}
