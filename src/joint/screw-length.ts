/**
 * Which length of screw is right: long enough for the thread it needs, short enough not to meet the bottom, and one that
 * is sold. Lengths in metres, under the head.
 */
import type { ScrewInHole } from './engagement.ts';
import type { Strength } from './grade.ts';
import type { Material } from './material.ts';
import { requireMeasure } from './measure.ts';
import type { Interval } from './require.ts';
import { lengthToBreakScrew } from './strip.ts';
import type { Thread } from './thread.ts';

const MM = 1e-3;
const INCH = 0.0254;
const scaled = (unit: number, lengths: readonly number[]): readonly number[] =>
  lengths.map((length) => length * unit);

/** Lengths metric screws are sold in, m: ISO 888, from memory. */
export const METRIC_STOCK = scaled(
  MM,
  [5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150],
);
/** Lengths inch screws are sold in, m: ASME B18.3, from memory. */
export const INCH_STOCK = scaled(
  INCH,
  [
    0.25, 0.3125, 0.375, 0.5, 0.625, 0.75, 0.875, 1, 1.25, 1.5, 1.75, 2, 2.25, 2.5, 2.75, 3, 3.25, 3.5, 3.75,
    4, 4.5, 5, 5.5, 6,
  ],
);

/** Room that is left under a screw in a blind hole, over the pitch, dimensionless: common practice, no source. */
export const ROOM_PITCHES = 1;

export interface ThreadWanted {
  /** Engagement that is enough: from the hopeful to the cautious figure, m. */
  readonly engaged: Interval;
  /** Where that is from, as it stands in a sentence. */
  readonly by: string;
}

const LIGHT = /die-cast|sand-cast|permanent|6061|2024|7075|magnesium/;

/**
 * How much thread is enough. With grade and material it is the length from which the screw breaks before a thread
 * strips, and never less than one diameter; else so many diameters as is usual.
 */
export function threadWanted(
  thread: Thread,
  strength: Strength | null,
  material: Material | null,
): ThreadWanted {
  const d = thread.diameter;
  if (strength && material) {
    const { low, high } = lengthToBreakScrew(thread, strength, material);
    // Hard steel would do with less than a nut's height; nobody builds so (common practice, no source).
    return {
      engaged: { low: Math.max(low, d), high: Math.max(high, d) },
      by: high < d ? 'one diameter is the least (common practice, no source)' : 'the screw then breaks first',
    };
  }
  if (material && LIGHT.test(material.id))
    return {
      engaged: { low: 1.5 * d, high: 2 * d },
      by: '1.5 to 2 diameters in aluminium (two by US Army TM 5-3895-367-14&P)',
    };
  return {
    engaged: { low: d, high: 1.5 * d },
    by: '1 to 1.5 diameters where grade and material are not known (common practice, no source)',
  };
}

/** Lengths that would be right, m; null where no length is: the hole is too shallow for the thread that is wanted. */
export function lengthWindow(screw: Omit<ScrewInHole, 'length'>, engaged: number): Interval | null {
  requireMeasure('engaged', engaged);
  const { least, most } = lengthBounds(screw, engaged);
  return least <= most * (1 + 1e-9) ? { low: least, high: Math.max(least, most) } : null;
}

function lengthBounds(screw: Omit<ScrewInHole, 'length'>, engaged: number) {
  const { thread, grip, washer = 0, chamfer = 0, point = thread.pitch } = screw;
  const { threadDepth = null, holeDepth = null } = screw;
  const clamped = grip + washer;
  const end = Math.min(
    holeDepth ?? Number.POSITIVE_INFINITY,
    threadDepth === null ? Number.POSITIVE_INFINITY : threadDepth + point,
  );
  return {
    least: clamped + chamfer + engaged + point,
    // Past the last full thread a longer screw grips nothing more.
    most: Number.isFinite(end) ? clamped + end - ROOM_PITCHES * thread.pitch : Number.POSITIVE_INFINITY,
  };
}

export interface LengthChoice {
  /** Length to take, m; null where none of them will do. */
  readonly length: number | null;
  /** Whether it has all the thread that is wanted. */
  readonly enough: boolean;
  /** Where none will do: what is wrong with the nearest. */
  readonly wrong: 'too-long' | 'too-short' | null;
}

/** Share of the thread wanted under which a screw is no choice at all, dimensionless: this project's rule. */
export const HALF_HELD = 0.5;

/** The shortest length with thread enough that does not bottom; else the longest that does not bottom and has half of it. */
export function chooseLength(
  screw: Omit<ScrewInHole, 'length'>,
  engaged: number,
  stock: readonly number[],
): LengthChoice {
  requireMeasure('engaged', engaged);
  const { least, most } = lengthBounds(screw, engaged);
  const holding = lengthBounds(screw, HALF_HELD * engaged).least;
  const going = stock.toSorted((a, b) => a - b).filter((length) => length <= most * (1 + 1e-9));
  const right = going.find((length) => length >= least * (1 - 1e-9));
  if (right !== undefined) return { length: right, enough: true, wrong: null };
  const longest = going.at(-1);
  if (longest !== undefined && longest >= holding) return { length: longest, enough: false, wrong: null };
  return { length: null, enough: false, wrong: going.length < stock.length ? 'too-long' : 'too-short' };
}
