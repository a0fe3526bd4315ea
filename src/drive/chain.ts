/**
 * Room `drive`: chains and shims. Chain length and centre distance, slack and its loss by heat, wear, and which shims
 * of those at hand to stack. Heat figures are advisory; the bike's own book wins over all of them.
 *
 * This file: a roller chain on two sprockets. Rollers sit on the corners of a polygon with sides of one pitch, so a
 * turn of a sprocket takes exactly `teeth` pitches of chain, not the pitch circle's circumference; the straight runs
 * are tangents to the pitch circles. Lengths in metres, angles in radians, chain lengths in pitches.
 *
 * Averaged over a pitch of turning this is within 0.00005 pitch of a chain laid link by link on the polygons; within
 * that pitch the true length swings by up to 0.006 pitch at 13 teeth (both: test/reference/drive.test.ts).
 */
import { bisect } from './bisect.ts';
import { printLength } from './print-length.ts';
import { type Refusal, refuse, requirePositive, requireWhole, requireWithin } from './require.ts';

/** Fewest teeth the room accepts, count. */
export const FEWEST_TEETH = 6;
/** Most teeth the room accepts, count. */
export const MOST_TEETH = 400;

/** Teeth of the two sprockets, in either order. */
export type Teeth = readonly [number, number];

export interface Drive {
  /** Pitch, m, 0.001–0.5. */
  readonly pitch: number;
  readonly teeth: Teeth;
  /** Distance of the shafts, m; more than the sum of the pitch radii. */
  readonly centre: number;
}

/** Throws RangeError for a pitch outside 1–500 mm (the standards go from 5 to 114 mm). */
export function requirePitch(pitch: number): void {
  requirePositive('pitch', pitch);
  requireWithin('pitch', pitch, 0.001, 0.5);
}

export function requireTeeth(teeth: Teeth): void {
  requireWhole('teeth[0]', teeth[0], FEWEST_TEETH, MOST_TEETH);
  requireWhole('teeth[1]', teeth[1], FEWEST_TEETH, MOST_TEETH);
}

/** Throws RangeError for a drive that cannot be: lengths not above 0, teeth out of range, sprockets that overlap. */
export function requireDrive({ pitch, teeth, centre }: Drive): void {
  requirePitch(pitch);
  requireTeeth(teeth);
  requirePositive('centre', centre);
  const least = leastCentre(pitch, teeth);
  if (centre <= least)
    throw new RangeError(
      `centre must be above the sum of the pitch radii, ${least} m (else the sprockets overlap), got ${centre}`,
    );
}

/**
 * Pitch diameter, m.
 * PD = p/sin(π/z), the circle through the roller centres (ANSI B29.1, ISO 606). Throws RangeError for a pitch outside
 * 1–500 mm or teeth outside 6–400.
 */
export function pitchDiameter(pitch: number, teeth: number): number {
  requirePitch(pitch);
  requireWhole('teeth', teeth, FEWEST_TEETH, MOST_TEETH);
  return pitch / Math.sin(Math.PI / teeth);
}

/** Pitch of a sprocket of known pitch diameter, m. Inverse of `pitchDiameter`; throws RangeError as that does. */
export function pitchFromDiameter(diameter: number, teeth: number): number {
  requirePositive('diameter', diameter);
  requireWhole('teeth', teeth, FEWEST_TEETH, MOST_TEETH);
  return diameter * Math.sin(Math.PI / teeth);
}

/**
 * Teeth of a sprocket of known pitch diameter, dimensionless; not rounded, so that a figure far from whole shows a
 * measuring mistake. Inverse of `pitchDiameter`. Throws RangeError for a diameter not above the pitch.
 */
export function teethFromDiameter(pitch: number, diameter: number): number {
  requirePitch(pitch);
  requirePositive('diameter', diameter);
  if (diameter <= pitch) throw new RangeError(`diameter must be above the pitch, ${pitch}, got ${diameter}`);
  return Math.PI / Math.asin(pitch / diameter);
}

/**
 * Diameter over the tooth tips, m.
 * p·(0.6 + cot(π/z)), the usual approximation (ANSI B29.1, from memory); real sprockets lie within about ±2 % of a
 * pitch diameter of it.
 */
