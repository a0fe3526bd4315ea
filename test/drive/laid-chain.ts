/** A chain laid link by link on the polygons of two sprockets, taut: what src/drive/chain.ts is held against. */
import type { Drive } from '../../src/drive/chain.ts';

type Point = readonly [number, number];

/** Corners of the convex hull (monotone chain, Andrew 1979): a taut chain lies on the hull of both polygons. */
function hull(points: readonly Point[]): readonly Point[] {
  const sorted = points.toSorted((a, b) => a[0] - b[0] || a[1] - b[1]);
  const turn = (o: Point, a: Point, b: Point) =>
    (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);
  const half = (row: readonly Point[]) => {
    const out: Point[] = [];
    for (const point of row) {
      while (out.length >= 2 && turn(out.at(-2)!, out.at(-1)!, point) <= 0) out.pop();
      out.push(point);
    }
    return out.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.toReversed())];
}

/** Corner points of a sprocket whose first roller is at `phase`. */
function rollers({ pitch }: Drive, teeth: number, x: number, phase: number): readonly Point[] {
  const radius = pitch / 2 / Math.sin(Math.PI / teeth);
  return Array.from({ length: teeth }, (_, k) => {
    const angle = phase + (2 * Math.PI * k) / teeth;
    return [x + radius * Math.cos(angle), radius * Math.sin(angle)] as const;
  });
}

/** Length of the whole taut loop and of its upper run, in pitches, with the sprockets at given phases. */
function laid(
  drive: Drive,
  phase1: number,
  phase2: number,
): { readonly whole: number; readonly upper: number } {
  const corners = hull([
    ...rollers(drive, drive.teeth[0], 0, phase1),
    ...rollers(drive, drive.teeth[1], drive.centre, phase2),
  ]);
  let [whole, upper] = [0, 0];
  corners.forEach((a, i) => {
    const b = corners[(i + 1) % corners.length]!;
    const length = Math.hypot(a[0] - b[0], a[1] - b[1]) / drive.pitch;
    whole += length;
    // Above a pitch and above the shafts: the run between the sprockets.
    if (length > 1.5 && (a[1] + b[1]) / 2 > 0) upper = length;
  });
  return { whole, upper };
}

/**
 * A chain laid on: rollers in the gaps of the first sprocket, the upper run of whole links, which turns the second
 * sprocket until its tooth fits, and what the lower run then needs. Length in pitches.
 */
function laidChain(drive: Drive, phase1: number): number {
  const tooth = (2 * Math.PI) / drive.teeth[1];
  // Distance of the upper run from a whole number of links, in (−½, ½]; unbroken where a roller takes over.
  const off = (phase2: number) => {
    const { upper } = laid(drive, phase1, phase2);
    return upper - Math.round(upper);
  };
  const STEPS = 60;
  for (let i = 0; i < STEPS; i++) {
    let [a, b] = [(tooth * i) / STEPS, (tooth * (i + 1)) / STEPS];
    const [offA, offB] = [off(a), off(b)];
    // A crossing of nought, not the jump from ½ to −½.
    if (offA * offB > 0 || Math.abs(offA - offB) > 0.5) continue;
    for (let n = 0; n < 50; n++) {
      const middle = (a + b) / 2;
      if (off(middle) * offA > 0) a = middle;
      else b = middle;
    }
    return laid(drive, phase1, a).whole;
  }
  throw new Error('no phase of the second sprocket fits whole links');
}

/** Mean and swing of a laid chain's length over one pitch of turning, pitches. */
export function laidOverAPitch(drive: Drive): { readonly mean: number; readonly swing: number } {
  const STEPS = 48;
  const lengths = Array.from({ length: STEPS }, (_, i) =>
    laidChain(drive, (2 * Math.PI * i) / STEPS / drive.teeth[0]),
  );
  return {
    mean: lengths.reduce((sum, length) => sum + length, 0) / STEPS,
    swing: Math.max(...lengths) - Math.min(...lengths),
  };
}
