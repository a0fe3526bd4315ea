/**
 * From the book's torque to the mark on a wrench: drag added, adapter taken off, the nearest mark, what the screw then
 * gets and how sure that is; and which of the wrenches at hand does it best.
 */
import { judgePush, type Push } from './hand-force.ts';
import { requireMeasure, requireMeasureOrNought, requireMeasures } from './measure.ts';
import { type Interval, type Refusal, refuse, requireWithin } from './require.ts';
import { sayShare, sayTorque, sayTorques } from './say.ts';
import { type Lever, leverReach } from './wrench.ts';
import {
  type Mark,
  nearestMarks,
  type RangePlace,
  rangePlace,
  type Scale,
  wrenchAccuracy,
} from './wrench-scale.ts';

export interface Wrench {
  readonly name: string;
  /** N·m. */
  readonly fullScale: number;
  /** Middle of the grip to the drive, m; left out where it was not measured, and then no adapter goes on it. */
  readonly length?: number;
  /** Its scales, one or two; the setting is taken as it is when none is given. */
  readonly scales?: readonly Scale[];
  /** First figure of its range, N·m; 0 when not given. */
  readonly lowest?: number;
  /** Its own error by its sheet, share of the setting; by its full scale when not given. */
  readonly accuracy?: number;
}

export interface WrenchTask {
  /** Torque the screw shall get beyond its drag, N·m. */
  readonly torque: number;
  /** Torque that turns the screw before it seats (locking nut, tight thread), N·m; 0 when not given. */
  readonly drag?: number;
  /** What the book allows, N·m; when given it is told whether the wrench's own error stays within. */
  readonly allowed?: Interval;
  readonly adapter?: Lever['adapter'];
  readonly angle?: Lever['angle'];
}

export interface WrenchPlan {
  readonly ok: true;
  readonly wrench: Wrench;
  /** Torque and drag together, at the screw, N·m. */
  readonly target: number;
  /** What the wrench would have to be set to exactly, N·m. */
  readonly set: number;
  /** Nearest mark on each scale, the nearest first; empty for a wrench without scales. */
  readonly marks: readonly Mark[];
  /** What the screw gets beyond its drag at the first mark, with the wrench's own error, N·m. */
  readonly torque: Interval;
  /** What rounding to the mark does to the torque, share of it, signed. */
  readonly rounding: number;
  /** The wrench's own error, share of the setting. */
  readonly accuracy: number;
  readonly range: RangePlace;
  /** Torque at the screw over setting, dimensionless. */
  readonly factor: number;
  /** null where the length of the wrench is not known. */
  readonly push: Push | null;
  readonly cautions: readonly string[];
}

/** Rounding beyond this share of the torque is told: the wrench's own error is no smaller. */
const COARSE = 0.04;
/** Drag beyond this share of the torque is told. */
const MUCH_DRAG = 0.5;

/**
 * Plans one torque on one wrench. Refuses what the adapter, the range or the scales cannot do, in one sentence. Throws
 * RangeError for a torque not above 0, drag below 0 and lengths that cannot be.
 */
