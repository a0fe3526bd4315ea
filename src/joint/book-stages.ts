/**
 * The stages of a torque as the book writes them, for a screw or nut of any kind: each turned into the setting of the
 * wrench, and every one that does not rise told. Unlike `stagePlan` this refuses no fall: some books back a screw off
 * between two stages, and only the reader knows. Torques in N·m.
 */
import { requireMeasure, requireMeasureOrNought } from './measure.ts';
import type { Refusal } from './require.ts';
import { requireWithin } from './require.ts';
import { type Mark, nearestMark, type RangePlace, rangePlace, type Scale } from './wrench-scale.ts';

export interface BookStage {
  /** Torque at the screw, N·m. */
  readonly torque: number;
  /** Share of the last stage, dimensionless. */
  readonly share: number;
  /** Setting of the wrench, drag added and adapter taken off, N·m. */
  readonly set: number;
  /** Nearest mark of the scale; null without a scale or off it. */
  readonly mark: Mark | null;
  /** Where the setting lies in the range of the wrench; null where its full scale is not known. */
  readonly range: RangePlace | Refusal | null;
  /** Against the stage before it. */
  readonly step: 'first' | 'rises' | 'repeats' | 'falls';
}

export interface BookStagesTask {
  /** Stages in the order of the book, N·m. */
  readonly torques: readonly number[];
  /** Torque at the screw over setting, dimensionless, when an adapter is on; 1 when not given. */
  readonly factor?: number;
  /** Torque that turns the screw before it seats, N·m; 0 when not given. */
  readonly drag?: number;
  readonly fullScale?: number;
  readonly scale?: Scale;
}

/** Throws RangeError for no stages, or a torque not above 0. */
export function bookStages({
  torques,
  factor = 1,
  drag = 0,
  fullScale,
  scale,
}: BookStagesTask): readonly BookStage[] {
  if (torques.length === 0) throw new RangeError('torques must hold at least 1 stage, got 0');
  torques.forEach((torque, i) => {
    requireMeasure(`torques[${i}]`, torque);
  });
  requireMeasure('factor', factor);
  requireMeasureOrNought('drag', drag);
  const last = torques.at(-1)!;
  return torques.map((torque, i) => {
    const set = (torque + drag) / factor;
    const mark = scale ? nearestMark(set, scale) : null;
    return {
      torque,
      share: torque / last,
      set,
      mark: mark?.ok ? mark : null,
      range: fullScale === undefined ? null : rangePlace(set, fullScale),
      step: i === 0 ? 'first' : stepFrom(torques[i - 1]!, torque),
    };
  });
}

function stepFrom(before: number, now: number): BookStage['step'] {
  // The same torque in two units differs by a hair.
  if (Math.abs(now / before - 1) < 1e-3) return 'repeats';
  return now > before ? 'rises' : 'falls';
}

/**
 * Stages where only the last torque and their number are known, N·m: equal parts of it (common practice, no source).
 * Throws RangeError for a torque not above 0 or a number that is not whole or not from 1 to 10.
 */
export function evenStages(torque: number, count: number): readonly number[] {
  requireMeasure('torque', torque);
  requireWithin('count', count, 1, 10);
  if (!Number.isInteger(count)) throw new RangeError(`count must be a whole number, got ${count}`);
  return Array.from({ length: count }, (_, i) => (torque * (i + 1)) / count);
}
