/**
 * What changed between two plans of one job, as data and in words.
 */
import type { Plan, PlanStep } from './plan-shape.ts';
import { sayList, sayMinutes } from './plan-words.ts';

export interface PlanChange {
  readonly added: readonly PlanStep[];
  /** Steps of the old plan that are neither in the new one nor done. */
  readonly dropped: readonly PlanStep[];
  /** Steps in both that start at another time; `by` in min, later is positive. */
  readonly moved: readonly { readonly step: PlanStep; readonly by: number }[];
  /** min from the start of the job, before and after. */
  readonly ride: { readonly before: number; readonly after: number };
  /** Work still to do before and after, hand-min, expected. */
  readonly work: { readonly before: number; readonly after: number };
  readonly says: string;
}

/** Work in a plan's steps, hand-min, from the given time on. */
function workFrom(plan: Plan, from: number): number {
  return plan.steps.reduce((sum, s) => sum + (s.start >= from ? s.people * (s.end - s.start) : 0), 0);
}

/** Both lists without what is the same work in both: two ways to a fact have their own ids for the same way back. */
function unmatched(
  added: readonly PlanStep[],
  dropped: readonly PlanStep[],
): [readonly PlanStep[], readonly PlanStep[]] {
  const gone = dropped.map((s) => s.does);
  const news = added.filter((s) => {
    const at = gone.indexOf(s.does);
    if (at >= 0) gone.splice(at, 1);
    return at < 0;
  });
  return [news, dropped.filter((s) => gone.includes(s.does))];
}

/** What changed. `done`: ids of actions and steps done, which nobody misses in the new plan. */
export function comparePlans(before: Plan, after: Plan, done: ReadonlySet<string> = new Set()): PlanChange {
  const old = new Map(before.steps.map((s) => [s.id, s]));
  const fresh = new Map(after.steps.map((s) => [s.id, s]));
  const [added, dropped] = unmatched(
    after.steps.filter((s) => !old.has(s.id)),
    before.steps.filter((s) => !fresh.has(s.id) && !done.has(s.id)),
  );
  const moved = after.steps.flatMap((step) => {
    const was = old.get(step.id);
    return was && was.start !== step.start ? [{ step, by: step.start - was.start }] : [];
  });
  const ride = { before: before.ride.at, after: after.ride.at };
  const gone = before.steps
    .filter((s) => done.has(s.id))
    .reduce((sum, s) => sum + s.people * (s.end - s.start), 0);
  const work = {
    before: workFrom(before, Number.NEGATIVE_INFINITY) - gone,
    after: workFrom(after, Number.NEGATIVE_INFINITY),
  };
  const parts: string[] = [];
  const some = (steps: readonly PlanStep[]) =>
    steps.length > 4
      ? `${sayList([...steps.slice(0, 3).map((s) => `"${s.does}"`), `${steps.length - 3} more`])}`
      : sayList(steps.map((s) => `"${s.does}"`));
  if (added.length > 0) parts.push(`New: ${some(added)}.`);
  if (dropped.length > 0) parts.push(`No longer: ${some(dropped)}.`);
  if (moved.length > 0)
    parts.push(`${moved.length} ${moved.length === 1 ? 'step starts' : 'steps start'} at another time.`);
  const figures = sayFigures({ ride, work });
  if (figures !== '') parts.push(figures);
  return { added, dropped, moved, ride, work, says: parts.join(' ') || 'Nothing changes.' };
}

/** How much later the ride is and how much more work is left, in words; empty where neither changes. */
export function sayFigures({ ride, work }: Pick<PlanChange, 'ride' | 'work'>): string {
  const parts: string[] = [];
  const by = ride.after - ride.before;
  if (by !== 0) parts.push(`The ride is ${sayMinutes(Math.abs(by))} ${by > 0 ? 'later' : 'sooner'}.`);
  const more = work.after - work.before;
  if (more !== 0)
    parts.push(`${sayMinutes(Math.abs(more))} ${more > 0 ? 'more' : 'less'} work is left than planned.`);
  return parts.join(' ');
}
