/** The clock of a plan: its steps' times from the work, and when to start for a ride at a given hour. */
import { type Clock, type ClockOptions, runClock, type Uncertain } from './clock.ts';
import type { Plan, PlanStep } from './plan-shape.ts';
import type { Work } from './work.ts';

const SURE = (minutes: number): Uncertain => ({ minutes: { low: minutes, likely: minutes, high: minutes } });

/** What is uncertain of each task of a plan's project. What runs already ends when the plan says. */
export function uncertainOf(plan: Plan, work: Work): Uncertain[] {
  const actions = new Map(work.actions.map((action) => [action.id, action]));
  const steps = new Map(plan.steps.map((step) => [step.id, step]));
  return plan.project.tasks.map((task, t) => {
    const step = t === 0 ? undefined : steps.get(plan.order[t - 1] ?? '');
    if (!step || step.start < plan.at) return SURE(task.duration);
    if (step.step) return { minutes: step.step.minutes };
    const action = actions.get(step.action ?? '');
    if (!action) return SURE(task.duration);
    return action.seizes ? { minutes: action.minutes, seizes: action.seizes } : { minutes: action.minutes };
  });
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
  /** Steps whose times decide when it is finished, the weightiest first. */
  readonly drivers: readonly { readonly step: PlanStep; readonly share: number }[];
  /** Steps that may come too late for the window that another opened, with the chance, 0–1. */
  readonly missed: readonly { readonly step: PlanStep; readonly chance: number }[];
}

/** Runs the clock of a plan. */
export function planClock(plan: Plan, work: Work, options: ClockOptions = {}): PlanClock {
  const clock = runClock(plan.project, startsOf(plan), uncertainOf(plan, work), options);
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
    missed: clock.missed.flatMap(({ lag, chance }) => {
      const step = stepOf(plan.project.lags[lag]!.from);
      return step && chance > 0 ? [{ step, chance }] : [];
    }),
  };
}

/** A start that keeps a deadline. */
export interface StartBy {
  /** min, on the clock of `deadline`. */
  readonly start: number;
  /** Chance that the ride is kept, 0–1. */
  readonly chance: number;
  readonly people: 1 | 2;
}

/** How far back a start is looked for, and in what steps, min. */
const BACK = 7 * 1440;
const STEP = 30;

/**
 * The latest start from which the deadline is kept with at least this chance, with as few people as do; null where none of
 * the last seven days does. Nights make the chance no straight function of the start, so every half hour is tried, the
 * latest first. `at` plans the job for a start and a number of people and returns its clock, null where there is no plan.
 * All times are min on one clock.
 */
export function startBy(
  deadline: number,
  now: number,
  chance: number,
  at: (start: number, people: 1 | 2) => { readonly plan: Plan; readonly work: Work } | null,
  options: ClockOptions = {},
): readonly StartBy[] {
  if (!(chance > 0 && chance < 1)) throw new RangeError(`chance must be between 0 and 1, got ${chance}`);
  const found: StartBy[] = [];
  for (const people of [1, 2] as const) {
    for (let start = deadline - STEP; start >= Math.max(now, deadline - BACK); start -= STEP) {
      const made = at(start, people);
      // The planned end is no promise, but who is late by plan need not be tried.
      if (!made || start + made.plan.ride.at > deadline) continue;
      const { ends } = runClock(made.plan.project, startsOf(made.plan), uncertainOf(made.plan, made.work), {
        runs: 2000,
        ...options,
      });
      let kept = 0;
      for (const end of ends) if (start + end <= deadline) kept++;
      if (kept >= chance * ends.length) {
        found.push({ start, chance: kept / ends.length, people });
        break;
      }
    }
  }
  return found;
}
