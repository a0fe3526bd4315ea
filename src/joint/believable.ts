/**
 * Whether a torque that somebody entered can be meant: held against the proof load of the screw and the strength of the
 * tapped thread. It says impossible, danger or low, and which unit may have been meant; it never corrects anything.
 * Thresholds are this project's proposal. Friction is carried as K at its highest, at 0.2 and at its lowest.
 */
import { type Friction, frictionById } from './friction.ts';
import { gradeById, type Strength, strengthOf } from './grade.ts';
import type { Material } from './material.ts';
import { type Interval, requirePositive, requirePositiveInterval } from './require.ts';
import { sayShare, sayTorques } from './say.ts';
import { internalShearArea } from './strip.ts';
import { stressArea, type Thread } from './thread.ts';
import { type TorqueUnit, type UnitHint, USUAL_K, unitHints } from './unit-hint.ts';

/** Share of the proof load that is dangerous at the lowest friction, dimensionless. */
export const DANGER_PROOF = 0.9;
/** Share of the tapped thread's strength that is dangerous at the lowest friction, dimensionless. */
export const DANGER_STRIP = 0.67;
/** Share of the proof load below which a torque clamps next to nothing, dimensionless, at the lowest friction. */
export const LOW_PROOF = 0.1;
export interface EnteredTorque {
  /** Torque as entered, N·m; both ends equal for a single figure. */
  readonly torque: Interval;
  /** Unit it was entered in; null for any other, which no hint is given for. */
  readonly unit: TorqueUnit | null;
  readonly thread: Thread;
  /** Null where the grade is not known: then the strongest decides what is too much, the weakest what is too little. */
  readonly strength: Strength | null;
  /** What the thread is tapped into; null where not known. */
  readonly material: Material | null;
  /** Engagement Le, m; null where not known. */
  readonly engaged: number | null;
  /** Nut factor it is judged with; that of `judgingNutFactor` for an unknown condition when not given: 0.17–0.30. */
  readonly k?: Interval;
}

/** A share at the highest friction, at K = 0.2 and at the lowest friction. */
export interface Shares {
  readonly least: number;
  readonly usual: number;
  readonly most: number;
}

export interface Judgement {
  readonly verdict: 'impossible' | 'danger' | 'low' | 'fits';
  /** What the verdict rests on: proof load of the screw, strength of the tapped thread. Empty when it fits. */
  readonly because: readonly ('proof' | 'strip')[];
  /** u: share of the proof load. With no grade known, that of the strongest screw. */
  readonly proof: Shares;
  /** s: share of the tapped thread's strength; null without material or engagement. */
  readonly strip: Shares | null;
  readonly gradeKnown: boolean;
  /** Units that may have been meant, likeliest first. */
  readonly hints: readonly UnitHint[];
  /** What was found, with the figures, and what to look up. */
  readonly says: string;
}

/** Least nut factor that a torque is judged with, dimensionless. This project's proposal. */
const JUDGING_FLOOR = 0.17;

/**
 * Nut factors with which to judge an entered torque: those of its condition, but none below 0.17 unless all are. Books
 * set torques for three quarters of the proof load at K = 0.2, and often mean them for oil or locker too: at K = 0.12
 * every such torque (25 N·m on an M8 of class 8.8) would be called dangerous.
 */
export function judgingNutFactor(friction: Friction): Interval {
  const { low, high } = friction.k;
  return { low: Math.min(high, Math.max(low, JUDGING_FLOOR)), high };
}

interface Strengths {
  readonly strongest: Strength;
  readonly usual: Strength;
  readonly weakest: Strength;
}

function strengthsOf(thread: Thread, strength: Strength | null): Strengths {
  if (strength) return { strongest: strength, usual: strength, weakest: strength };
  const inch = thread.system === 'inch';
  // Beyond M39 or 1 1/2 in no grade is tabled; the figures of the largest size stand in.
  const diameter = Math.min(thread.diameter, inch ? 0.0381 : 0.039);
  const named = (id: string) => {
    const found = strengthOf(gradeById(id), diameter);
    if (!found.ok) throw new RangeError(`thread must be within the tables of grades, got ${thread.name}`);
    return found.strength;
  };
  return {
    strongest: named(inch ? 'a574' : '12.9'),
    usual: named(inch ? 'j429-5' : '8.8'),
    weakest: named(inch ? 'j429-2' : '4.6'),
  };
}

