/**
 * A whole joint at once: what a torque makes of a screw in its hole. The parts are in preload.ts, strip.ts and
 * believable.ts; this file puts them together, with the sentences, for whoever asks for all of it.
 */
import { type Judgement, judgeTorque, judgingNutFactor } from './believable.ts';
import type { Friction } from './friction.ts';
import type { Strength } from './grade.ts';
import type { Material } from './material.ts';
import { preloadFromTorque, shareOfProof, torqueForShare } from './preload.ts';
import type { Interval } from './require.ts';
import { sayForce, sayLength, sayShare, sayTorque, sayTorques } from './say.ts';
import { type FailureTorque, failureTorque, lengthToBreakScrew } from './strip.ts';
import type { Thread } from './thread.ts';
import type { TorqueUnit } from './unit-hint.ts';

export interface JointAsked {
  readonly thread: Thread;
  readonly strength: Strength;
  readonly friction: Friction;
  /** What the thread is tapped into, and the engagement in it, m; null where not known. */
  readonly tapped: { readonly material: Material; readonly engaged: number } | null;
  /** Torque on the wrench, N·m. */
  readonly torque: Interval;
  /** Unit the torque was entered in; null for one that no hint is given for. */
  readonly unit: TorqueUnit | null;
  /** Error of the wrench either way, share of the reading; 0.04 when not given. */
  readonly wrenchError?: number;
  /** Drag torque, N·m; none when not given. */
  readonly drag?: Interval;
}

export interface JointReckoned {
  /** Preload, N. */
  readonly preload: Interval;
  /** Share of the proof load, dimensionless. */
  readonly share: Interval;
  /** Torque on the wrench for three quarters of the proof load, N·m: over the range of the friction, drag on top. */
  readonly threeQuarters: Interval;
  /** Torque at which screw or thread gives way; null where it is not known what the thread is tapped into. */
  readonly failure: FailureTorque | null;
  /** Engagement from which the screw breaks before a thread strips, m; null as above. */
  readonly engagementWanted: Interval | null;
  readonly judgement: Judgement;
  /** The result in sentences, an estimate that the book overrules. */
  readonly says: readonly string[];
}

const GIVES_WAY = { screw: 'the screw', external: "the screw's own thread", internal: 'the tapped thread' };

function to(low: string, high: string): string {
  return low === high ? low : `${low} to ${high}`;
}

/** Reckons a joint by the short formula. Throws RangeError for lengths, torques or friction that cannot be. */
export function reckonJoint(asked: JointAsked): JointReckoned {
  const { thread, strength, friction, tapped, torque, unit, drag } = asked;
  const preload = preloadFromTorque(asked, thread, friction.k);
  const share = shareOfProof(preload, thread, strength);
  const threeQuarters = torqueForShare(0.75, thread, strength, friction.k, drag);
  const failure = tapped
    ? failureTorque(thread, strength, tapped.material, tapped.engaged, friction.k)
    : null;
  const engagementWanted = tapped ? lengthToBreakScrew(thread, strength, tapped.material) : null;
  const judgement = judgeTorque({
    torque,
    unit,
    thread,
    strength,
    material: tapped?.material ?? null,
    engaged: tapped?.engaged ?? null,
    k: judgingNutFactor(friction),
  });
  const says = [
    `${sayTorques(torque)} (threads: ${friction.name}, K ${friction.k.low}–${friction.k.high}) pull the screw with ${to(sayForce(preload.low), sayForce(preload.high))}, ${to(sayShare(share.low), sayShare(share.high))} of its proof load.`,
    `Three quarters of the proof load may take ${sayTorques(threeQuarters)}.`,
  ];
  if (tapped && failure && engagementWanted) {
    const { torque: end, usual, weaker } = failure;
    says.push(
      `${sayLength(tapped.engaged)} of thread in ${tapped.material.name}: ${GIVES_WAY[weaker]} gives way first, at about ${sayTorque(usual)}, anywhere within ${sayTorques(end)}.`,
      tapped.engaged < engagementWanted.high
        ? `From ${to(sayLength(engagementWanted.low), sayLength(engagementWanted.high))} of thread the screw would break first.`
        : 'There is thread enough for the screw to break first.',
    );
  }
  says.push('This is an estimate; the book wins.');
  return { preload, share, threeQuarters, failure, engagementWanted, judgement, says };
}
