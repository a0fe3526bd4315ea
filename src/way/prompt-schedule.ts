/**
 * Orders of work at once, for who stands before a screw that does not come: the search ends after so many conflicts and
 * shows its bound. On the shipped machines that proves what it finds for all of 188 seizures.
 */
import type { Scheduler } from './plan-shape.ts';
import { scheduleProject } from './schedule.ts';

/** Conflicts for one order, and for all orders of one answer, count. */
const ONE = 100;
const ALL = 200;
/** Conflicts that even the last order gets, count. */
const LEAST = 20;

/** A scheduler for one answer: what its first orders take is not there for the later ones. */
export function promptly(): Scheduler {
  let left = ALL;
  return (project, below = Number.POSITIVE_INFINITY) => {
    const steps = Math.max(LEAST, Math.min(ONE, left));
    const found = scheduleProject(project, {
      steps,
      below,
      tell: (conflicts) => {
        left -= conflicts;
      },
    });
    if (found.ok || found.why !== 'time' || below < Number.POSITIVE_INFINITY) return found;
    // None at all yet: an answer is worth more than a quick one.
    return scheduleProject(project, { steps: 5000 });
  };
}
