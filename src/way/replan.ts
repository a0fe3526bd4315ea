/**
 * The plan anew when something happens: seized, stripped, a part not here, the helper gone, steps done.
 * Each event changes the request; the plan is then made from where the bike is.
 */
import { comparePlans, type PlanChange } from './compare-plans.ts';
import { noSuch } from './nearest-name.ts';
import { planJob } from './plan.ts';
import {
  type BikeNow,
  type Plan,
  type PlanAnswer,
  type PlanRefusal,
  type PlanRequest,
  refuse,
  type Scheduler,
  type Stuck,
} from './plan-shape.ts';
import { sayMinutes } from './plan-words.ts';
import { promptly } from './prompt-schedule.ts';
import type { BuildStep, Work } from './work.ts';

export type PlanEvent =
  /** The state is told: steps done, running, the clock. */
  | { readonly what: 'went on' }
  /** It will not let go: `adds` min more are reckoned with, or it is given up. */
  | { readonly what: 'seized'; readonly action: string; readonly adds: Stuck['adds'] }
  /**
   * A thread came out at this action or build step: repairing it takes `minutes`, with a supply that may have to
   * come. Found at an action it is repaired before the first step back, found at a step before that step.
   */
  | {
      readonly what: 'stripped';
      readonly at: string;
      readonly minutes: number;
      readonly supply?: { readonly id: string; readonly name: string; readonly at?: number };
    }
  /** A supply arrives at this time, min from the start of the job. */
  | { readonly what: 'not here yet'; readonly supply: string; readonly at: number }
  /** Only one pair of hands from this time on, min from the start of the job. */
  | { readonly what: 'helper gone'; readonly at: number };

/** Usual time to repair a stripped thread with an insert, min: a guess. */
export const THREAD_REPAIR = 40;

export interface Replanned {
  readonly request: PlanRequest;
  readonly answer: PlanAnswer | PlanRefusal;
  /** The plan of least work against the plan before; null where there is no plan. */
  readonly change: PlanChange | null;
  readonly says: string;
}

/** The request after the event, with the state the bike is in now. */
export function afterEvent(request: PlanRequest, event: PlanEvent): PlanRequest | PlanRefusal {
  switch (event.what) {
    case 'went on':
      return request;
    case 'seized': {
      if (event.adds !== 'never' && !(event.adds >= 0 && Number.isFinite(event.adds)))
        throw new RangeError(`adds must be ≥ 0 min or 'never', got ${event.adds}`);
      return { ...request, stuck: [...(request.stuck ?? []), { action: event.action, adds: event.adds }] };
    }
    case 'not here yet': {
      const others = (request.arrivals ?? []).filter((a) => a.supply !== event.supply);
      return { ...request, arrivals: [...others, { supply: event.supply, at: event.at }] };
    }
    case 'helper gone':
      return { ...request, helperGone: event.at };
    case 'stripped':
      return withRepair(request, event);
  }
}

/** The request with a step more: the repair of a thread. */
function withRepair(
  request: PlanRequest,
  event: Extract<PlanEvent, { what: 'stripped' }>,
): PlanRequest | PlanRefusal {
  const { work } = request;
  const { supply, minutes, at } = event;
  if (!(minutes >= 0 && Number.isFinite(minutes)))
    throw new RangeError(`minutes must be a finite number ≥ 0, got ${minutes}`);
  const all = [...work.actions, ...stepsOf(work)];
  const ids = new Set(all.map((each) => each.id));
  const found = all.find((each) => each.id === at);
  if (!found) return refuse('unknown', noSuch('action or step', at, ids), [at]);
  let id = `${at}-thread`;
  for (let n = 2; ids.has(id); n++) id = `${at}-thread-${n}`;
  const repair: BuildStep = {
    id,
    does: `Repair the stripped thread: ${found.does}`,
    kind: 'refit',
    minutes: { low: minutes, likely: minutes, high: minutes },
    hands: 1,
    tools: [],
    uses: supply ? [{ supply: supply.id, amount: 1 }] : [],
    lags: [],
    ...(found.fastener === undefined ? {} : { fastener: found.fastener }),
  };
  const before = (list: readonly BuildStep[]) => list.flatMap((s) => (s.id === at ? [repair, s] : [s]));
  const actions = work.actions.map((a) => ({
    ...a,
    back: a.id === at ? [repair, ...a.back] : before(a.back),
  }));
  const targets = work.targets.map((t) => ({ ...t, work: before(t.work) }));
  const fresh =
    supply === undefined || work.supplies.some((s) => s.id === supply.id)
      ? []
      : [
          {
            id: supply.id,
            name: supply.name,
            kind: 'part',
            unit: 'piece',
            singleUse: false,
            canWait: false,
          } as const,
        ];
  const others = (request.arrivals ?? []).filter((a) => a.supply !== supply?.id);
  return {
    ...request,
    work: {
      ...work,
      actions,
      targets,
      closing: before(work.closing),
      supplies: [...work.supplies, ...fresh],
    },
    ...(supply?.at === undefined ? {} : { arrivals: [...others, { supply: supply.id, at: supply.at }] }),
  };
}

function stepsOf(work: Work): BuildStep[] {
  return [...work.actions.flatMap((a) => a.back), ...work.targets.flatMap((t) => t.work), ...work.closing];
}

/** What happened, in a sentence. */
export function sayEvent(request: PlanRequest, event: PlanEvent): string {
  const does = (id: string) =>
    [...request.work.actions, ...stepsOf(request.work)].find((each) => each.id === id)?.does ?? id;
  switch (event.what) {
    case 'went on':
      return '';
    case 'seized':
      return event.adds === 'never'
        ? `"${does(event.action)}" will not come.`
        : `"${does(event.action)}" is seized: ${sayMinutes(event.adds)} more.`;
    case 'stripped':
      return `A thread is stripped at "${does(event.at)}": ${sayMinutes(event.minutes)} to repair it.`;
    case 'not here yet':
      return `"${request.work.supplies.find((s) => s.id === event.supply)?.name ?? event.supply}" is not here yet.`;
    case 'helper gone':
      return 'The helper is gone.';
  }
}

/** The plan after an event, at once, and what changed against the plan before: an order of work not proved says so. */
export function replan(
  request: PlanRequest,
  before: Plan,
  now: BikeNow,
  event: PlanEvent,
  schedule: Scheduler = promptly(),
): Replanned {
  const next = afterEvent({ ...request, now }, event);
  if ('ok' in next) return { request, answer: next, change: null, says: next.says };
  const answer = planJob(next, schedule);
  const happened = sayEvent(request, event);
  if (!answer.ok) return { request: next, answer, change: null, says: `${happened} ${answer.says}`.trim() };
  const change = comparePlans(
    before,
    answer.least,
    new Set(now.did.filter((d) => d.end <= now.at).map((d) => d.id)),
  );
  return { request: next, answer, change, says: `${happened} ${change.says}`.trim() };
}
