/**
 * The way in of a job as the station shows it: the plan from where the bike is, what the last trouble changed, the dip,
 * the list, and each step with its figures. Pure but for the memory of one plan.
 */

import { drawDip } from '../draw/dip.ts';
import { dipOfPlan } from '../draw/dip-of-plan.ts';
import { drawDipStrip } from '../draw/dip-strip.ts';
import type { SvgNode } from '../draw/svg.ts';
import type { Troubled, WayChoice, WayState } from '../job/way-fold.ts';
import { type AskedWay, askWay } from '../job/way-request.ts';
import type { Machine, Part } from '../machine/definition.ts';
import { newParts } from '../machine/new-parts.ts';
import { type FastenerWords, sayFastener } from '../machine/say-fastener.ts';
import { AHEAD_KM, usualKm, wearOf } from '../machine/wear.ts';
import { workOf } from '../machine/work.ts';
import { HOUR_WORTH } from '../verdict/repair-choice.ts';
import { comparePlans, sayFigures } from '../way/compare-plans.ts';
import { piecesOf } from '../way/did-from.ts';
import { doneSteps } from '../way/done-steps.ts';
import { adviseOpen } from '../way/open-advice.ts';
import { planJob } from '../way/plan.ts';
import { planClock } from '../way/plan-clock.ts';
import type { Plan, PlanAnswer, PlanRefusal, PlanRequest, PlanStep } from '../way/plan-shape.ts';
import { sayMinutes, sayTime, type WallStart } from '../way/plan-words.ts';
import { afterEvent, sayEvent } from '../way/replan.ts';
import { sayAnswer, sayLate } from '../way/say-plan.ts';
import { sayShopping, shoppingOf } from '../way/shopping.ts';
import type { Work } from '../way/work.ts';

export interface WayAsk {
  readonly id: number;
  readonly machine: Machine;
  readonly choice: WayChoice;
  readonly way: Pick<WayState, 'ticks' | 'troubles' | 'here'>;
  readonly nowMs: number;
  /** The garage's wall clock when the work begins, min after midnight, and its day, 0 is Sunday. */
  readonly wall: { readonly startsAt: number; readonly weekday: number };
  readonly year: number;
  readonly shape: 'wide' | 'narrow';
}

/** One step as the page shows it. */
export interface WayStep {
  readonly id: string;
  readonly phase: PlanStep['phase'];
  readonly state: 'ahead' | 'runs' | 'done';
  readonly time: string;
  readonly does: string;
  /** "12 min · 2 people · the ride waits for this". */
  readonly notes: string;
  readonly caution: string | null;
  readonly hold: PlanStep['hold'];
  /** True for what runs by itself. */
  readonly alone: boolean;
  readonly tools: readonly string[];
  readonly fastener: FastenerWords | null;
  /** "must begin by 21:40, a window closes"; null where none is open. */
  readonly window: string | null;
  /** Whether a part can be found seized or a thread stripped here. */
  readonly canJam: boolean;
  readonly uses: readonly { readonly supply: string; readonly name: string }[];
}

/** What the last trouble changed in the plan. */
export interface WayChange {
  readonly happened: string;
  /** "The ride is 5 min later; 11 min more work is left." */
  readonly says: string;
  readonly added: readonly string[];
  readonly dropped: readonly string[];
}

export interface WayPlan {
  readonly p50: string;
  readonly p90: string;
  readonly begun: boolean;
  /** Whether something is done or runs, so that no start is to be chosen any more. */
  readonly ticked: boolean;
  readonly says: readonly string[];
  /** Why another plan rides sooner, where one does; what choosing it means. */
  readonly differ: string | null;
  readonly late: readonly string[];
  /** What the last trouble changed; null where nothing jams. */
  readonly changed: WayChange | null;
  readonly troubles: readonly { readonly event: string; readonly says: string }[];
  readonly strays: readonly string[];
  /** Facts that this way makes true and that one may want to leave: "clutch off". */
  readonly couldLeave: readonly string[];
  readonly steps: readonly WayStep[];
  readonly list: readonly { readonly supply: string; readonly says: string; readonly here: boolean }[];
  readonly tools: readonly string[];
  /** What else is worth replacing while it is open; null where nothing that wears lies open. */
  readonly open: {
    readonly lines: readonly { readonly id: string; readonly replace: boolean; readonly says: string }[];
    /** Distance reckoned with, km. */
    readonly km: number;
    readonly sum: string;
  } | null;
  readonly dip: SvgNode;
  /** The same for paper. */
  readonly sheet: SvgNode;
  /** The same as a thin strip. */
  readonly strip: SvgNode;
}

export interface WayTarget {
  readonly id: string;
  readonly name: string;
  readonly repairs: readonly string[];
}

