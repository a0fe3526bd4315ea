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

/** Load on the teeth at a bar, N, under a torque: T/R with R = p/(2·sin(π/z)). Throws RangeError for figures out of range. */
export function toothLoad(torque: number, teeth: number, pitch: number): number {
  requireMeasure('torque', torque);
  requireWithin('teeth', teeth, 6, 400);
  if (!Number.isInteger(teeth)) throw new RangeError(`teeth must be a whole number, got ${teeth}`);
  requireMeasure('pitch', pitch);
  return (torque * 2 * Math.sin(Math.PI / teeth)) / pitch;
}

/** Load on the chain over its tensile strength, dimensionless, from 0. Throws RangeError for figures out of range. */
export function chainShare(torque: number, { teeth, pitch, tensile }: LockBar): number {
  requireMeasure('tensile', tensile);
  return toothLoad(torque, teeth, pitch) / tensile;
}
