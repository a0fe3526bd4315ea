/** The dip of a plan, with what is done of it already. */
import { doneSteps } from '../way/done-steps.ts';
import type { PlanClock } from '../way/plan-clock.ts';
import type { BikeNow, Plan } from '../way/plan-shape.ts';
import type { WallStart } from '../way/plan-words.ts';
import type { Work } from '../way/work.ts';
import type { DipInput } from './dip.ts';

/** What `drawDip` takes. `now`: null before the work has begun. */
export function dipOfPlan(
  plan: Plan,
  work: Work,
  clock: Pick<PlanClock, 'p50' | 'p90'>,
  startsAt: WallStart,
  now: BikeNow | null = null,
): DipInput {
  // What runs is in the plan as well, with its true times.
  const planned = new Set(plan.steps.map(({ id }) => id));
  const done = now === null ? [] : doneSteps(work, now.did).filter(({ id }) => !planned.has(id));
  return {
    steps: [...done, ...plan.steps],
    // A file that names no depths has a dip that lies flat.
    levels: work.levels.length === 0 ? ['bike whole'] : work.levels.map(({ name }) => name),
    startsAt,
    now: now === null ? null : now.at,
    done: new Set(done.map(({ id }) => id)),
    ride: { at: plan.ride.at, p50: clock.p50, p90: clock.p90 },
  };
}
