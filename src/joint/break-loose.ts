/**
 * Breaking a tight nut loose without breaking anything else: how much torque to be ready for, what that asks of the
 * hand on the bar at hand, whether the bike stays on its lift, and what a lock bar between the teeth does to the chain.
 */
import { armFor, handForce, PUSH_GUIDE } from './hand-force.ts';
import { CHAIN_SHARE_MOST, chainShare, type LockBar, toothLoad } from './lock-bar.ts';
import { LOCKER_UNDO_HEAT } from './locker.ts';
import { requireMeasure } from './measure.ts';
import { type Refusal, refuse } from './require.ts';
import { sayEstimate, sayForce, sayLength, sayShare, sayTorque } from './say.ts';
import { type PushWay, SAFETY_ASKED, type Stand, tipSafety } from './tip.ts';
import { type UndoCase, type UndoTorque, undoTorque } from './undo-torque.ts';

export interface BreakLooseTask {
  readonly undo: UndoCase;
  /** Which way the thread runs; null while nobody has looked it up. */
  readonly thread: 'right' | 'left' | null;
  /** Nut to the hand, m. */
  readonly bar: number;
  readonly way: PushWay;
  /** null: the joint is on the bench, nothing can tip. */
  readonly stand: Stand | null;
  readonly lockBar?: LockBar;
  readonly tiedDown?: boolean;
  /** Wheels chocked or clamped; asked for a push along the bike. */
  readonly wheelsHeld?: boolean;
  /** Rotor magnets or a seal so near that local heat would reach them. */
  readonly nearMagnetOrSeal?: boolean;
}

export type CautionId =
  | 'tips'
  | 'sideways'
  | 'rolls'
  | 'tie-down'
  | 'hard-push'
  | 'chain'
  | 'stop'
  | 'lock-place'
  | 'heat'
  | 'no-heat'
  | 'left-hand';

export interface Caution {
  readonly id: CautionId;
  /** Whether the bar stays down until it is settled. */
  readonly stops: boolean;
  readonly words: string;
}

export interface BreakLoose {
  readonly ok: true;
  readonly undo: UndoTorque;
  /** Which way it comes off, looking at the nut. */
  readonly turn: 'counter-clockwise' | 'clockwise';
  /** Force at the end of the bar for the torque to be ready for, N. */
  readonly force: number;
  /** Bar on which one hand would do it, m. */
  readonly easyBar: number;
  /** Safety against tipping at that force; null where it cannot tip. */
  readonly safety: number | null;
  /** Bar on which the safety asked is reached, m; null where it cannot tip. */
  readonly safeBar: number | null;
  /** Torque at which to stop pulling, N·m: the safety or the chain's share asked is reached; null where neither binds. */
  readonly stopAt: number | null;
  /** Load on the teeth at the lock bar, N, and as a share of the chain's strength; null without a lock bar. */
  readonly teeth: { readonly load: number; readonly share: number } | null;
  /** Nothing stops. */
  readonly safe: boolean;
  readonly cautions: readonly Caution[];
  /** One sentence with the figures. */
  readonly words: string;
}

/**
 * The plan for one nut. Refuses while the direction of the thread is not known, and when a measure the push needs is
 * missing. Throws RangeError for figures that cannot be.
 */
export function breakLoose(task: BreakLooseTask): BreakLoose | Refusal {
  const { bar, way, stand, lockBar, thread } = task;
  requireMeasure('bar', bar);
  const undo = undoTorque(task.undo);
  if (thread === null)
    return refuse(
      'Which way this thread runs is not entered: look it up before any bar is put on, a left-hand one is only tightened by pulling harder.',
    );
  const force = handForce(undo.plan, bar);
  const tip = stand ? tipSafety(stand, force, way) : null;
  if (tip && !tip.ok) return tip;
  const safety = tip?.safety ?? null;
  const safeBar = tip?.most ? armFor(undo.plan, tip.most) : null;
  const teeth = lockBar
    ? { load: toothLoad(undo.plan, lockBar.teeth, lockBar.pitch), share: chainShare(undo.plan, lockBar) }
    : null;
  const limits = [
    tip?.most ? tip.most * bar : Number.POSITIVE_INFINITY,
    teeth ? (undo.plan * CHAIN_SHARE_MOST) / teeth.share : Number.POSITIVE_INFINITY,
  ];
  const stopAt = Math.min(...limits) < Number.POSITIVE_INFINITY ? Math.min(...limits) : null;
  const cautions: Caution[] = [];
  const caution = (id: CautionId, stops: boolean, words: string) => cautions.push({ id, stops, words });
  if (thread === 'left') caution('left-hand', false, 'Left-hand thread: it comes off clockwise.');
  if (tip && safety !== null && safeBar !== null && !tip.enough)
    caution(
      'tips',
      true,
      `The push holds a safety of only ${sayTimesOver(safety)} against tipping, and ${SAFETY_ASKED} is asked: use a bar of ${sayLength(safeBar)} or longer, push down, and tie the bike down.`,
    );
  if (stand && way === 'sideways')
    caution(
      'sideways',
      true,
      'Never push sideways on a bike on its lift: turn the bar so that the push goes down.',
    );
  if (stand && way === 'along' && !task.wheelsHeld)
    caution('rolls', true, 'A push along the bike can roll it off: chock or clamp the wheels first.');
  if (stand && !task.tiedDown) caution('tie-down', false, 'Tie the bike down on both sides first.');
  if (force > PUSH_GUIDE * (1 + 1e-9))
    caution(
      'hard-push',
      false,
      `${sayForce(force)} is more than the ${sayForce(PUSH_GUIDE)} that one hand pushes steadily: a bar of ${sayLength(armFor(undo.plan))} needs no more.`,
    );
  if (teeth && teeth.share > CHAIN_SHARE_MOST * (1 + 1e-9))
    caution(
      'chain',
      true,
      `The lock bar loads the chain to ${sayShare(teeth.share)} of its strength, and ${sayShare(CHAIN_SHARE_MOST)} is the most: hold the drive another way.`,
    );
  if (stopAt !== null && stopAt >= undo.plan && stopAt < undo.torque.high)
    caution(
      'stop',
      false,
      `It may take up to ${sayEstimate({ low: undo.torque.high, high: undo.torque.high })}: stop at ${sayTorque(stopAt)}, ${sayForce(stopAt / bar)} on this bar, and use heat or another hold instead.`,
    );
  if (teeth)
    caution('lock-place', false, 'Steel bar on the tooth roots only, never on rotor, stator or casting.');
  if (task.undo.locker === 'high' && !task.undo.heated) {
    const { low, high } = LOCKER_UNDO_HEAT;
    if (task.nearMagnetOrSeal)
      caution(
        'no-heat',
        false,
        'No heat here: a magnet or a seal is near; go by force, slowly, with the longer bar.',
      );
    else
      caution(
        'heat',
        false,
        `High-strength locker: warm the nut to about ${low}–${high} °C first, then less is needed.`,
      );
  }
  return {
    ok: true,
    undo,
    turn: thread === 'right' ? 'counter-clockwise' : 'clockwise',
    force,
    easyBar: armFor(undo.plan),
    safety,
    safeBar,
    stopAt,
    teeth,
    safe: cautions.every(({ stops }) => !stops),
    cautions,
    words: `About ${sayEstimate(undo.torque)}, an estimate; be ready for ${sayTorque(undo.plan)}, which is ${sayForce(force)} on a bar of ${sayLength(bar)}.`,
  };
}

function sayTimesOver(safety: number): string {
  return safety.toFixed(safety < 10 ? 2 : 0);
}
