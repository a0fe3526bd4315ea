/** What the hand must do at the end of a lever: F = T/L. Torques in N·m, lengths in m, forces in N. */
import { requireMeasure } from './measure.ts';
import { sayForce, sayLength } from './say.ts';

/** Push of one hand, level, that most people can hold steadily, N: about 50 lbf, a secondary source. */
export const PUSH_GUIDE = 225;

/** Force square to the lever that makes a torque, N. Throws RangeError unless both are above 0. */
export function handForce(torque: number, arm: number): number {
  requireMeasure('torque', torque);
  requireMeasure('arm', arm);
  return torque / arm;
}

/** Lever on which a force makes a torque, m. Throws RangeError unless both are above 0. */
export function armFor(torque: number, force: number = PUSH_GUIDE): number {
  requireMeasure('torque', torque);
  requireMeasure('force', force);
  return torque / force;
}

/** Torque of a force at the end of a lever, N·m. Throws RangeError unless both are above 0. */
export function torqueOf(force: number, arm: number): number {
  requireMeasure('force', force);
  requireMeasure('arm', arm);
  return force * arm;
}

export interface Push {
  /** N. */
  readonly force: number;
  /** Whether one hand does it steadily. */
  readonly easy: boolean;
  readonly words: string;
}

/** What it takes at the grip, and how long a lever would make it easy. */
export function judgePush(torque: number, arm: number): Push {
  const force = handForce(torque, arm);
  const easy = force <= PUSH_GUIDE * (1 + 1e-9);
  const words = easy
    ? `${sayForce(force)} at the grip.`
    : `${sayForce(force)} at the grip is more than the ${sayForce(PUSH_GUIDE)} that one hand pushes steadily: a lever of ${sayLength(armFor(torque))} would do.`;
  return { force, easy, words };
}
