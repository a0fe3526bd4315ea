/**
 * A bar that locks the drive between sprocket teeth: it bears F = T/R on the tooth roots and through the chain, R the
 * pitch radius. Torques in N·m, lengths in m, forces in N.
 */
import { requireMeasure } from './measure.ts';
import { requireWithin } from './require.ts';

/** Most of a chain's tensile strength a lock bar may load it to, dimensionless: a safety of 2, this project's rule. */
export const CHAIN_SHARE_MOST = 0.5;

export interface LockBar {
  /** Teeth of the sprocket that turns with the nut, 6–400. */
  readonly teeth: number;
  /** Pitch of the chain, m. */
  readonly pitch: number;
  /** Least tensile strength of the chain, all strands together, N. */
  readonly tensile: number;
}

/** Pitch radius of a sprocket, R = p/(2·sin(π/z)), m. Throws RangeError for figures out of range. */
export function sprocketRadius(teeth: number, pitch: number): number {
  requireTeeth(teeth);
  requireMeasure('pitch', pitch);
  return pitch / (2 * Math.sin(Math.PI / teeth));
}

/**
 * Pitch radius of a gear from its outside diameter, R = (d/2)·z/(z + 2), m: teeth that stand one module above the pitch
 * circle (ISO 53, from memory). Throws RangeError for figures out of range.
 */
export function gearRadius(teeth: number, outside: number): number {
  requireTeeth(teeth);
  requireMeasure('outside', outside);
  return ((outside / 2) * teeth) / (teeth + 2);
}

/** Load on the teeth at a pitch radius, F = T/R, N. Throws RangeError for figures not above 0. */
export function loadAtRadius(torque: number, radius: number): number {
  requireMeasure('torque', torque);
  requireMeasure('radius', radius);
  return torque / radius;
}

/** Load on the teeth at a bar, N, under a torque: T/R with R = p/(2·sin(π/z)). Throws RangeError for figures out of range. */
export function toothLoad(torque: number, teeth: number, pitch: number): number {
  return loadAtRadius(torque, sprocketRadius(teeth, pitch));
}

/** Load on the chain over its tensile strength, dimensionless, from 0. Throws RangeError for figures out of range. */
export function chainShare(torque: number, { teeth, pitch, tensile }: LockBar): number {
  requireMeasure('tensile', tensile);
  return toothLoad(torque, teeth, pitch) / tensile;
}

function requireTeeth(teeth: number): void {
  requireWithin('teeth', teeth, 6, 400);
  if (!Number.isInteger(teeth)) throw new RangeError(`teeth must be a whole number, got ${teeth}`);
}