export function planWrench(task: WrenchTask, wrench: Wrench): WrenchPlan | Refusal {
  const { torque, drag = 0, allowed } = task;
  requireMeasure('torque', torque);
  requireMeasureOrNought('drag', drag);
  if (allowed) requireMeasures('allowed', allowed);
  const reach = reachOf(task, wrench);
  if (!reach.ok) return reach;
  const target = torque + drag;
  const set = target / reach.factor;
  const range = rangePlace(set, wrench.fullScale);
  if (!range.ok) return range;
  // A hair of rounding must not push a setting that stands on the first mark off it.
  if (set < (wrench.lowest ?? 0) * (1 - 1e-9))
    return refuse(
      `${sayTorque(set)} is below the first figure of this wrench, ${sayTorque(wrench.lowest!)}: take a smaller wrench.`,
    );
  const found = wrench.scales ? nearestMarks(set, wrench.scales) : null;
  if (found && !found.ok) return found;
  const marks = found ? found.marks : [];
  const dialled = marks[0]?.set ?? set;
  const accuracy = wrench.accuracy ?? wrenchAccuracy(wrench.fullScale);
  requireWithin('accuracy', accuracy, 0, 1);
  const middle = dialled * reach.factor - drag;
  const spread = dialled * reach.factor * accuracy;
  const got = { low: Math.max(0, middle - spread), high: middle + spread };
  const rounding = middle / torque - 1;
  const push = wrench.length === undefined ? null : judgePush(dialled, wrench.length);
  const cautions = [
    range.place === 'usable'
      ? `The setting is ${sayShare(range.share)} of full scale: usable, but 30–80 % is the best range.`
      : '',
    Math.abs(rounding) > COARSE
      ? `The nearest mark gives ${sayTorque(middle)}, ${sayShare(Math.abs(rounding))} ${rounding > 0 ? 'above' : 'below'} what is wanted: a wrench with finer marks is better.`
      : '',
    drag > MUCH_DRAG * torque
      ? `The drag, ${sayTorque(drag)}, is ${sayShare(drag / torque)} of the torque: look for a damaged or dirty thread unless the nut is meant to lock.`
      : '',
    push && !push.easy ? push.words : '',
    allowed && (got.low < allowed.low || got.high > allowed.high)
      ? `The wrench's own error, ±${sayShare(accuracy)}, makes it ${sayTorques(got)}, and the book allows ${sayTorques(allowed)}.`
      : '',
  ].filter((caution) => caution !== '');
  const { factor } = reach;
  return {
    ok: true,
    wrench,
    target,
    set,
    marks,
    torque: got,
    rounding,
    accuracy,
    range,
    factor,
    push,
    cautions,
  };
}

/** The lever of a task on a wrench; without an adapter the length of the wrench changes nothing. */
function reachOf({ adapter = 0, angle }: WrenchTask, { length }: Wrench): ReturnType<typeof leverReach> {
  if (length === undefined && adapter > 0)
    return refuse(
      'An adapter goes on it and its length is not known: measure from the middle of the grip to the drive.',
    );
  return leverReach({ length: length ?? 1, adapter, ...(angle === undefined ? {} : { angle }) });
}

export interface WrenchChoice {
  readonly ok: true;
  readonly best: WrenchPlan;
  /** The others that can do it, better first. */
  readonly others: readonly WrenchPlan[];
  /** Those that cannot, and why. */
  readonly unfit: readonly { readonly wrench: Wrench; readonly why: string }[];
}

/** Best range first, then the smaller total error, then the easier push. */
function better(a: WrenchPlan, b: WrenchPlan): number {
  const rank = ({ range }: WrenchPlan) => (range.place === 'best' ? 0 : 1);
  const error = ({ accuracy, rounding }: WrenchPlan) => accuracy + Math.abs(rounding);
  const byError = error(a) - error(b);
  return (
    rank(a) - rank(b) || (Math.abs(byError) > 1e-9 ? byError : (a.push?.force ?? 0) - (b.push?.force ?? 0))
  );
}

export interface WrenchesTried {
  /** Those that can do it, the best first. */
  readonly plans: readonly WrenchPlan[];
  /** Those that cannot, and why, in the order given. */
  readonly unfit: WrenchChoice['unfit'];
}

/** Every wrench at hand tried on one task. Throws RangeError as `planWrench` does. */
export function tryWrenches(task: WrenchTask, wrenches: readonly Wrench[]): WrenchesTried {
  const tried = wrenches.map((wrench) => ({ wrench, plan: planWrench(task, wrench) }));
  return {
    plans: tried.flatMap(({ plan }) => (plan.ok ? [plan] : [])).sort(better),
    unfit: tried.flatMap(({ wrench, plan }) => (plan.ok ? [] : [{ wrench, why: plan.why }])),
  };
}

/** Which wrench at hand does a torque best. Refuses when none does, with the reason of the one that comes nearest. */
export function chooseWrench(task: WrenchTask, wrenches: readonly Wrench[]): WrenchChoice | Refusal {
  if (wrenches.length === 0) return refuse('No torque wrench is entered: enter the ones at hand.');
  const { plans, unfit } = tryWrenches(task, wrenches);
  const [best, ...others] = plans;
  if (best) return { ok: true, best, others, unfit };
  const target = task.torque + (task.drag ?? 0);
  // Half of full scale is the middle of every wrench.
  const miss = ({ fullScale }: Wrench) => Math.abs(Math.log(target / (0.5 * fullScale)));
  const near = [...unfit].sort((a, b) => miss(a.wrench) - miss(b.wrench))[0]!;
  return refuse(
    `No wrench at hand does ${sayTorque(target)}; the nearest is ${near.wrench.name}: ${near.why}`,
  );
}
