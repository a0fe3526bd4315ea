/**
 * Where the screws of a joint sit in its plane, and how far a set of tightened screws is out of balance.
 *
 * With p = (position − mean)/rms radius and q = (x² − y², 2xy) of p less its mean, a tightened set pulls the part down
 * on one side by Σp and bends it into a saddle by Σq. A whole order is judged by
 * J = Σₖ(|Σ_{i≤k} p|² + ¼|Σ_{i≤k} q|²), this project's own measure: small is even.
 */
import { type Refusal, refuse, requireFinite } from './require.ts';

/** One screw, in any unit of length that all screws of the layout share. */
export interface Place {
  readonly x: number;
  readonly y: number;
}

/** Most screws a layout may have, count. */
export const MOST_SCREWS = 100;

/** Two screws nearer than this share of the layout's rms radius are in one place, dimensionless. */
export const ONE_PLACE = 0.01;

/** Four figures a screw: p and half q, so that a prefix costs the square of their sum. */
export interface Layout {
  readonly ok: true;
  readonly count: number;
  /** count × 4: px, py, qx/2, qy/2. */
  readonly pulls: Float64Array;
}

/** Throws RangeError for a place that is not finite; refuses no screws, too many, or two in one place. */
export function readLayout(places: readonly Place[]): Layout | Refusal {
  const count = places.length;
  places.forEach((place, i) => {
    requireFinite(`places[${i}].x`, place.x);
    requireFinite(`places[${i}].y`, place.y);
  });
  if (count === 0) return refuse('The layout has no screws: give the place of each screw.');
  if (count > MOST_SCREWS)
    return refuse(`The layout has ${count} screws and at most ${MOST_SCREWS} are ordered: split the joint.`);
  const pulls = new Float64Array(count * 4);
  // The span first: squares of very large or small places would leave the range of a double.
  const span = Math.max(...places.map(({ x, y }) => Math.max(Math.abs(x), Math.abs(y)))) || 1;
  const mean = (of: (i: number) => number) => {
    let sum = 0;
    for (let i = 0; i < count; i++) sum += of(i);
    return sum / count;
  };
  const mx = mean((i) => places[i]!.x / span);
  const my = mean((i) => places[i]!.y / span);
  const off = places.map(({ x, y }) => ({ x: x / span - mx, y: y / span - my }));
  const rms = Math.sqrt(mean((i) => off[i]!.x ** 2 + off[i]!.y ** 2));
  if (count === 1) return { ok: true, count, pulls };
  for (let i = 0; i < count; i++) {
    for (let j = i + 1; j < count; j++) {
      const apart = Math.hypot(off[i]!.x - off[j]!.x, off[i]!.y - off[j]!.y);
      if (apart <= ONE_PLACE * rms || rms < 1e-12)
        return refuse(
          `Screws ${i + 1} and ${j + 1} are in one place (${places[i]!.x}, ${places[i]!.y}): correct the place of one of them, or take it out.`,
        );
    }
  }
  for (let i = 0; i < count; i++) {
    const [x, y] = [off[i]!.x / rms, off[i]!.y / rms];
    pulls.set([x, y, (x * x - y * y) / 2, x * y], i * 4);
  }
  for (const k of [2, 3]) {
    const m = mean((i) => pulls[i * 4 + k]!);
    for (let i = 0; i < count; i++) pulls[i * 4 + k]! -= m;
  }
  return { ok: true, count, pulls };
}

/** J of an order of places from 0, dimensionless; from 0, small is even. */
export function unevenness({ pulls }: Layout, order: readonly number[]): number {
  let [a, b, c, d, total] = [0, 0, 0, 0, 0];
  for (const i of order) {
    a += pulls[i * 4]!;
    b += pulls[i * 4 + 1]!;
    c += pulls[i * 4 + 2]!;
    d += pulls[i * 4 + 3]!;
    total += a * a + b * b + c * c + d * d;
  }
  return total;
}

/**
 * Least J that any order of the layout could have, dimensionless: no order is below it, and the best may be above.
 * Two prefixes on either side of a screw v cost together at least |v|²/2, the first and the last prefix |v|² each.
 * Taken over every screw, or over every second one, whichever says more.
 */
export function leastUnevenness({ count, pulls }: Layout): number {
  if (count < 2) return 0;
  const squares = Array.from({ length: count }, (_, i) => {
    let sum = 0;
    for (let k = 0; k < 4; k++) sum += pulls[i * 4 + k]! ** 2;
    return sum;
  }).sort((a, b) => a - b);
  const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);
  // Prefix 1 and prefix N − 1 are one and the same where there are two screws.
  const ends = count === 2 ? squares[0]! : squares[0]! + squares[1]!;
  const overEvery = (sum(squares) + squares[0]! + squares[1]!) / 4;
  const overSecond = ends + sum(squares.slice(0, Math.max(0, Math.floor((count - 3) / 2)))) / 2;
  return Math.max(overEvery, overSecond);
}
