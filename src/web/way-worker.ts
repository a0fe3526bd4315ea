/** The worker that plans the way in: exact searches take longer than a key press may. */
import { drawDip } from '../draw/dip.ts';
import type { SvgNode } from '../draw/svg.ts';
import { readMachine } from '../machine/read-machine.ts';
import { workOf } from '../machine/work.ts';
import { planJob } from '../way/plan.ts';
import { planClock } from '../way/plan-clock.ts';
import type { PlanStep } from '../way/plan-shape.ts';
import { sayTime } from '../way/plan-words.ts';
import { sayAnswer } from '../way/say-plan.ts';
import { sayShopping, shoppingOf } from '../way/shopping.ts';
import { shutNights } from '../way/to-project.ts';

export interface WayAsk {
  readonly id: number;
  /** Text of the machine file. */
  readonly text: string;
  readonly year: number;
  readonly targets: readonly string[];
  readonly people: 1 | 2;
  /** min after midnight. */
  readonly startsAt: number;
  /** Whether nobody works from 22:00 to 07:00. */
  readonly nights: boolean;
  /** Actions that will not come. */
  readonly seized: readonly string[];
  readonly shape: 'wide' | 'narrow';
}

/** One step as the page shows it. */
export interface WayStep {
  readonly id: string;
  readonly phase: PlanStep['phase'];
  readonly time: string;
  readonly does: string;
  readonly minutes: number;
  readonly caution: string | null;
  readonly hold: PlanStep['hold'];
  readonly critical: boolean;
  readonly alone: boolean;
  readonly people: number;
  /** The action that can be said not to come; null for a step of the way back. */
  readonly action: string | null;
}

export interface WayPlan {
  readonly p50: string;
  readonly p90: string;
  readonly says: readonly string[];
  readonly late: readonly string[];
  readonly steps: readonly WayStep[];
  readonly list: readonly string[];
  readonly tools: readonly string[];
  readonly dip: SvgNode;
}

export interface WayReply {
  readonly id: number;
  readonly targets: readonly {
    readonly id: string;
    readonly name: string;
    readonly repairs: readonly string[];
  }[];
  readonly plan: WayPlan | null;
  /** Why there is none, one sentence; null where there is a plan or nothing was asked for. */
  readonly why: string | null;
}

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

function answer(ask: WayAsk): WayReply {
  const { id, startsAt } = ask;
  const read = readMachine(ask.text, 'machine file');
  const work = read.ok ? workOf(read.machine, ask.year) : undefined;
  if (!work) {
    const why = read.ok
      ? 'This machine file says nothing of the way in yet: it has no section "work".'
      : 'This machine file does not read; mend it under "Machine files".';
    return { id, targets: [], plan: null, why };
  }
  const targets = work.targets.map(({ id: target, name, repairs }) => ({ id: target, name, repairs }));
  if (ask.targets.length === 0) return { id, targets, plan: null, why: null };
  const made = planJob({
    work,
    targets: ask.targets,
    people: ask.people,
    ...(ask.nights ? { shut: shutNights(startsAt, 22 * 60, 7 * 60) } : {}),
    stuck: ask.seized.map((action) => ({ action, adds: 'never' as const })),
  });
  if (!made.ok) return { id, targets, plan: null, why: made.says };
  const { least } = made;
  const clock = planClock(least, work);
  const { lines, tools } = shoppingOf(least, work);
  const dip = drawDip(
    {
      steps: least.steps,
      levels: work.levels.map(({ name }) => name),
      startsAt,
      now: null,
      done: new Set(),
      ride: { at: least.ride.at, p50: clock.p50, p90: clock.p90 },
    },
    ask.shape,
  );
  return {
    id,
    targets,
    why: null,
    plan: {
      p50: sayTime(clock.p50, startsAt),
      p90: sayTime(clock.p90, startsAt),
      says: sayAnswer(made, startsAt),
      late: clock.missed
        .filter(({ chance }) => chance > 0.02)
        .map(
          ({ step, chance }) =>
            `${step.does}: ${Math.round(100 * chance)} times in 100 too late for its window.`,
        ),
      steps: least.steps.map((step) => ({
        id: step.id,
        phase: step.phase,
        time: sayTime(step.start, startsAt),
        does: step.does,
        minutes: Math.round(step.end - step.start),
        caution: step.caution,
        hold: step.hold,
        critical: step.critical,
        alone: step.unattended,
        people: step.people,
        action: step.phase === 'in' ? step.action : null,
      })),
      list: lines.map(sayShopping),
      tools: tools.map(({ name }) => name),
      dip,
    },
  };
}

scope.addEventListener('message', (event: MessageEvent<WayAsk>) => {
  try {
    scope.postMessage(answer(event.data));
  } catch (error) {
    const why = `This cannot be planned: ${error instanceof Error ? error.message : String(error)}`;
    scope.postMessage({ id: event.data.id, targets: [], plan: null, why } satisfies WayReply);
  }
});
