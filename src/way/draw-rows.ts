/**
 * The loops in which the times of a clock are drawn: each over one row, the runs of one block. All numbers come in lists:
 * one that is whole in one plan and not in the next would have the engine compile the loop twice.
 */
import { normalBelow } from '../numbers/normal.ts';
import { fillUniform } from '../numbers/random.ts';
import { timeAt } from './spread.ts';
import type { Spread } from './work.ts';

/** Correlation of two seizings of one cause (guess), 1: rust that holds one screw holds its neighbour. */
const SHARED = 0.5;

/** Turns standard normals into paces of the day whose mean is 1. */
export function toPaces(slowness: Float64Array, at: number, many: number, pace: number): void {
  for (let n = at; n < at + many; n++) slowness[n] = Math.exp(pace * slowness[n]! - (pace * pace) / 2);
}

/**
 * How many of the tasks with a chance a cause seizes in each run, 0–1: two normals, the cause's and the task's own, are
 * summed and held against the chance, here as the normal number `limit`; with the cause's known, a share of the own is
 * left (one-factor model, Vasicek 1987). Drawing the own normals took four times as long.
 */
export function fillShares(
  share: Float64Array,
  at: number,
  normal: Float64Array,
  from: number,
  many: number,
  limit: number,
): void {
  for (let n = 0; n < many; n++)
    share[at + n] = normalBelow((limit - Math.sqrt(SHARED) * normal[from + n]!) / Math.sqrt(1 - SHARED));
}

/** Adds what seizing takes, in the runs in which it comes to it. */
export function addSeizing(
  times: Float64Array,
  at: number,
  many: number,
  uniform: Float64Array,
  shares: Float64Array,
  from: number,
  adds: Spread,
): void {
  for (let n = 0; n < many; n++) {
    const share = shares[from + n]!;
    // Below the share it is as uniform as ever, and says how long it takes.
    if (uniform[n]! < share) times[at + n]! += timeAt(adds, uniform[n]! / share);
  }
}

/**
 * How a spread is drawn: of two uniforms the lesser and the greater, mixed as the likely time lies between low and high,
 * make a triangular number (Stein and Keblis 2009). Its inverse has a branch that a processor guesses wrong one time in
 * three, and took twice as long. Both uniforms are halves of one number of 32 bits: they are fine to a 65,536th of the
 * spread.
 */
export function shapeOf({ low, likely, high }: Spread): [number, number, number] {
  const [lesser, greater] = [(high - likely) / 65_536, (likely - low) / 65_536];
  // Both are taken from the middle of their step.
  return [low + (lesser + greater) / 2, lesser, greater];
}

/** Fills a row with standard normals, two from each pair of uniforms (Box and Muller 1958), 1. */
export function fillNormal(
  into: Float64Array,
  at: number,
  many: number,
  uniform: Float64Array,
  seed: number,
): void {
  fillUniform(uniform, many + (many % 2), seed);
  for (let n = 0; n < many; n += 2) {
    const far = Math.sqrt(-2 * Math.log(1 - uniform[n]!));
    const angle = 2 * Math.PI * uniform[n + 1]!;
    into[at + n] = far * Math.cos(angle);
    if (n + 1 < many) into[at + n + 1] = far * Math.sin(angle);
  }
}

/** Normal number below which a share 0–1 of a standard normal lies, dimensionless; by bisection. */
export function limitOf(share: number): number {
  let [low, high] = [-8, 8];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (normalBelow(middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