export interface WayReply {
  readonly id: number;
  readonly targets: readonly WayTarget[];
  readonly plan: WayPlan | null;
  /** Why there is none, one sentence; null where there is a plan or nothing was asked for. */
  readonly why: string | null;
  /** What jams, also where nothing can be planned round it. */
  readonly troubles: readonly { readonly event: string; readonly says: string }[];
}

export type Planned = (request: PlanRequest) => PlanAnswer | PlanRefusal;

/** Plans, keeping the last two: with the last trouble and without it. A second search for them would double the wait. */
export function planMemory(): Planned {
  let kept: readonly { readonly of: string; readonly answer: PlanAnswer | PlanRefusal }[] = [];
  return (request) => {
    const of = JSON.stringify(request);
    const known = kept.find((one) => one.of === of) ?? { of, answer: planJob(request) };
    kept = [known, ...kept.filter((one) => one !== known)].slice(0, 2);
    return known.answer;
  };
}

/** Answers asks with plans that are remembered. */
export function wayReporter(planned: Planned = planMemory()): (ask: WayAsk) => WayReply {
  return (ask) => {
    const work = workOf(ask.machine, ask.year);
    if (work) return reportOn(ask, work, planned);
    const why = 'This machine file says nothing of the way in yet: it has no section "work".';
    return { id: ask.id, targets: [], plan: null, why, troubles: [] };
  };
}

function reportOn(ask: WayAsk, work: Work, planned: Planned): WayReply {
  const targets = work.targets.map(({ id, name, repairs }) => ({ id, name, repairs }));
  const troubles = ask.way.troubles.map((one) => ({ event: one.event, says: sayTrouble(work, one) }));
  const without = (why: string | null): WayReply => ({ id: ask.id, targets, plan: null, why, troubles });
  if (!targets.some(({ id }) => ask.choice.targets.includes(id))) return without(null);
  const asked = askWay(work, ask.choice, ask.way, { nowMs: ask.nowMs, startsAt: ask.wall.startsAt });
  if ('ok' in asked) return without(asked.says);
  let found = answerTo(asked, ask.choice.aim, planned);
  // What was begun tonight cannot wait for the morning: who opened a window in the evening stays up for it.
  const late = !found.answer.ok && found.answer.why === 'window' ? throughTonight(asked) : null;
  if (late) found = answerTo(late, ask.choice.aim, planned);
  const { request, answer, changed } = found;
  if (!answer.ok) return without(answer.says);
  return {
    id: ask.id,
    targets,
    why: null,
    troubles,
    plan: show(ask, request, answer, asked, changed, troubles, late !== null),
  };
}

/** The same with the night that runs or comes next worked through; null where the work has not begun or no night is off. */
export function throughTonight(asked: AskedWay): AskedWay | null {
  const { shut } = asked.before;
  const tonight = shut?.find(({ to }) => to > asked.now.at);
  if (!shut || !tonight || !asked.begun) return null;
  return { ...asked, before: { ...asked.before, shut: shut.filter((night) => night !== tonight) } };
}

const chosenOf = (answer: PlanAnswer, aim: WayChoice['aim']): Plan =>
  aim === 'earliest' ? answer.earliest : answer.least;

/** The plan after the last trouble, beside what would be without it. */
function answerTo(
  asked: AskedWay,
  aim: WayChoice['aim'],
  planned: Planned,
): { request: PlanRequest; answer: PlanAnswer | PlanRefusal; changed: WayChange | null } {
  const { before, event, now } = asked;
  if (event === null) return { request: before, answer: planned(before), changed: null };
  const next = afterEvent({ ...before, now }, event);
  if ('ok' in next) return { request: before, answer: next, changed: null };
  const old = planned(before);
  const answer = planned(next);
  const happened = sayEvent(before, event);
  if (!answer.ok || !old.ok)
    return { request: next, answer, changed: { happened, says: '', added: [], dropped: [] } };
  const done = new Set(now.did.filter(({ end }) => end <= now.at).map(({ id }) => id));
  const change = comparePlans(chosenOf(old, aim), chosenOf(answer, aim), done);
  return {
    request: next,
    answer,
    changed: {
      happened,
      says: sayFigures(change),
      added: change.added.map(({ does }) => does),
      dropped: change.dropped.map(({ does }) => does),
    },
  };
}

