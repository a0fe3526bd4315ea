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
import { didFrom, type Tick } from '../way/did-from.ts';
import { doneSteps } from '../way/done-steps.ts';
import { planJob } from '../way/plan.ts';
import { planClock } from '../way/plan-clock.ts';
import type { Plan, PlanStep } from '../way/plan-shape.ts';
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
  const fresh = planFor({ ticks: [], troubles: [] }, choice, Date.parse(choice.startsAt), work);
  const untouched = state.way.ticks.length + state.way.troubles.length === 0;
  const here = untouched ? fresh : planFor(state.way, choice, nowMs, work);
  // Where somebody forgot to tick there is no plan from here; the one from the beginning still has every step.
  const found = here.ok ? here : fresh;
  if (!found.ok) return found;
  const did = didFrom(found.work, ticksOf(state.way)).did;
  const done = new Set(did.map(({ id }) => id));
  const ahead = found.plan.steps.filter(({ id }) => here.ok || !done.has(id));
  const planned = new Set(ahead.map(({ id }) => id));
  const steps = [...doneSteps(found.work, did).filter(({ id }) => !planned.has(id)), ...ahead];
  return {
    ok: true,
    targets: chosen.map(({ name }) => name),
    steps,
    done,
    shopping: shoppingOf({ steps }, found.work),
    fresh: newParts(work.targets, choice.targets),
    dip: fresh.ok
      ? drawDip(dipOfPlan(fresh.plan, fresh.work, planClock(fresh.plan, fresh.work), FROM_NOUGHT), 'wide')
      : null,
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

/** The plan from where the bike is, with all that jams; or why there is none. */
function planFor(
  way: Pick<WayState, 'ticks' | 'troubles'>,
  choice: WayChoice,
  nowMs: number,
  work: Work,
):
  | { readonly ok: true; readonly plan: Plan; readonly work: Work }
  | { readonly ok: false; readonly why: string } {
  // Which hours of the night are shut decides when, not what: paper tells what.
  const asked = askWay(work, { ...choice, nights: false }, way, { nowMs, startsAt: FROM_NOUGHT });
  if ('ok' in asked) return { ok: false, why: asked.says };
  const { before, event, now } = asked;
  const request = event === null ? before : afterEvent({ ...before, now }, event);
  if ('ok' in request) return { ok: false, why: request.says };
  const answer = planJob(request);
  if (!answer.ok) return { ok: false, why: answer.says };
  return { ok: true, plan: choice.aim === 'earliest' ? answer.earliest : answer.least, work: request.work };
}

/** Ticks in minutes of any clock: only their order counts here. */
function ticksOf({ ticks }: Pick<WayState, 'ticks'>): readonly Tick[] {
  const minute = (iso: string | null) => (iso === null ? null : Date.parse(iso) / 60_000);
  return ticks.map(({ step, begun, done }) => ({ id: step, begun: minute(begun), done: minute(done) }));
}
