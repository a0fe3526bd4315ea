/**
 * Whether readings of slack went round far enough and in small enough steps. A place is given as the pitches of chain
 * that were pulled past since the first reading. The same teeth meet the same links again only after lcm(z1, z2, X)
 * pitches; each sprocket repeats after its teeth, the chain after its links.
 */
import { requireTeeth, type Teeth } from './chain.ts';
import { requireNotNegative, requireWhole, requireWithin } from './require.ts';

/** A chain of so many links on two sprockets. */
export interface Loop {
  readonly teeth: Teeth;
  /** Pitches of chain. */
  readonly links: number;
}

export function requireLoop({ teeth, links }: Loop): void {
  requireTeeth(teeth);
  requireWhole('links', links, 10, 10_000);
}

function gcd(a: number, b: number): number {
  return b === 0 ? a : gcd(b, a % b);
}

function lcm(a: number, b: number): number {
  return (a / gcd(a, b)) * b;
}

/** Pitches after which every tooth meets its link again, count: lcm(z1, z2, X). Throws RangeError for a loop that cannot be. */
export function repeatPitches(loop: Loop): number {
  requireLoop(loop);
  return lcm(lcm(loop.teeth[0], loop.teeth[1]), loop.links);
}

/** Pitches after which both sprockets stand to each other as before, count: lcm(z1, z2). */
export function sprocketRepeat(teeth: Teeth): number {
  requireTeeth(teeth);
  return lcm(teeth[0], teeth[1]);
}

/**
 * Share of the amplitude of a sprocket's swing that readings `step` pitches apart may miss, dimensionless: 1 − cos(π·step/z), the place midway between two readings; 2, the whole swing, from a step of a turn.
 */
export function missedShare(step: number, teeth: number): number {
  requireNotNegative('step', step);
  requireWhole('teeth', teeth, 1, 10_000);
  return step >= teeth ? 2 : 1 - Math.cos((Math.PI * step) / teeth);
}

/**
 * Largest whole step between readings that misses at most a share of the swing, count (pitches), at least 1.
 * The swing is the smaller sprocket's. A share of 0.1 asks for about seven readings a turn. Inverse of `missedShare`. Share above 0 to 2, else
 * RangeError.
 */
export function stepNeeded(teeth: Teeth, share = 0.1): number {
  requireTeeth(teeth);
  requireWithin('share', share, 1e-3, 2);
  return Math.max(1, Math.floor((Math.min(...teeth) / Math.PI) * Math.acos(1 - share) + 1e-9));
}

export interface Cover {
  /** Pitches from the first place to the last. */
  readonly turned: number;
  /** Largest step between neighbouring places, pitches. */
  readonly step: number;
  /** Step that would miss at most a tenth of the smaller sprocket's swing, pitches. */
  readonly stepNeeded: number;
  readonly stepFineEnough: boolean;
  /** Each sprocket went round, in the order of the teeth. */
  readonly sprockets: readonly [boolean, boolean];
  /** The whole chain went past. */
  readonly loop: boolean;
  /** Every tooth met every link that it ever meets. */
  readonly pattern: boolean;
  /** Pitches after which the pattern repeats, and turns of the chain that takes. */
  readonly repeat: { readonly pitches: number; readonly loops: number };
  /** Share of the smaller sprocket's swing that the step may miss, of the amplitude, 0–2. */
  readonly mayMiss: number;
}

/**
 * How far readings at these places cover a turn. A turn counts as covered when its end is no farther from the last
 * reading than readings are from each other. Throws RangeError for fewer than two places, a place below 0, or a loop
 * that cannot be.
 */
export function coverOf(places: readonly number[], loop: Loop): Cover {
  requireLoop(loop);
  if (places.length < 2) throw new RangeError(`places must hold at least 2 readings, got ${places.length}`);
  places.forEach((place, i) => {
    requireNotNegative(`places[${i}]`, place);
  });
  const sorted = places.toSorted((a, b) => a - b);
  const step = Math.max(...sorted.slice(1).map((place, i) => place - sorted[i]!));
  const turned = sorted.at(-1)! - sorted[0]!;
  const round = (pitches: number) => turned > 0 && pitches - turned <= step + 1e-9;
  const needed = stepNeeded(loop.teeth);
  const pitches = repeatPitches(loop);
  return {
    turned,
    step,
    stepNeeded: needed,
    stepFineEnough: turned > 0 && step <= needed + 1e-9,
    sprockets: [round(loop.teeth[0]), round(loop.teeth[1])],
    loop: round(loop.links),
    pattern: round(pitches),
    repeat: { pitches, loops: pitches / loop.links },
    mayMiss: missedShare(step, Math.min(...loop.teeth)),
  };
}
