/**
 * Whether the hand at a long bar tips the bike off its stand or lift. With the drive locked the torque on the nut
 * closes inside the bike, and only the hand's force acts on the whole of it. Weight m·g holds it down at half the
 * support's width b; the hand pulls at a distance y from the middle plane, or pushes level at a height h:
 *
 *   pulling up   m·g·b / [F·(y + b)]
 *   pushing down m·g·b / [F·(y − b)], and it cannot tip where y ≤ b
 *   sideways     m·g·b / (F·h)
 *   along        m·g·a / (F·h), a half the support's length
 *
 * Masses in kg, lengths in m, forces in N.
 */
import { requireMeasure, requireMeasureOrNought } from './measure.ts';
import { type Refusal, refuse } from './require.ts';

/** Standard gravity, m/s². */
export const GRAVITY = 9.80665;
/** Least safety against tipping that is asked, dimensionless: this project's rule. */
export const SAFETY_ASKED = 2;

export type PushWay = 'up' | 'down' | 'sideways' | 'along';

export interface Stand {
  /** Of the bike as it stands, kg. */
  readonly mass: number;
  /** Half the width of the support, m. */
  readonly halfWidth: number;
  /** Middle plane of the bike to the plane the bar swings in, m; for up and down. */
  readonly offset?: number;
  /** Hand above the support, m; for sideways and along. */
  readonly height?: number;
  /** Half the length of the support, m; for along. */
  readonly halfLength?: number;
}

/** Holding moment and the lever the hand has against it; a lever of 0 or less never tips. */
function moments(
  stand: Stand,
  way: PushWay,
): { readonly ok: true; readonly hold: number; readonly lever: number } | Refusal {
  const { mass, halfWidth, offset, height, halfLength } = stand;
  requireMeasure('mass', mass);
  requireMeasure('halfWidth', halfWidth);
  if (offset !== undefined) requireMeasureOrNought('offset', offset);
  if (height !== undefined) requireMeasureOrNought('height', height);
  if (halfLength !== undefined) requireMeasure('halfLength', halfLength);
  const weight = mass * GRAVITY;
  if (way === 'up' || way === 'down') {
    if (offset === undefined)
      return refuse(
        'How far the bar is from the middle of the bike is not entered: measure it level, from the middle plane to the bar.',
      );
    const lever = way === 'up' ? offset + halfWidth : offset - halfWidth;
    return { ok: true, hold: weight * halfWidth, lever };
  }
  if (height === undefined)
    return refuse(
      'How high the hand is above the support is not entered: measure it from the lift or floor.',
    );
  if (way === 'sideways') return { ok: true, hold: weight * halfWidth, lever: height };
  if (halfLength === undefined)
    return refuse('How long the support is along the bike is not entered: measure it and halve it.');
  return { ok: true, hold: weight * halfLength, lever: height };
}

export interface Tip {
  readonly ok: true;
  /** Force that would tip it over the force used, dimensionless; null where this push cannot tip it. */
  readonly safety: number | null;
  /** Greatest force with the safety asked, N; null where this push cannot tip it. */
  readonly most: number | null;
  readonly enough: boolean;
}

/**
 * Safety against tipping under a force, N, in a direction. Refuses when a measure the direction needs is missing.
 * Throws RangeError for measures not above 0.
 */
export function tipSafety(stand: Stand, force: number, way: PushWay): Tip | Refusal {
  requireMeasure('force', force);
  const at = moments(stand, way);
  if (!at.ok) return at;
  const { hold, lever } = at;
  if (lever <= 1e-12) return { ok: true, safety: null, most: null, enough: true };
  const safety = hold / (force * lever);
  return {
    ok: true,
    safety,
    most: hold / (SAFETY_ASKED * lever),
    enough: safety >= SAFETY_ASKED * (1 - 1e-9),
  };
}
