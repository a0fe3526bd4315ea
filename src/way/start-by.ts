/**
 * "It must be ridden on Saturday at nine: when must I begin?" The way is chosen once; its order of work is laid out anew
 * for each start, because the nights fall elsewhere in it, and its times are drawn once for all of them. Nights make
 * the chance no straight function of the start, so every half hour is tried, the latest first. What keeps this short:
 * a start is laid out only where the work fits the open hours that are left and the chain of waits fits the time at
 * all, in as many runs as asked; a start that is far too late is told by a tenth of the runs, the same for each; one hour
 * of the day is laid out once, on whichever day; and its order of work is looked for, not proved the shortest. The
 * proof took nine tenths of the time, 2.7 s for one person on the largest of the shipped machines, and changed no start.
 */
import { endsOf, quantileOf } from './clock.ts';
import { BLOCK, type ClockOptions, type DrawnTimes, drawTimes } from './draw-times.ts';
import { layPlan } from './lay-plan.ts';
import { planJob, searched } from './plan.ts';
import { startsOf, uncertainOf } from './plan-clock.ts';
import type { Plan, PlanAnswer, PlanRefusal, PlanRequest, Scheduler } from './plan-shape.ts';
import type { Project } from './project.ts';
import { scheduleProject } from './schedule.ts';
import { shutNights } from './to-project.ts';
import type { Action } from './work.ts';

export interface StartAsk {
  /** When it is to be ridden, min from the start of the job as the request has it. */
  readonly deadline: number;
  /** The earliest at which it can begin, on the same clock, min; below 0 where the job is still to come. */
  readonly now: number;
  /** Chances to be kept with, 0–1. */
  readonly chances: readonly number[];
  /** Wall clock at the request's start of the job, min after midnight. */
  readonly startsAt: number;
  /** Hours in which nobody works, min after midnight; null for none. The request's own, where it has any, are the same. */
  readonly nights: { readonly from: number; readonly to: number } | null;
  readonly aim: 'least' | 'earliest';
}

/** The latest start that keeps a deadline with a chance. */
export interface LatestStart {
  /** Chance asked for, 0–1. */
  readonly chance: number;
  /** On the clock of the deadline, min; null where no start from now on does. */
  readonly start: number | null;
  /** Chance that it is then kept, 0–1; 0 where there is no start. */
  readonly kept: number;
}

export interface StartBy {
  readonly ok: true;
  /** One for each chance asked for; with a job that has begun there is no start to choose, and none is given. */
  readonly latest: readonly LatestStart[];
  /** Begun now, or gone on with: chance that the deadline is kept, 0–1, and when it can be ridden with each chance, min. */
  readonly fromNow: { readonly kept: number; readonly rides: readonly number[] };
}

/** How far back a start is looked for, and in what steps, min. */
const BACK = 7 * 1440;
const STEP = 30;
/** Runs that tell a start which is far too late, count. */
const FEW_RUNS = 1000;
/** Where an order is known to end no later than this after the shortest there can be, no shorter one is looked for, min. */
const NEAR = 5;
/** An order that is not proved the shortest: what is promised of it holds all the same. */
const rough: Scheduler = (project, below = Number.POSITIVE_INFINITY) => {
  const found = scheduleProject(project, { steps: 200, below, near: NEAR });
  // That none was found in so short a time says nothing yet.
  return found.ok || found.why !== 'time' ? found : searched(project, below);
};

/**
 * The latest starts that keep a deadline, for the people of the request; a job in which something is done is not begun
 * anew, of it only `fromNow` is told. `planned` makes the plan, for who has it already. Throws RangeError for a deadline or now that is no time,
 * chances not between 0 and 1, and what the plan and the clock refuse.
 */
export function startBy(
  request: PlanRequest,
  ask: StartAsk,
  options: ClockOptions = {},
  planned: (request: PlanRequest) => PlanAnswer | PlanRefusal = (asked) => planJob(asked, rough),
): StartBy | PlanRefusal {
  const { deadline, now, chances, aim, startsAt, nights } = ask;
  for (const [name, value] of Object.entries({ deadline, now }))
    if (!Number.isFinite(value)) throw new RangeError(`${name} must be a finite number of min, got ${value}`);
  for (const chance of chances)
    if (!(chance > 0 && chance < 1)) throw new RangeError(`chance must be between 0 and 1, got ${chance}`);
  for (const [name, value] of Object.entries({ startsAt, ...nights }))
    if (!(value >= 0 && value <= 1440))
      throw new RangeError(`${name} must be from 0 to 1440 min, got ${value}`);
  const answer = planned(aim === 'least' ? { ...request, ways: 1 } : request);
  if (!answer.ok) return answer;
  const plan = aim === 'least' ? answer.least : answer.earliest;
  const drawn = drawTimes(uncertainOf(plan, request.work), options);
  const begun = (request.now?.did.length ?? 0) > 0;
  const zero = begun ? plan.at : now;
  const known = new Map<Plan, (times: DrawnTimes) => Float64Array>();
  const runsOf = (laid: Plan, times: DrawnTimes) => {
    const run = known.get(laid) ?? endsOf(laid.project, startsOf(laid), laid.gone);
    known.set(laid, run);
    return run(times);
  };
  const laidOut = startsLaidOut(request, ask, plan);
  const asPlanned = begun || (zero === plan.at && (request.shut ?? []).length > 0 === (nights !== null));
  const here = asPlanned ? plan : laidOut(now);
  if ('ok' in here) return here;
  const fromNow = runsOf(here, drawn);
  const told = {
    kept: keptOf(fromNow, deadline - zero),
    rides: chances.map((chance) => zero + quantileOf(fromNow, chance)),
  };
  if (begun) return { ok: true, latest: [], fromNow: told };
  const latest: LatestStart[] = chances.map((chance) => ({ chance, start: null, kept: 0 }));
  const most = mostKept(plan, drawn, request.people);
  const few = { ...drawn, runs: Math.min(drawn.runs, FEW_RUNS) };
  const doubt = 4 * Math.sqrt(0.25 / few.runs);
  for (const start of candidates(ask)) {
    const least = Math.min(...latest.flatMap(({ chance, start: found }) => (found === null ? [chance] : [])));
    if (least > 1) break;
    if (most(deadline - start, openBetween(ask, start)) < least) continue;
    const laid = start === now ? here : laidOut(start);
    if ('ok' in laid || keptOf(runsOf(laid, few), deadline - start) + doubt < least) continue;
    const kept = keptOf(runsOf(laid, drawn), deadline - start);
    for (const [i, each] of latest.entries())
      if (each.start === null && kept >= each.chance) latest[i] = { chance: each.chance, start, kept };
  }
  return { ok: true, latest, fromNow: told };
}

