/**
 * A plan in plain words, a line a step. Hours come from the wall-clock time at which the job started, passed in.
 */

import type { PlanClock } from './plan-clock.ts';
import type { Plan, PlanAnswer, PlanStep } from './plan-shape.ts';
import { sayMinutes, sayTime, type WallStart } from './plan-words.ts';

/** Headings of the phases. */
export const PHASES = {
  in: 'Going in',
  bottom: 'At the bottom',
  out: 'Coming back out',
  closing: 'Closing',
} as const;

/** One step in words: when, what, with whom, until when another step's window is open. */
export function sayStep(step: PlanStep, startsAt: WallStart): string {
  const parts = [
    `${sayTime(step.start, startsAt)} ${step.caution ? `Caution: ${step.caution} ` : ''}${step.does}`,
  ];
  parts.push(sayMinutes(step.end - step.start));
  if (step.unattended) parts.push('runs by itself');
  if (step.people > 1) parts.push(`${step.people} people`);
  if (step.window) parts.push(`must start by ${sayTime(step.window.to, startsAt)}`);
  if (step.critical) parts.push('the ride waits for this');
  else if (step.float > 0) parts.push(`can wait ${sayMinutes(step.float)}`);
  return parts.join(', ');
}

/** How sure the figures are: "the least there is", or between which bounds it lies. */
export function sayProof({ work, ride }: Plan, startsAt: WallStart): string {
  const least = work.proved
    ? `${sayMinutes(work.minutes)} of work, the least there is`
    : `${sayMinutes(work.minutes)} of work; no way takes less than ${sayMinutes(work.bound)}`;
  const soon = ride.proved
    ? `at usual times it can be ridden at ${sayTime(ride.at, startsAt)}, as soon as these steps allow`
    : `at usual times it can be ridden at ${sayTime(ride.at, startsAt)}; with these steps not before ${sayTime(ride.bound, startsAt)}`;
  return `${least}; ${soon}.`;
}

/** The whole plan, lines. `startsAt`: wall-clock start of the job. */
export function sayPlan(plan: Plan, startsAt: WallStart): string[] {
  const lines = [sayProof(plan, startsAt)];
  let phase: PlanStep['phase'] | null = null;
  for (const step of plan.steps) {
    if (step.phase !== phase) lines.push(`${PHASES[step.phase]}:`);
    phase = step.phase;
    lines.push(sayStep(step, startsAt));
  }
  return lines;
}

/** Both plans' heads and how they differ, lines. */
export function sayAnswer({ least, earliest, differ, left }: PlanAnswer, startsAt: WallStart): string[] {
  const lines = [`Least work: ${sayProof(least, startsAt)}`];
  if (differ !== null) lines.push(`Earliest ride: ${sayProof(earliest, startsAt)}`, differ);
  if (left) lines.push(left.says);
  return lines;
}

/** A step is called late where its window is missed more often than this, 0–1. */
const OFTEN_LATE = 0.02;

/** Steps that may come too late for a window that another opened, a line each. */
export function sayLate({ missed }: Pick<PlanClock, 'missed'>): string[] {
  return missed
    .filter(({ chance }) => chance > OFTEN_LATE)
    .map(
      ({ step, chance }) =>
        `"${step.does}" may come too late for its window: ${Math.round(100 * chance)} times in 100.`,
    );
}