function shares(torque: number, thread: Thread, load: number, k: Interval): Shares {
  const at = (factor: number) => torque / (factor * thread.diameter * load);
  return { least: at(k.high), usual: at(USUAL_K), most: at(k.low) };
}

const STRIPS = 'of what the tapped thread bears';

/**
 * Judges an entered torque; a range by its high end. Throws RangeError for a torque, engagement or K not above 0.
 * IMPOSSIBLE: over the proof load, or over the strength of the tapped thread, even at the highest friction. DANGER: over
 * 90 % or 67 % of them at the lowest. LOW: under 10 % of the proof load at the lowest.
 */
export function judgeTorque(entry: EnteredTorque): Judgement {
  const {
    torque,
    thread,
    strength,
    material,
    engaged,
    k = judgingNutFactor(frictionById('unknown')),
  } = entry;
  requirePositiveInterval('torque', torque);
  requirePositiveInterval('k', k);
  if (engaged !== null) requirePositive('engaged', engaged);
  const area = stressArea(thread);
  const { strongest, usual, weakest } = strengthsOf(thread, strength);
  const proof = shares(torque.high, thread, area * strongest.proof, k);
  const strip =
    material && engaged !== null
      ? shares(torque.high, thread, internalShearArea(thread, engaged) * material.shearUsual, k)
      : null;
  const low = shares(torque.high, thread, area * weakest.proof, k).most < LOW_PROOF;

  const over = (share: (of: Shares) => number, proofLimit: number, stripLimit: number) => [
    ...(share(proof) > proofLimit ? (['proof'] as const) : []),
    ...(strip && share(strip) > stripLimit ? (['strip'] as const) : []),
  ];
  const impossible = over((of) => of.least, 1, 1);
  const danger = over((of) => of.most, DANGER_PROOF, DANGER_STRIP);

  // With no grade known a hint would rest on a guess, so a torque that fits is left alone.
  const fits = impossible.length === 0 && danger.length === 0 && !low;
  const hints = fits && !strength ? [] : unitHints(torque, entry.unit, thread, area * usual.proof);

  const what = `${sayTorques(torque)} on ${thread.name}, ${strength?.name ?? 'grade not known'}`;
  const whose = strength
    ? "of the screw's proof load"
    : `of the proof load of even the strongest screw (${strongest.name})`;
  const figures = (causes: readonly ('proof' | 'strip')[], share: (of: Shares) => number) =>
    causes
      .map((cause) =>
        cause === 'proof' ? `${sayShare(share(proof))} ${whose}` : `${sayShare(share(strip!))} ${STRIPS}`,
      )
      .join(' and ');
  const end = [
    'Look up torque, unit, thread and grade; this is an estimate, the book wins.',
    ...hints.map((h) => h.says),
  ];
  const tell = (verdict: Judgement['verdict'], because: Judgement['because'], found: string): Judgement => ({
    verdict,
    because,
    proof,
    strip,
    gradeKnown: strength !== null,
    hints,
    says: [`${what}: ${found}`, ...(verdict === 'fits' && hints.length === 0 ? [] : end)].join(' '),
  });

  if (impossible.length > 0) {
    const found = figures(impossible, ({ least }) => least);
    return tell(
      'impossible',
      impossible,
      `impossible, even at the highest friction (K = ${k.high}) that is ${found}.`,
    );
  }
  if (danger.length > 0) {
    const found = figures(danger, ({ most }) => most);
    return tell('danger', danger, `danger, at the lowest friction (K = ${k.low}) that is ${found}.`);
  }
  if (low) {
    const found = `${sayShare(shares(torque.high, thread, area * weakest.proof, k).most)} of the proof load${strength ? '' : ` of even the weakest screw (${weakest.name})`}`;
    return tell('low', ['proof'], `low, even at the lowest friction (K = ${k.low}) that is ${found}.`);
  }
  return tell(
    'fits',
    [],
    `fits, ${sayShare(proof.least)} to ${sayShare(proof.most)} ${strength ? "of the screw's proof load" : whose.replace('even ', '')}.`,
  );
}