/** The plan's way laid out anew for a start. */
function startsLaidOut(
  request: PlanRequest,
  ask: StartAsk,
  plan: Plan,
): (start: number) => Plan | PlanRefusal {
  const { work } = request;
  const todo = plan.actions.map((id) => work.actions.find((action) => action.id === id) as Action);
  const dated = (request.arrivals ?? []).length > 0 || request.helperGone !== undefined || request.engine;
  const known = new Map<number, Plan | PlanRefusal>();
  return (start) => {
    const hour = (((ask.startsAt + start) % 1440) + 1440) % 1440;
    const key = dated ? start : hour;
    const before = known.get(key);
    if (before) return before;
    const laid = layPlan(begunAt(request, ask, start, hour), { todo, work: plan.work }, rough);
    known.set(key, laid);
    return laid;
  };
}

/** The request of a job that begins at another time, with all its times from there. */
function begunAt(request: PlanRequest, { nights }: StartAsk, start: number, hour: number): PlanRequest {
  const { arrivals, helperGone, engine, now, shut: _, ...rest } = request;
  return {
    ...rest,
    now: { at: 0, did: [], facts: now?.facts ?? [] },
    ...(nights ? { shut: shutNights(hour, nights.from, nights.to) } : {}),
    ...(arrivals ? { arrivals: arrivals.map(({ supply, at }) => ({ supply, at: at - start })) } : {}),
    ...(helperGone === undefined ? {} : { helperGone: helperGone - start }),
    ...(engine ? { engine: { ...engine, stoppedAt: engine.stoppedAt - start } } : {}),
  };
}

/** Starts to try, the latest first: full and half hours at which somebody may begin, and now. */
function candidates(ask: StartAsk): number[] {
  const { deadline, now, startsAt } = ask;
  const earliest = Math.max(now, deadline - BACK);
  const starts: number[] = [];
  let start = Math.floor((startsAt + deadline - 1) / STEP) * STEP - startsAt;
  for (; start > earliest; start -= STEP) if (!isShut(ask, start)) starts.push(start);
  if (now < deadline) starts.push(now);
  return starts;
}

function isShut({ nights, startsAt }: StartAsk, at: number): boolean {
  if (!nights) return false;
  const since = (((startsAt + at - nights.from) % 1440) + 1440) % 1440;
  return since < (nights.to - nights.from + 1440) % 1440;
}

/** Open minutes from a start to the deadline, min. */
function openBetween({ nights, startsAt, deadline }: StartAsk, start: number): number {
  if (!nights) return deadline - start;
  const long = (nights.to - nights.from + 1440) % 1440;
  /** Shut minutes from the first night's beginning up to a time. */
  const shutBy = (at: number) => {
    const since = startsAt + at - nights.from;
    const days = Math.floor(since / 1440);
    return days * long + Math.min(long, since - 1440 * days);
  };
  return deadline - start - (shutBy(deadline) - shutBy(start));
}

/**
 * No order of work is kept more often than this, 0–1, with so much time and so much of it open, min: in each run the
 * waits alone take their time, and the work of all hands takes its share of the open hours.
 */
function mostKept(plan: Plan, drawn: DrawnTimes, people: 1 | 2): (time: number, open: number) => number {
  const { tasks } = plan.project;
  const alone: Project = {
    ...plan.project,
    // What comes at an hour of its own comes sooner for who begins later.
    lags: plan.project.lags.filter(({ from, to }) => from !== 0 && to !== 0),
    shut: [],
    capacity: [],
    resources: [],
    tasks: tasks.map((task) => ({ ...task, demand: [] })),
  };
  const chain = endsOf(alone, startsOf(plan))(drawn);
  const work = new Float64Array(drawn.runs);
  tasks.forEach(({ attended, demand }, i) => {
    if (!attended) return;
    const share = demand[0]! / people;
    for (let run = 0; run < work.length; run += BLOCK) addWork(work, run, drawn, i, share);
  });
  work.sort();
  return (time, open) => Math.min(keptOf(chain, time), keptOf(work, open));
}

/** Adds a task's share of the work in the runs of one block, hand-min. */
function addWork(work: Float64Array, run: number, drawn: DrawnTimes, task: number, share: number): void {
  const { own, slowness, tasks } = drawn;
  const at = run * tasks + task * BLOCK;
  const many = Math.min(BLOCK, work.length - run);
  for (let n = 0; n < many; n++) work[run + n]! += own[at + n]! * slowness[run + n]! * share;
}

/** Share of ascending ends that are not after a time, 0–1. */
function keptOf(ends: Float64Array, by: number): number {
  let [low, high] = [0, ends.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (ends[middle]! <= by) low = middle + 1;
    else high = middle;
  }
  return low / ends.length;
}
