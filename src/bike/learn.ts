/**
 * Minutes learnt from a bike's own jobs. A step's time is taken as log-normal; what the machine file says counts as so
 * many jobs, and every job that was let teach counts as one (the conjugate mean of a normal with known spread, e.g.
 * Gelman et al., Bayesian Data Analysis, 3rd ed., §2.5). The range keeps its shape about the new likely time and grows
 * to hold what was seen.
 */
import type { Machine } from '../machine/definition.ts';
import { middle, type Quantity } from '../machine/figure.ts';
import type { WorkSection, WorkStep } from '../machine/work-definition.ts';

export interface LearnedStep {
  /** Likely hands-on time, min. */
  readonly likely: number;
  /** Times seen, min. */
  readonly seen: readonly number[];
}

/** How many jobs the machine file's own figure counts as, 1. A guess, no source. */
export const FILE_COUNTS = 2;

type Timed = Pick<WorkStep, 'minutes' | 'likely'>;

/** What each step's likely time becomes, min, from the minutes that jobs were let teach. */
export function learnedSteps(
  machine: Pick<Machine, 'work'>,
  taught: readonly (readonly { readonly step: string; readonly minutes: number }[])[],
): ReadonlyMap<string, LearnedStep> {
  const seen = new Map<string, number[]>();
  for (const job of taught)
    for (const { step, minutes } of job) seen.set(step, [...(seen.get(step) ?? []), minutes]);
  const learned = new Map<string, LearnedStep>();
  for (const [id, entry] of timedEntries(machine)) {
    const times = seen.get(id);
    if (!times || entry.minutes.low <= 0) continue;
    const file = Math.log(likelyOf(entry) / 60);
    const sum = times.reduce((total, minutes) => total + Math.log(minutes), FILE_COUNTS * file);
    learned.set(id, { likely: Math.exp(sum / (FILE_COUNTS + times.length)), seen: times });
  }
  return learned;
}

/** The machine with the learnt minutes in place of its own; the same machine where nothing was learnt. */
export function withLearned(machine: Machine, learned: ReadonlyMap<string, LearnedStep>): Machine {
  const { work } = machine;
  if (!work || learned.size === 0) return machine;
  const anew = <T extends Timed>(id: string, entry: T): T => {
    const known = learned.get(id);
    return known ? { ...entry, ...timesOf(entry, known) } : entry;
  };
  const steps = (list: readonly WorkStep[] | null) => list?.map((step) => anew(step.id, step)) ?? null;
  const section: WorkSection = {
    ...work,
    actions: Object.fromEntries(
      Object.entries(work.actions).map(([id, entry]) => [
        id,
        { ...anew(id, entry), back: steps(entry.back) },
      ]),
    ),
    targets: Object.fromEntries(
      Object.entries(work.targets).map(([id, target]) => [id, { ...target, work: steps(target.work) }]),
    ),
    closing: steps(work.closing),
  };
  return { ...machine, work: section };
}

function timesOf(entry: Timed, { likely, seen }: LearnedStep): Timed {
  const times = (60 * likely) / likelyOf(entry);
  const low = Math.min(entry.minutes.low * times, ...seen.map((minutes) => 60 * minutes));
  const high = Math.max(entry.minutes.high * times, ...seen.map((minutes) => 60 * minutes));
  return { minutes: timeOf(low, high), likely: timeOf(60 * likely, 60 * likely) };
}

/** A time as a figure, from seconds. */
function timeOf(low: number, high: number): Quantity {
  const said = (seconds: number) => String(Number((seconds / 60).toPrecision(3)));
  return { text: low === high ? `${said(low)} min` : `${said(low)}–${said(high)} min`, low, high };
}

function likelyOf({ minutes, likely }: Timed): number {
  return likely ? middle(likely) : middle(minutes);
}

function timedEntries({ work }: Pick<Machine, 'work'>): readonly (readonly [id: string, entry: Timed])[] {
  if (!work) return [];
  const own = (list: readonly WorkStep[] | null) => (list ?? []).map((step) => [step.id, step] as const);
  return [
    ...Object.entries(work.actions).flatMap(([id, entry]) => [[id, entry] as const, ...own(entry.back)]),
    ...Object.values(work.targets).flatMap((target) => own(target.work)),
    ...own(work.closing),
  ];
}
