/** Which unit may have been meant by an entered torque: inch-pounds for foot-pounds is an error of twelve times. */
import { printNumber } from '../units/print.ts';
import { quantity } from '../units/quantity.ts';
import type { Interval } from './require.ts';
import { sayShare } from './say.ts';
import type { Thread } from './thread.ts';

/** Shares of the proof load at K = 0.2 between which a torque makes sense, dimensionless. This project's proposal. */
const SENSIBLE: Interval = { low: 0.15, high: 0.75 };
/** The nut factor that a single figure is reckoned with, dimensionless. */
export const USUAL_K = 0.2;

const UNITS = ['N·m', 'lbf·ft', 'lbf·in'] as const;
export type TorqueUnit = (typeof UNITS)[number];

export interface UnitHint {
  /** The unit that may have been meant. */
  readonly meant: TorqueUnit;
  /** The entry as it was. */
  readonly entered: TorqueUnit;
  /** The same figure in the other unit, N·m. */
  readonly torque: Interval;
  /** Share of the proof load it would take up at K = 0.2, dimensionless. */
  readonly proof: number;
  readonly says: string;
}

function si(unit: TorqueUnit): number {
  return quantity('torque', 1, unit).si;
}

function sensible(proof: number): boolean {
  // Many book torques are exactly three quarters: a hair of rounding must not put them outside.
  return proof >= SENSIBLE.low * (1 - 1e-9) && proof <= SENSIBLE.high * (1 + 1e-9);
}

/**
 * Units in which the same figure would make sense: a factor of 12, 8.851 or 1.356 either way, as the unit it was entered
 * in allows. A hint only where the other unit puts the high end of the torque within 15–75 % of the proof load (N) at
 * K = 0.2 and the entry does not. Never a correction.
 */
export function unitHints(
  entry: Interval,
  entered: TorqueUnit | null,
  thread: Thread,
  proofLoad: number,
): readonly UnitHint[] {
  const proofAt = (torque: number) => torque / (USUAL_K * thread.diameter * proofLoad);
  if (entered === null || sensible(proofAt(entry.high))) return [];
  const figure = (end: number) => printNumber(Number((end / si(entered)).toPrecision(4)));
  const written =
    entry.low === entry.high ? figure(entry.high) : `${figure(entry.low)}–${figure(entry.high)}`;
  const hints = UNITS.filter((meant) => meant !== entered).flatMap((meant): UnitHint[] => {
    const factor = si(meant) / si(entered);
    const torque = { low: entry.low * factor, high: entry.high * factor };
    const proof = proofAt(torque.high);
    if (!sensible(proof)) return [];
    const says = `Is ${meant} meant? ${written} ${meant} would take up ${sayShare(proof)} of the proof load at K = ${USUAL_K}.`;
    return [{ meant, entered, torque, proof, says }];
  });
  // Most screws are tightened to about half of the proof load at K = 0.2: nearest to that first.
  return hints.sort((a, b) => Math.abs(Math.log(a.proof / 0.5)) - Math.abs(Math.log(b.proof / 0.5)));
}
