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
import type { BuildStep } from './work.ts';

export type PlanEvent =
  /** The state is told: steps done, running, the clock. */
  | { readonly what: 'went on' }
  /** It will not let go: `adds` min more are reckoned with, or it is given up. */
  | { readonly what: 'seized'; readonly action: string; readonly adds: Stuck['adds'] }
  /** A thread of this action's fastener came out: repairing it takes `minutes`, with a supply that may have to come. */
  | {
      readonly what: 'stripped';
      readonly action: string;
      readonly minutes: number;
      readonly supply?: { readonly id: string; readonly name: string; readonly at?: number };
    }
  /** A supply arrives at this time, min from the start of the job. */
  | { readonly what: 'not here yet'; readonly supply: string; readonly at: number }
  /** Only one pair of hands from this time on, min from the start of the job. */
  | { readonly what: 'helper gone'; readonly at: number };

export interface Replanned {
  readonly request: PlanRequest;
  readonly answer: PlanAnswer | PlanRefusal;
  /** The plan of least work against the plan before; null where there is no plan. */
  readonly change: PlanChange | null;
  readonly says: string;
}

/** The request after the event, with the state the bike is in now. */
export function afterEvent(request: PlanRequest, event: PlanEvent): PlanRequest | PlanRefusal {
  const { work } = request;
  switch (event.what) {
    case 'went on':
      return request;
    case 'seized': {
      if (event.adds !== 'never' && !(event.adds >= 0))
        throw new RangeError(`adds must be ≥ 0 min or 'never', got ${event.adds}`);
      return { ...request, stuck: [...(request.stuck ?? []), { action: event.action, adds: event.adds }] };
    }
    case 'not here yet': {
      const others = (request.arrivals ?? []).filter((a) => a.supply !== event.supply);
      return { ...request, arrivals: [...others, { supply: event.supply, at: event.at }] };
    }
    case 'helper gone':
      return { ...request, helperGone: event.at };
    case 'stripped': {
      const action = work.actions.find((a) => a.id === event.action);
      if (!action)
        return refuse(
          'unknown',
          noSuch(
            'action',
            event.action,
            work.actions.map((a) => a.id),
          ),
          [event.action],
        );
      if (!(event.minutes >= 0)) throw new RangeError(`minutes must be ≥ 0, got ${event.minutes}`);
      const { supply, minutes } = event;
      const taken = new Set(action.back.map((s) => s.id));
      let id = `${action.id}-thread`;
      for (let n = 2; taken.has(id); n++) id = `${action.id}-thread-${n}`;
      const repair: BuildStep = {
        id,
        does: `Repair the stripped thread: ${action.does}`,
        kind: 'refit',
        minutes: { low: minutes, likely: minutes, high: minutes },
        hands: 1,
        tools: [],
        uses: supply ? [{ supply: supply.id, amount: 1 }] : [],
        lags: [],
        ...(action.fastener === undefined ? {} : { fastener: action.fastener }),
      };
      const actions = work.actions.map((a) => (a === action ? { ...a, back: [repair, ...a.back] } : a));
      const known = supply === undefined || work.supplies.some((s) => s.id === supply.id);
      const supplies = known
        ? work.supplies
        : [
            ...work.supplies,
            {
              id: supply.id,
              name: supply.name,
              kind: 'part',
              unit: 'piece',
              singleUse: false,
              canWait: false,
            } as const,
          ];
      const arrivals =
        supply?.at === undefined
          ? request.arrivals
          : [
              ...(request.arrivals ?? []).filter((a) => a.supply !== supply.id),
              { supply: supply.id, at: supply.at },
            ];
      return { ...request, work: { ...work, actions, supplies }, ...(arrivals ? { arrivals } : {}) };
    }
  }
}

function sayEvent(request: PlanRequest, event: PlanEvent): string {
  const does = (id: string) => request.work.actions.find((a) => a.id === id)?.does ?? id;
  switch (event.what) {
    case 'went on':
      return '';
    case 'seized':
      return event.adds === 'never'
        ? `"${does(event.action)}" will not come.`
        : `"${does(event.action)}" is seized: ${sayMinutes(event.adds)} more.`;
    case 'stripped':
      return `A thread is stripped at "${does(event.action)}": ${sayMinutes(event.minutes)} to repair it.`;
    case 'not here yet':
      return `"${request.work.supplies.find((s) => s.id === event.supply)?.name ?? event.supply}" is not here yet.`;
    case 'helper gone':
      return 'The helper is gone.';
  }
}

/** The plan after an event, and what changed against the plan before. */
export function replan(
  request: PlanRequest,
  before: Plan,
  now: BikeNow,
  event: PlanEvent,
  schedule: Scheduler,
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
