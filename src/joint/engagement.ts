/**
 * How much thread a screw really has hold of, from what one can measure: length under the head, what lies between, the
 * hole. Lengths in metres.
 */
import { type Refusal, refuse, requireNotNegative, requirePositive } from './require.ts';
import { sayLength } from './say.ts';
import type { Thread } from './thread.ts';

export interface ScrewInHole {
  readonly thread: Thread;
  /** Length under the head, m; a countersunk screw is measured over all. */
  readonly length: number;
  /** Thickness of all that is clamped, gasket included, washers not, m. */
  readonly grip: number;
  /** Thickness of the washers, m; 0 when not given. */
  readonly washer?: number;
  /** Depth of full thread in the tapped part, from the face the clamped parts lie on, m; null where nothing is known of it. */
  readonly threadDepth?: number | null;
  /** Depth to the bottom of the hole, m; null for a hole that goes through or is not known. */
  readonly holeDepth?: number | null;
  /** Countersink or counterbore at the mouth of the hole, m: no thread there; 0 when not given. */
  readonly chamfer?: number;
  /** Length of the point without full thread, m; one pitch when not given. */
  readonly point?: number;
  /** Length of thread on the screw from its end, m; null for thread up to the head. */
  readonly threadLength?: number | null;
}

export interface Engagement {
  readonly ok: true;
  /** How far the screw reaches beyond the face, m. */
  readonly reach: number;
  /** Full thread in full thread, Le, m. */
  readonly engaged: number;
  /** The same in diameters, dimensionless. */
  readonly diameters: number;
  /** Room between the point and the bottom of the hole, or the end of the thread where only that is known, m; below 0 the screw bottoms; null without depths. */
  readonly room: number | null;
  /** Whether the screw meets the end of the hole before it clamps. */
  readonly bottoms: boolean;
  /** Whether the shank reaches the tapped part before the head clamps. */
  readonly shankJams: boolean;
}

/**
 * Engagement of a screw in a tapped hole. Refuses a screw that does not reach full thread. A screw that bottoms is no
 * refusal: `bottoms` says so, and `engaged` is what it would have. Throws RangeError for lengths that cannot be.
 */
export function engagement(screw: ScrewInHole): Engagement | Refusal {
  const { thread, length, grip, washer = 0, threadDepth = null, holeDepth = null, chamfer = 0 } = screw;
  const { point = thread.pitch, threadLength = null } = screw;
  requirePositive('length', length);
  requireNotNegative('grip', grip);
  requireNotNegative('washer', washer);
  if (threadDepth !== null) requirePositive('threadDepth', threadDepth);
  if (holeDepth !== null) requirePositive('holeDepth', holeDepth);
  requireNotNegative('chamfer', chamfer);
  requireNotNegative('point', point);
  if (threadLength !== null) requirePositive('threadLength', threadLength);
  if (threadDepth !== null && holeDepth !== null && threadDepth > holeDepth)
    throw new RangeError(`threadDepth must not be above holeDepth (${holeDepth}), got ${threadDepth}`);

  const clamped = grip + washer;
  const reach = length - clamped;
  if (reach <= 0)
    return refuse(
      `A screw ${sayLength(length)} long does not reach through ${sayLength(clamped)} of grip and washers: check both, or take a longer screw.`,
    );
  const plain = threadLength === null ? 0 : Math.max(0, length - threadLength);
  const first = Math.max(chamfer, plain - clamped);
  const last = Math.min(reach - point, threadDepth ?? Number.POSITIVE_INFINITY);
  const engaged = last - first;
  if (engaged <= 0)
    return refuse(
      `A screw ${sayLength(length)} long reaches ${sayLength(reach)} beyond the face and finds no full thread there: check the grip, the chamfer and the depth of the thread.`,
    );
  // Past the full thread the tap's lead leaves shallow thread, where a screw jams as on a bottom; the point of the
  // screw has no full thread either and may enter by its own length.
  const end = Math.min(
    holeDepth ?? Number.POSITIVE_INFINITY,
    threadDepth === null ? Number.POSITIVE_INFINITY : threadDepth + point,
  );
  const room = Number.isFinite(end) ? end - reach : null;
  return {
    ok: true,
    reach,
    engaged,
    diameters: engaged / thread.diameter,
    room,
    bottoms: room !== null && room < 0,
    shankJams: plain > clamped + chamfer,
  };
}
