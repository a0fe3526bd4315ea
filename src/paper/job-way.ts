/** The work of a job for paper: every step in order with what is done of it, what it takes, and the dip as it was planned. */
import { drawDip } from '../draw/dip.ts';
import { dipOfPlan } from '../draw/dip-of-plan.ts';
import type { SvgNode } from '../draw/svg.ts';
import type { JobState } from '../job/fold.ts';
import type { WayChoice, WayState } from '../job/way-fold.ts';
import { askWay } from '../job/way-request.ts';
import type { Machine, Part } from '../machine/definition.ts';
import { newParts } from '../machine/new-parts.ts';
import { workOf } from '../machine/work.ts';
import { doneSteps } from '../way/done-steps.ts';
import { planJob } from '../way/plan.ts';
import { planClock } from '../way/plan-clock.ts';
import type { Plan, PlanRequest, PlanStep } from '../way/plan-shape.ts';
import { afterEvent } from '../way/replan.ts';
import { type Shopping, shoppingOf } from '../way/shopping.ts';

export interface JobWay {
  readonly ok: true;
  /** What is got to: "stator". */
  readonly targets: readonly string[];
  /** Done first, in the order in which it was done, then what is still to do. */
  readonly steps: readonly PlanStep[];
  /** Ids of what is done or runs. */
  readonly done: ReadonlySet<string>;
  readonly shopping: Shopping;
  readonly fresh: readonly Part[];
  /** As planned before the first spanner; null where that plan cannot be made. */
  readonly dip: SvgNode | null;
}
export type JobWayOrNot = JobWay | { readonly ok: false; readonly why: string };

/** The hours of the dip count from the beginning of the work: when somebody works is nobody's business. */
const FROM_NOUGHT = 0;

/** The way of a job. `nowMs`: the caller's clock, ms since 1970. */
export function wayOfJob(state: JobState, machine: Machine, nowMs: number): JobWayOrNot {
  const work = workOf(machine, new Date(nowMs).getUTCFullYear());
  if (!work)
    return {
      ok: false,
      why: 'The machine file says nothing of the way in: it has no section “work”, so there are no steps here.',
    };
  const choice = choiceOf(state, work.targets, nowMs);
  const chosen = work.targets.filter(({ id }) => choice.targets.includes(id));
  if (chosen.length === 0)
    return {
      ok: false,
      why: 'Nobody has chosen yet what is to be got to: choose it at the station Way in, then the steps stand here.',
    };
  const asked = asksFor(state.way, choice, nowMs, work);
  if (!asked.ok) return asked;
  const planned = planJob(asked.request);
  if (!planned.ok) return { ok: false, why: planned.says };
  const plan = planOf(planned, choice);
  const ahead = new Set(plan.steps.map(({ id }) => id));
  const behind = doneSteps(asked.request.work, asked.did).filter(({ id }) => !ahead.has(id));
  const steps = [...behind, ...plan.steps];
  return {
    ok: true,
    targets: chosen.map(({ name }) => name),
    steps,
    done: new Set(asked.did.map(({ id }) => id)),
    shopping: shoppingOf({ steps }, asked.request.work),
    fresh: newParts(work.targets, choice.targets),
    dip: dipBefore(choice, work),
  };
}

function choiceOf(
  { way, accepted, opened }: JobState,
  targets: readonly { readonly id: string; readonly repairs: readonly string[] }[],
  nowMs: number,
): WayChoice {
  if (way.chosen) return way.chosen;
  // As the station proposes it while nobody has chosen.
  const wanted = (accepted?.repairs ?? []).filter((line) => line.worthDoing || line.whileOpen === true);
  return {
    targets: targets
      .filter(({ repairs }) => wanted.some(({ repair }) => repairs.includes(repair)))
      .map(({ id }) => id),
    people: 1,
    startsAt: opened?.at ?? new Date(nowMs).toISOString(),
    nights: false,
    aim: 'least',
    leave: [],
    km: null,
  };
}

type Work = NonNullable<ReturnType<typeof workOf>>;

/** What is planned for: where the bike is, with all that jams. */
function asksFor(
  way: Pick<WayState, 'ticks' | 'troubles'>,
  choice: WayChoice,
  nowMs: number,
  work: Work,
):
  | { readonly ok: true; readonly request: PlanRequest; readonly did: NonNullable<PlanRequest['now']>['did'] }
  | { readonly ok: false; readonly why: string } {
  // Which hours of the night are shut decides when, not what: paper tells what.
  const asked = askWay(work, { ...choice, nights: false }, way, { nowMs, startsAt: FROM_NOUGHT });
  if ('ok' in asked) return { ok: false, why: asked.says };
  const { before, event, now } = asked;
  if (event === null) return { ok: true, request: before, did: now.did };
  const next = afterEvent({ ...before, now }, event);
  if ('ok' in next) return { ok: false, why: next.says };
  return { ok: true, request: next, did: now.did };
}

function planOf(answer: { readonly least: Plan; readonly earliest: Plan }, { aim }: WayChoice): Plan {
  return aim === 'earliest' ? answer.earliest : answer.least;
}

function dipBefore(choice: WayChoice, work: Work): SvgNode | null {
  const nowMs = Date.parse(choice.startsAt);
  const asked = asksFor({ ticks: [], troubles: [] }, choice, nowMs, work);
  if (!asked.ok) return null;
  const planned = planJob(asked.request);
  if (!planned.ok) return null;
  const plan = planOf(planned, choice);
  return drawDip(dipOfPlan(plan, work, planClock(plan, work), FROM_NOUGHT), 'wide');
}
