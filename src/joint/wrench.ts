/**
 * The torque wrench as a lever. With an adapter the screw sits further out (or in) than the drive, so the wrench clicks
 * at another torque than the screw gets:
 *
 *   set = T·L/(L + E·cosθ)
 *
 * L from the middle of the grip to the drive, E from the drive to the screw; θ = 0 straight out, 90° no correction,
 * 180° back along the handle. It holds only while the hand pulls at the middle of the grip. Torques in N·m, lengths in
 * m, angles in rad.
 */
import { requireMeasure } from './measure.ts';
import { type Interval, type Refusal, refuse, requireNotNegative, requireWithin } from './require.ts';
import { sayLength } from './say.ts';

/** No wrench is longer, m. */
const LONGEST = 10;

export interface Lever {
  /** Middle of the grip to the drive, m, above 0. */
  readonly length: number;
  /** Drive to the middle of the screw, m, from 0; 0 when not given. */
  readonly adapter?: number;
  /** Angle between wrench and adapter, rad: 0 straight out, π back along the handle; 0 when not given. */
  readonly angle?: number;
}

export interface Reach {
  readonly ok: true;
  /** Middle of the grip to the screw, along the wrench, m. */
  readonly arm: number;
  /** Torque at the screw over torque set, dimensionless. */
  readonly factor: number;
}

export interface Setting {
  readonly ok: true;
  /** What the wrench is set to, N·m. */
  readonly set: number;
  /** What the screw gets, N·m. */
  readonly torque: number;
  /** Torque over setting, dimensionless. */
  readonly factor: number;
}

function adapterTooLong(adapter: number, length: number): Refusal {
  return refuse(
    `The adapter, ${sayLength(adapter)}, is longer than the wrench, ${sayLength(length)}: the setting cannot be trusted then, take a shorter adapter or a longer wrench.`,
  );
}

/**
 * How the lever multiplies. Refuses an adapter longer than the wrench, and one that reaches back past the grip.
 * Throws RangeError for a length not above 0, an adapter below 0, an angle beyond a whole turn.
 */
export function leverReach({ length, adapter = 0, angle = 0 }: Lever): Reach | Refusal {
  requireMeasure('length', length);
  requireNotNegative('adapter', adapter);
  requireWithin('angle', angle, -2 * Math.PI, 2 * Math.PI);
  if (adapter > length) return adapterTooLong(adapter, length);
  const arm = length + adapter * Math.cos(angle);
  // An adapter as long as the wrench, turned back, puts the screw under the hand.
  if (arm <= 1e-9 * length)
    return refuse(
      `The adapter, ${sayLength(adapter)}, turned back leaves no lever on a wrench of ${sayLength(length)}: point it outwards or set it at 90°.`,
    );
  return { ok: true, arm, factor: arm / length };
}

/**
 * What to set for a wanted torque at the screw: 300 lbf·in on 10 in with 4 in straight out is 214.3 lbf·in (US Army TM
 * 1-1500-204-23-9). Refuses and throws as `leverReach`, and throws RangeError for a torque not above 0.
 */
export function wrenchSetting(torque: number, lever: Lever): Setting | Refusal {
  requireMeasure('torque', torque);
  const reach = leverReach(lever);
  return reach.ok ? { ok: true, set: torque / reach.factor, torque, factor: reach.factor } : reach;
}

/** What the screw gets from a setting: the inverse of `wrenchSetting`. */
export function torqueAtScrew(set: number, lever: Lever): Setting | Refusal {
  requireMeasure('set', set);
  const reach = leverReach(lever);
  return reach.ok ? { ok: true, set, torque: set * reach.factor, factor: reach.factor } : reach;
}

/**
 * Adapter that turns a setting into a torque, m, in `adapter`. Refuses where no adapter at that angle can (at 90° none
 * changes anything), or where it would be longer than the wrench.
 */
export function adapterFor(
  torque: number,
  set: number,
  length: number,
  angle = 0,
): { readonly ok: true; readonly adapter: number } | Refusal {
  requireMeasure('torque', torque);
  requireMeasure('set', set);
  requireMeasure('length', length);
  requireWithin('angle', angle, -2 * Math.PI, 2 * Math.PI);
  const along = length * (torque / set - 1);
  const cos = Math.cos(angle);
  if (Math.abs(along) < 1e-12 * length) return { ok: true, adapter: 0 };
  if (Math.abs(cos) < 1e-9 || along / cos < 0)
    return refuse(
      'No adapter at this angle turns that setting into that torque: one that points outwards raises it, one that points back lowers it.',
    );
  const adapter = along / cos;
  const reach = leverReach({ length, adapter, angle });
  return reach.ok ? { ok: true, adapter } : reach;
}

/**
 * Wrench, from grip to drive, that turns a setting into a torque with a given adapter, m, in `length`. Refuses where
 * none does.
 */
export function lengthFor(
  torque: number,
  set: number,
  adapter: number,
  angle = 0,
): { readonly ok: true; readonly length: number } | Refusal {
  requireMeasure('torque', torque);
  requireMeasure('set', set);
  requireMeasure('adapter', adapter);
  requireWithin('angle', angle, -2 * Math.PI, 2 * Math.PI);
  const gain = torque / set - 1;
  const along = adapter * Math.cos(angle);
  if (gain * along <= 0 || Math.abs(along) < 1e-9 * adapter)
    return refuse(
      'No length of wrench turns that setting into that torque with this adapter: one that points outwards raises it, one that points back lowers it.',
    );
  const length = along / gain;
  if (length > LONGEST)
    return refuse(
      `The wrench would have to be ${sayLength(length)} long: setting and torque differ too little for this adapter, look at them again.`,
    );
  if (adapter > length) return adapterTooLong(adapter, length);
  const reach = leverReach({ length, adapter, angle });
  return reach.ok ? { ok: true, length } : reach;
}

/**
 * What the screw may get, N·m, when the hand lies up to `off` m from the middle of the grip. Without an adapter, or at
 * 90°, it does not matter where the hand is.
 */
export function handSpread(set: number, lever: Lever, off: number): Interval | Refusal {
  requireMeasure('set', set);
  requireNotNegative('off', off);
  const reach = leverReach(lever);
  if (!reach.ok) return reach;
  if (off >= lever.length)
    throw new RangeError(`off must be below the length of the wrench, ${lever.length} m, got ${off}`);
  const along = reach.arm - lever.length;
  const ends = [lever.length - off, lever.length + off].map((length) => (set * (length + along)) / length);
  return { low: Math.max(0, Math.min(...ends)), high: Math.max(...ends) };
}
