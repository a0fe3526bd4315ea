/**
 * What a deviation means the next time the joint is opened, or before: a locker that is too strong, too weak or
 * forgotten, a torque that was not the one wanted. Every answer is a sentence with its figures. Torques in N·m, lengths
 * in m. All of it rests on friction and films, so it is an estimate; the book wins.
 */
import { LOCKER_UNDO_HEAT, type LockerStrength } from './locker.ts';
import { requireMeasure, requireMeasures } from './measure.ts';
import type { Interval } from './require.ts';
import { sayEstimate, sayShare, sayTorque, sayTorques } from './say.ts';
import { type UndoCase, type UndoTorque, undoTorque } from './undo-torque.ts';

/** Of a screw's breaking torque, from this share on it may be stretched for good, dimensionless: common practice, no source. */
export const STRETCHED_FROM = 0.8;
/** Of a hole's stripping torque, from this share on its thread is in doubt, dimensionless: this project's rule. */
export const STRIPPED_FROM = 0.67;
/** A torque within this share of the wanted one is taken as met where the book gives no limits, dimensionless: common practice, no source. */
export const MET_WITHIN = 0.1;

export type Outcome = 'safe' | 'may-break' | 'breaks';

export interface UndoStrength {
  readonly undo: UndoTorque;
  /** Torque to undo over torque that breaks the screw, dimensionless. */
  readonly share: Interval;
  readonly outcome: Outcome;
  /** The same with the locker at its undoing heat; null where there is no locker. */
  readonly heated: { readonly undo: UndoTorque; readonly share: Interval; readonly outcome: Outcome } | null;
  /** Heat that is needed to undo it safely, °C; null where it comes off cold, or heat does not help. */
  readonly heat: Interval | null;
  /** One sentence. */
  readonly words: string;
}

export interface HeldScrew {
  readonly undo: UndoCase;
  /** Torque that breaks the screw, N·m. */
  readonly breaking: Interval;
  /** The hole is in aluminium. */
  readonly inAluminium?: boolean;
  readonly nearMagnetOrSeal?: boolean;
}

function against(
  undo: UndoTorque,
  breaking: Interval,
): { readonly share: Interval; readonly outcome: Outcome } {
  const share = { low: undo.torque.low / breaking.high, high: undo.torque.high / breaking.low };
  const outcome = share.high < 1 ? 'safe' : share.low < 1 ? 'may-break' : 'breaks';
  return { share, outcome };
}

/** Torque to undo a screw against its own strength. Throws RangeError as `undoTorque` does, and for a breaking torque not above 0. */
export function undoStrength({
  undo: task,
  breaking,
  inAluminium,
  nearMagnetOrSeal,
}: HeldScrew): UndoStrength {
  requireMeasures('breaking', breaking);
  const undo = undoTorque(task);
  const { share, outcome } = against(undo, breaking);
  const hot = task.locker ? undoTorque({ ...task, heated: true }) : null;
  const heated = hot ? { undo: hot, ...against(hot, breaking) } : null;
  const heat = outcome !== 'safe' && heated && heated.share.high < share.high ? LOCKER_UNDO_HEAT : null;
  const takes = `To undo it takes about ${sayEstimate(undo.torque)}, and the screw breaks at ${sayTorques(breaking)}`;
  const breaks =
    outcome === 'safe'
      ? 'it comes off cold'
      : outcome === 'may-break'
        ? 'it may break off'
        : 'it will break off';
  const words = [
    `${takes}: ${breaks}${outcome !== 'safe' && inAluminium ? ' in the aluminium, and must then be drilled out' : ''}.`,
    heat && heated
      ? `Warmed to about ${heat.low}–${heat.high} °C it takes ${sayEstimate(heated.undo.torque)}${heated.outcome === 'safe' ? '' : ', and may still break'}${inAluminium ? '; aluminium carries the heat away, so it takes longer' : ''}.`
      : '',
    heat && nearMagnetOrSeal
      ? 'A magnet or a seal is near: take it out of the way first, or there can be no heat.'
      : '',
  ];
  return { undo, share, outcome, heated, heat, words: words.filter((part) => part !== '').join(' ') };
}

export interface Consequence {
  /** 'next-time': it holds, and matters when it is opened. 'redo': it must be done again. */
  readonly severity: 'none' | 'next-time' | 'redo';
  /** One or more sentences with the figures. */
  readonly words: string;
}

