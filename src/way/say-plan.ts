/**
 * A plan in plain words, a line a step. Hours come from the wall-clock time at which the job started, passed in.
 */
import type { Plan, PlanAnswer, PlanStep } from './plan-shape.ts';
import { sayMinutes, sayTime } from './plan-words.ts';

const PHASES = {
  in: 'Going in',
  bottom: 'At the bottom',
  out: 'Coming back out',
  closing: 'Closing',
} as const;

/** One step in words: when, what, with whom, until when another step's window is open. */
export function sayStep(step: PlanStep, startsAt: number): string {
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
export function sayProof({ work, ride }: Plan, startsAt: number): string {
  const least = work.proved
    ? `${sayMinutes(work.minutes)} of work, the least there is`
    : `${sayMinutes(work.minutes)} of work; no way takes less than ${sayMinutes(work.bound)}`;
  const soon = ride.proved
    ? `to be ridden at ${sayTime(ride.at, startsAt)}, as soon as these steps allow`
    : `to be ridden at ${sayTime(ride.at, startsAt)}; with these steps not before ${sayTime(ride.bound, startsAt)}`;
  return `${least}; ${soon}.`;
}

/** The whole plan, lines. `startsAt`: wall-clock start of the job, min after midnight. */
export function sayPlan(plan: Plan, startsAt: number): string[] {
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
export function sayAnswer({ least, earliest, differ, left }: PlanAnswer, startsAt: number): string[] {
  const lines = [`Least work: ${sayProof(least, startsAt)}`];
  if (differ !== null) lines.push(`Earliest ride: ${sayProof(earliest, startsAt)}`, differ);
  if (left) lines.push(left.says);
  return lines;
}