export function tipDiameter(pitch: number, teeth: number): number {
  requirePitch(pitch);
  requireWhole('teeth', teeth, FEWEST_TEETH, MOST_TEETH);
  return pitch * (0.6 + 1 / Math.tan(Math.PI / teeth));
}

/** Centre distance at which the pitch circles touch, m. */
export function leastCentre(pitch: number, teeth: Teeth): number {
  return (pitchDiameter(pitch, teeth[0]) + pitchDiameter(pitch, teeth[1])) / 2;
}

/** Room left between the tooth tips of the two sprockets, m; under 0 they touch. */
export function tipGap(drive: Drive): number {
  requireDrive(drive);
  const { pitch, teeth, centre } = drive;
  return centre - (tipDiameter(pitch, teeth[0]) + tipDiameter(pitch, teeth[1])) / 2;
}

/** Tilt of the straight runs against the line of the shafts, rad; above 0 when the second sprocket is the larger. */
export function tangentTilt(drive: Drive): number {
  requireDrive(drive);
  const { pitch, teeth, centre } = drive;
  return Math.asin((pitchDiameter(pitch, teeth[1]) - pitchDiameter(pitch, teeth[0])) / 2 / centre);
}

/** Length of each straight run, m: the span on which slack is felt. C·cos α. */
export function freeSpan(drive: Drive): number {
  return drive.centre * Math.cos(tangentTilt(drive));
}

/** How far the chain wraps round each sprocket, rad: π − 2α and π + 2α. */
export function wraps(drive: Drive): readonly [number, number] {
  const tilt = tangentTilt(drive);
  return [Math.PI - 2 * tilt, Math.PI + 2 * tilt];
}

/**
 * Length of a taut chain in pitches, dimensionless.
 * X = (2C/p)·cos α + z1(½ − α/π) + z2(½ + α/π), sin α = (R2 − R1)/C. Throws RangeError for a drive that cannot be.
 */
export function tangentLength(drive: Drive): number {
  const tilt = tangentTilt(drive);
  const { pitch, teeth, centre } = drive;
  return (
    (2 * centre * Math.cos(tilt)) / pitch +
    teeth[0] * (0.5 - tilt / Math.PI) +
    teeth[1] * (0.5 + tilt / Math.PI)
  );
}

/**
 * The usual approximation of the chain's length in pitches, dimensionless.
 * X ≈ 2C/p + (z1 + z2)/2 + ((z2 − z1)/2π)²·p/C; short by 0.006 pitch for 25/62 teeth at 26 pitches of centre
 * distance. For comparing with books; everything else here uses `tangentLength`.
 */
export function usualLength(drive: Drive): number {
  requireDrive(drive);
  const { pitch, teeth, centre } = drive;
  const step = (teeth[1] - teeth[0]) / (2 * Math.PI);
  return (2 * centre) / pitch + (teeth[0] + teeth[1]) / 2 + (step * step * pitch) / centre;
}

/** Pitches of a taut chain when the pitch circles just touch, dimensionless: no shorter chain goes round. */
export function leastLength(pitch: number, teeth: Teeth): number {
  // A hair above, since sprockets that touch are refused.
  return tangentLength({ pitch, teeth, centre: leastCentre(pitch, teeth) * (1 + 1e-12) });
}

/**
 * Centre distance at which a chain of `length` pitches is taut. Inverse of `tangentLength`, to the last digits.
 * Refuses a chain too short to go round both sprockets. Throws RangeError for a pitch, length or
 * teeth out of range.
 */
export function centreDistance(
  pitch: number,
  teeth: Teeth,
  length: number,
): { readonly ok: true; readonly centre: number } | Refusal {
  requirePitch(pitch);
  requireTeeth(teeth);
  requirePositive('length', length);
  const least = leastLength(pitch, teeth);
  if (length <= least)
    return refuse(
      `A chain of ${length} pitches of ${printLength(pitch)} is too short for ${teeth[0]} and ${teeth[1]} teeth: ` +
        `the sprockets would overlap. Use more than ${least.toFixed(1)} pitches, or check the count.`,
    );
  // Twice the centre distance is never longer than the loop.
  const centre = bisect(
    (c) => tangentLength({ pitch, teeth, centre: c }) - length,
    leastCentre(pitch, teeth) * (1 + 1e-12),
    (length * pitch) / 2 + pitch,
  );
  return { ok: true, centre };
}