const RANK: Readonly<Record<LockerStrength | 'none', number>> = { none: 0, low: 1, medium: 2, high: 3 };

function named(locker: LockerStrength | null): string {
  return locker ? `${locker}-strength locker` : 'no locker';
}

export interface LockerConsequence extends Consequence {
  /** The same without what it takes to undo it, for where that is told beside it. */
  readonly brief: string;
}

/** A locker other than the wanted one, or none. `screw.undo.locker` is the one used; throws RangeError as `undoStrength` does. */
export function lockerDeviation(screw: HeldScrew, wanted: LockerStrength | null): LockerConsequence {
  const used = screw.undo.locker;
  const is = undoStrength(screw);
  const meant = undoTorque({ ...screw.undo, locker: wanted });
  const [rank, aim] = [RANK[used ?? 'none'], RANK[wanted ?? 'none']];
  const told = (severity: Consequence['severity'], before: string, after = ''): LockerConsequence => ({
    severity,
    words: `${before} ${is.words}${after}`,
    brief: `${before}${after}`,
  });
  if (rank === aim) return told('none', `As wanted: ${named(used)}.`);
  if (rank < aim) {
    const words = `${used ? `It has ${named(used)}` : 'The locker was forgotten'}, and ${named(wanted)} is wanted: it comes loose at ${sayEstimate(is.undo.torque)} instead of ${sayEstimate(meant.torque)} and can shake out. Take it out, clean both threads, and fit it with ${named(wanted)}.`;
    return { severity: 'redo', words, brief: words };
  }
  const before = `It has ${named(used)}, and ${named(wanted)} is wanted, which would come off at ${sayEstimate(meant.torque)}.`;
  return is.outcome === 'breaks'
    ? told('redo', before, ' Take it out now, before the locker sets.')
    : told('next-time', before);
}

export interface TorqueUsed {
  /** What the screw got, N·m. */
  readonly used: number;
  readonly wanted: number;
  /** What the book allows, N·m; else within 10 % is taken as met. */
  readonly allowed?: Interval;
  /** Torque that breaks the screw, N·m. */
  readonly breaking?: Interval;
  /** Torque that strips the hole, N·m. */
  readonly stripping?: Interval;
}

/** A torque other than the wanted one. Throws RangeError for torques not above 0. */
export function torqueDeviation({ used, wanted, allowed, breaking, stripping }: TorqueUsed): Consequence {
  requireMeasure('used', used);
  requireMeasure('wanted', wanted);
  if (allowed) requireMeasures('allowed', allowed);
  if (breaking) requireMeasures('breaking', breaking);
  if (stripping) requireMeasures('stripping', stripping);
  const { low, high } = allowed ?? { low: wanted * (1 - MET_WITHIN), high: wanted * (1 + MET_WITHIN) };
  const ratio = used / wanted;
  const got = `It got ${sayTorque(used)}, and ${sayTorque(wanted)} is wanted`;
  if (used >= low * (1 - 1e-9) && used <= high * (1 + 1e-9))
    return { severity: 'none', words: `${got}: that is met.` };
  const clamp = `so it clamps with about ${sayShare(ratio)} of what is meant (the same friction taken for both)`;
  if (used < low)
    return {
      severity: 'redo',
      words: `${got}, ${clamp} and can work loose. Set it again before a locker sets; once it has set, take it out, clean it and start anew.`,
    };
  const harm = [
    breaking && used >= STRETCHED_FROM * breaking.low
      ? `that is ${sayShare(used / breaking.low)} of the torque that may break it, ${sayTorques(breaking)}, so it may be stretched: fit a new screw`
      : '',
    stripping && used >= STRIPPED_FROM * stripping.low
      ? `that is ${sayShare(used / stripping.low)} of the torque that may strip the hole, ${sayTorques(stripping)}: take it out and look at the thread`
      : '',
  ].filter((part) => part !== '');
  if (harm.length > 0) return { severity: 'redo', words: `${got}; ${harm.join('; ')}.` };
  const known = [breaking ? 'the screw' : '', stripping ? 'the hole' : ''].filter((part) => part !== '');
  return {
    severity: 'redo',
    words: `${got}, ${clamp}${known.length > 0 ? `; that does not yet hurt ${known.join(' or ')}` : '; whether screw and hole bore it is not known here'}. Back it off and set it again; with a locker on, take it out and start anew.`,
  };
}