function show(
  ask: WayAsk,
  request: PlanRequest,
  answer: PlanAnswer,
  asked: AskedWay,
  changed: WayChange | null,
  troubles: WayPlan['troubles'],
  tonight: boolean,
): WayPlan {
  const { work } = request;
  const { wall, choice } = ask;
  const plan = chosenOf(answer, choice.aim);
  const clock = planClock(plan, work);
  const { lines, tools } = shoppingOf(plan, work, stockOf(ask.way.here));
  const now = asked.begun ? asked.now : null;
  const input = dipOfPlan(plan, work, clock, wall, now);
  const fresh = newParts(work.targets, choice.targets);
  const planned = new Set(plan.steps.map(({ id }) => id));
  const behind = doneSteps(work, asked.now.did).filter(({ id }) => !planned.has(id));
  const runs = new Set(asked.now.did.map(({ id }) => id));
  const toStep = (step: PlanStep, state: WayStep['state']) =>
    stepOf(step, state, ask.machine, work, wall, fresh);
  return {
    p50: sayTime(clock.p50, wall),
    p90: sayTime(clock.p90, wall),
    begun: asked.begun,
    ticked: asked.now.did.length > 0,
    says: [
      ...(tonight
        ? ['A window closes before the morning: this night is worked through, unless it is begun again.']
        : []),
      ...sayAnswer(answer, wall),
    ],
    differ: answer.differ,
    late: sayLate(clock),
    changed,
    troubles,
    strays: asked.strays,
    couldLeave: couldLeave(plan, work),
    steps: [
      ...behind.map((step) => toStep(step, 'done')),
      ...plan.steps.map((step) => toStep(step, runs.has(step.id) ? 'runs' : 'ahead')),
    ],
    list: lines.map((line) => ({
      supply: line.supply.id,
      says: sayShopping({ ...line, inStock: 0, toGet: line.amount }),
      here: ask.way.here.includes(line.supply.id),
    })),
    tools: tools.map(({ name }) => name),
    open: openOf(ask, plan, work),
    dip: drawDip(input, ask.shape),
    sheet: drawDip(input, 'wide'),
    strip: drawDipStrip(input, `Ride from ${sayTime(clock.p50, wall)}`),
  };
}

function openOf(ask: WayAsk, plan: Plan, work: Work): WayPlan['open'] {
  const km = ask.choice.km ?? usualKm(ask.machine, ask.year);
  const advice = adviseOpen(plan, work, wearOf(ask.machine), { km, ahead: AHEAD_KM, hour: HOUR_WORTH });
  if (advice === null) return null;
  return {
    km,
    lines: advice.lines.map(({ part, replace, says }) => ({ id: part.id, replace, says })),
    sum: `As advised it costs about ${Math.round(advice.cost)} in the end, leaving all of it about ${Math.round(advice.nothing)}, within ${AHEAD_KM / 1000} thousand km and with an hour at ${HOUR_WORTH}. Lives and prices are guesses; the money is of no country.`,
  };
}

/** What the way takes off and somebody might rather leave on: not what is only drained, raised or slackened. */
function couldLeave(plan: Plan, work: Work): readonly string[] {
  const given = work.actions
    .filter(({ id, back }) => plan.actions.includes(id) && back.length > 0)
    .flatMap(({ gives }) => gives);
  return [...new Set(given.filter((fact) => fact.endsWith(' off')))];
}

/** What is ticked as at hand is there in full. */
function stockOf(here: readonly string[]): Readonly<Record<string, number>> {
  return Object.fromEntries(here.map((id) => [id, Number.MAX_SAFE_INTEGER]));
}

function stepOf(
  step: PlanStep,
  state: WayStep['state'],
  machine: Machine,
  work: Work,
  wall: WallStart,
  fresh: readonly Part[],
): WayStep {
  const notes = [
    sayMinutes(step.end - step.start),
    ...(step.unattended ? ['runs by itself'] : []),
    ...(step.people > 1 ? [`${step.people} people`] : []),
    ...(state === 'ahead' && step.critical ? ['the ride waits for this'] : []),
    ...(state === 'ahead' && !step.critical && step.float >= 5 ? [`can wait ${sayMinutes(step.float)}`] : []),
  ];
  return {
    id: step.id,
    phase: step.phase,
    state,
    time: sayTime(step.start, wall),
    does: step.does,
    notes: notes.join(' · '),
    caution: step.caution,
    hold: step.hold,
    alone: step.unattended,
    tools: step.tools.map((id) => work.tools.find((tool) => tool.id === id)?.name ?? id),
    fastener: step.fastener === null ? null : sayFastener(machine, step.fastener, fresh),
    window: step.window && state === 'ahead' ? `must begin by ${sayTime(step.window.to, wall)}` : null,
    canJam: !step.unattended && (step.tools.length > 0 || step.fastener !== null),
    uses: (step.step?.uses ?? []).map(({ supply }) => ({
      supply,
      name: work.supplies.find(({ id }) => id === supply)?.name ?? supply,
    })),
  };
}

/** A trouble of the log in words, also of ids that this file no longer has. */
function sayTrouble(work: Work, { what, of, minutes }: Troubled): string {
  const piece = piecesOf(work).get(of)?.does ?? of;
  switch (what) {
    case 'seized':
      return minutes === null ? `“${piece}” will not come` : `“${piece}” takes ${sayMinutes(minutes)} more`;
    case 'stripped':
      return `A thread is stripped at “${piece}”`;
    case 'not-here':
      return `“${work.supplies.find(({ id }) => id === of)?.name ?? of}” is not here yet`;
    case 'helper-gone':
      return 'The helper is gone';
  }
}
