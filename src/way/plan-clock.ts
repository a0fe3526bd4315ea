/** The clock of a plan: its steps' times from the work, and what the clock says of its steps. */
import { type Clock, runClock } from './clock.ts';
import type { ClockOptions, Uncertain } from './draw-times.ts';
import type { Plan, PlanStep } from './plan-shape.ts';
import type { Spread, Work } from './work.ts';

const SURE = (minutes: number): Uncertain => ({ minutes: { low: minutes, likely: minutes, high: minutes } });

/**
 * What is uncertain of each task of a plan's project. What runs already ends when the plan says; what was found seized
 * takes what was said for it, and is no chance any more.
 */
export function uncertainOf(plan: Plan, work: Work): Uncertain[] {
  const actions = new Map(work.actions.map((action) => [action.id, action]));
  const steps = new Map(plan.steps.map((step) => [step.id, step]));
  const more = new Map<string, number>();
  for (const { action, adds } of plan.stuck)
    if (adds !== 'never') more.set(action, (more.get(action) ?? 0) + adds);
  return plan.project.tasks.map((task, t) => {
    const step = t === 0 ? undefined : steps.get(plan.order[t - 1] ?? '');
    if (!step || step.start < plan.at) return SURE(task.duration);
    if (step.step) return { minutes: step.step.minutes };
    const action = actions.get(step.action ?? '');
    if (!action) return SURE(task.duration);
    const adds = more.get(action.id);
    if (adds !== undefined) return { minutes: longer(action.minutes, adds) };
    return action.seizes ? { minutes: action.minutes, seizes: action.seizes } : { minutes: action.minutes };
  });
}

function longer({ low, likely, high }: Spread, by: number): Spread {
  return { low: low + by, likely: likely + by, high: high + by };
}

/** Starts of a plan's tasks, min from when it was made. */
export function startsOf(plan: Plan): number[] {
  const steps = new Map(plan.steps.map((step) => [step.id, step]));
  return plan.project.tasks.map((_, t) => {
    const step = t === 0 ? undefined : steps.get(plan.order[t - 1] ?? '');
    return step ? Math.max(0, step.start - plan.at) : 0;
  });
}

/** A plan's clock with what it says of the plan's own steps; times in min from the start of the job. */
export interface PlanClock {
  readonly clock: Clock;
  readonly p50: number;
  readonly p90: number;
  /** Steps whose own times decide when it is finished, the weightiest first. */
  readonly drivers: readonly { readonly step: PlanStep; readonly share: number }[];
  /** Steps that may come too late for the window that another opened, with the chance, 0–1. */
  readonly missed: readonly { readonly step: PlanStep; readonly chance: number }[];
}

/** Runs the clock of a plan. */
export function planClock(plan: Plan, work: Work, options: ClockOptions = {}): PlanClock {
  const clock = runClock(plan.project, startsOf(plan), uncertainOf(plan, work), options, plan.gone);
  const stepOf = (task: number): PlanStep | undefined =>
    plan.steps.find(({ id }) => id === plan.order[task - 1]);
  return {
    clock,
    p50: plan.at + clock.p50,
    p90: plan.at + clock.p90,
    drivers: clock.drivers.flatMap(({ task, share }) => {
      const step = stepOf(task);
      return step ? [{ step, share }] : [];
    }),
    missed: missedOf(
      clock.missed.flatMap(({ lag, chance }) => {
        const step = stepOf(plan.project.lags[lag]!.from);
        return step && chance > 0 ? [{ step, chance }] : [];
      }),
    ),
  };
}

/** One line a step: of several windows the one it misses most. */
function missedOf(missed: PlanClock['missed']): PlanClock['missed'] {
  return missed.filter(
    (each, i) =>
      !missed.some(
        (other, j) =>
          other.step === each.step && (other.chance > each.chance || (other.chance === each.chance && j < i)),
      ),
  );
}
