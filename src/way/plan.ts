/**
 * The plan of a job: the cheapest way in, laid out in time with the way out, and the earliest ride beside it.
 *
 * Least work and earliest ride are two aims. Least work is proved by the strip-down. For the earliest ride the ways
 * that avoid, one at a time, the actions which take longest (with what cures on their way back) are laid out as well,
 * and the soonest is taken: soonest of those tried, not proved over all ways; a way whose chain of waits alone is
 * not sooner is not laid out. The integrated problem (one search over way and schedule) was passed over: the
 * schedule's bound is weak while the moves are open, and two proofs one after the other can be told to a person.
 */
import { type CheapestOptions, cheapestWay } from './cheapest-way.ts';
import { checkRequest } from './check-request.ts';
import { type Chosen, layPlan } from './lay-plan.ts';
import { leaveOn } from './leave-on.ts';
import type { LeftComparison, Plan, PlanAnswer, PlanRefusal, PlanRequest, Scheduler } from './plan-shape.ts';
import { refuse } from './plan-shape.ts';
import { sayList, sayMinutes } from './plan-words.ts';
import { scheduleProject } from './schedule.ts';
import type { Way } from './strip-down.ts';
import { type StripProblem, stripProblem } from './strip-problem.ts';
import { type Action, meanOf } from './work.ts';

const WAYS = 6;

const quoted = (names: readonly string[]) => sayList(names.map((n) => `"${n}"`));

/** The room's own scheduler, ended where a person would no longer wait; what is not proved by then says so. */
export const searched: Scheduler = (project, below = Number.POSITIVE_INFINITY) =>
  scheduleProject(project, { steps: 5000, below });

/** The plan, or one sentence that says why there is none. */
export function planJob(request: PlanRequest, schedule: Scheduler = searched): PlanAnswer | PlanRefusal {
  const bad = checkRequest(request);
  if (bad) return bad;
  const now = request.now ?? { at: 0, did: [], facts: [] };
  const strip = stripProblem(request.work, openTargets(request), now, request.stuck);
  const { problem, never } = strip;
  const leave = request.leave ?? [];
  let without = never;
  let way: Way;
  let left: LeftComparison | null = null;
  if (leave.length === 0) {
    way = cheapestWay(problem, { without });
  } else {
    const indices = leave.map((f) => strip.factOf.get(f)!);
    const already = leave.filter((_, i) => problem.start.includes(indices[i]!));
    if (already.length > 0)
      return refuse('left', `This is so already and cannot be left: ${quoted(already)}.`, already);
    const both = leaveOn(problem, indices, { without });
    if (both.contradicted.length > 0) {
      const names = both.contradicted.map((f) => problem.facts[f]!);
      return refuse('left', `What is asked for needs ${quoted(names)}, so that cannot be left.`, names);
    }
    way = both.left;
    if (way.ok && both.free.ok) left = compareLeft(strip, leave, both);
    if (!way.ok && both.free.ok) {
      const names = way.unreachable.map((f) => problem.facts[f]!);
      return refuse('left', `Without ${quoted(leave)} there is no way to ${quoted(names)}.`, [
        ...leave,
        ...names,
      ]);
    }
    without = [...new Set([...never, ...both.without])];
  }
  if (!way.ok) return outOfReach(request, strip, way);

  let least = layPlan(request, chosenOf(strip, way), schedule);
  // A way with a step that these people or hours cannot carry out is none: the next without it, where there is one.
  while ('ok' in least) {
    const move = impossibleMove(strip, way.moves, least);
    if (move === null) return least;
    without = [...without, move];
    const other = cheapestWay(problem, { without });
    if (!other.ok) return least;
    way = other;
    least = layPlan(request, chosenOf(strip, way), schedule);
  }
  const { earliest, tried } = soonest(request, strip, way, least, { without }, schedule);
  return { ok: true, least, earliest, tried, differ: difference(request, least, earliest, tried), left };
}

/** Targets whose work is not finished; one without work is finished when anything has been put back. */
function openTargets({ work, targets, now }: PlanRequest): string[] {
  const did = new Set(now?.did.map((d) => d.id));
  const back = work.actions.some((a) => a.back.some((s) => did.has(s.id)));
  return targets.filter((id) => {
    const target = work.targets.find((t) => t.id === id)!;
    return target.work.length === 0 ? !back : !target.work.every((s) => did.has(s.id));
  });
}

/** The move of the way that a refusal for hands or hours speaks of, itself or a step of putting it back. */
function impossibleMove(strip: StripProblem, moves: readonly number[], no: PlanRefusal): number | null {
  if (no.why !== 'hands' && no.why !== 'hours') return null;
  const own = (a: Action) => no.names.includes(a.id) || a.back.some((s) => no.names.includes(s.id));
  return moves.find((m) => own(strip.actions[m]!)) ?? null;
}

function chosenOf(strip: StripProblem, way: Extract<Way, { ok: true }>): Chosen {
  return {
    todo: way.moves.map((m) => strip.actions[m]!),
    work: { minutes: way.cost / 10, bound: way.bound / 10, proved: way.proved },
  };
}

/** How long an action can hold up the ride: going in, a seizure, and what runs by itself on its way back, min. */
function holdsUp(action: Action): number {
  const waits = action.back.reduce((sum, s) => sum + (s.hands === 0 ? meanOf(s.minutes) : 0), 0);
  const lags = action.back.reduce(
    (sum, s) => sum + s.lags.reduce((most, l) => Math.max(most, l.least), 0),
    0,
  );
  const seizing = action.seizes ? action.seizes.chance * meanOf(action.seizes.adds) : 0;
  return waits + lags + seizing + meanOf(action.minutes);
}

function soonest(
  request: PlanRequest,
  strip: StripProblem,
  way: Extract<Way, { ok: true }>,
  least: Plan,
  options: CheapestOptions,
  schedule: Scheduler,
): { earliest: Plan; tried: number } {
  let earliest = least;
  let tried = 1;
  const seen = new Set([[...way.moves].sort().join()]);
  const long = [...way.moves].sort((a, b) => holdsUp(strip.actions[b]!) - holdsUp(strip.actions[a]!));
  for (const move of long) {
    if (tried >= (request.ways ?? WAYS)) break;
    const other = cheapestWay(strip.problem, { ...options, without: [...(options.without ?? []), move] });
    if (!other.ok) continue;
    const key = [...other.moves].sort().join();
    if (seen.has(key)) continue;
    seen.add(key);
    tried += 1;
    // Its own work is not the least there is: the bound of the way with nothing avoided holds for it.
    const chosen = chosenOf(strip, other);
    const work = {
      ...chosen.work,
      bound: least.work.bound,
      proved: chosen.work.minutes === least.work.bound,
    };
    // One that rides at the same time is taken for less work only where the least work is not the choice already.
    const before = earliest === least ? earliest.ride.at : earliest.ride.at + 1;
    const plan = layPlan(request, { ...chosen, work }, schedule, before);
    if ('ok' in plan) continue;
    const sooner = plan.ride.at < earliest.ride.at;
    const same = plan.ride.at === earliest.ride.at && plan.work.minutes < earliest.work.minutes;
    if (sooner || (same && earliest !== least)) earliest = plan;
  }
  return { earliest, tried };
}

function difference(request: PlanRequest, least: Plan, earliest: Plan, tried: number): string | null {
  if (least === earliest) return null;
  const does = (ids: readonly string[]) =>
    sayList(ids.map((id) => `"${request.work.actions.find((a) => a.id === id)!.does}"`));
  const only = earliest.actions.filter((a) => !least.actions.includes(a));
  const not = least.actions.filter((a) => !earliest.actions.includes(a));
  const more = earliest.work.minutes - least.work.minutes;
  const what =
    not.length > 0 ? `${does(only) || 'nothing more'} instead of ${does(not)}` : `${does(only)} as well`;
  return (
    `The ride is ${sayMinutes(least.ride.at - earliest.ride.at)} sooner with ${what}, ` +
    `for ${sayMinutes(more)} more work. It is the soonest of ${tried} ways tried.`
  );
}

function compareLeft(
  strip: StripProblem,
  leave: readonly string[],
  both: ReturnType<typeof leaveOn>,
): LeftComparison {
  const list = (moves: readonly number[]) =>
    moves
      .map((m) => ({ action: strip.actions[m]!.id, minutes: strip.problem.moves[m]!.cost / 10 }))
      .filter((m) => m.minutes > 0);
  const say = (moves: readonly number[]) =>
    sayList(
      moves
        .filter((m) => strip.problem.moves[m]!.cost > 0)
        .map((m) => `"${strip.actions[m]!.does}" (${sayMinutes(strip.problem.moves[m]!.cost / 10)})`),
    ) || 'nothing more';
  const dearer = (both.dearer ?? 0) / 10;
  const so = both.proved ? '' : ' Neither figure is proved least.';
  const says =
    both.onlyFree.length === 0 && both.onlyLeft.length === 0
      ? `The cheapest way leaves it as it is anyway: ${quoted(leave)} is not needed.${so}`
      : `Without ${quoted(leave)} it takes ${say(both.onlyLeft)} in place of ${say(both.onlyFree)}: ` +
        (dearer === 0
          ? `the same work.${so}`
          : `${sayMinutes(Math.abs(dearer))} ${dearer > 0 ? 'more' : 'less'} work.${so}`);
  return {
    leave,
    dearer,
    proved: both.proved,
    onlyFree: list(both.onlyFree),
    onlyLeft: list(both.onlyLeft),
    says,
  };
}

function outOfReach(
  request: PlanRequest,
  strip: StripProblem,
  way: Extract<Way, { ok: false }>,
): PlanRefusal {
  const name = (f: number) => strip.problem.facts[f]!;
  const goals = new Set(way.unreachable.map(name));
  const targets = request.work.targets.filter(
    (t) => request.targets.includes(t.id) && t.needs.some((f) => goals.has(f)),
  );
  const what = sayList(targets.map((t) => t.name));
  const stuck = strip.never.filter((m) =>
    strip.problem.moves[m]!.gives.some(
      (f) => way.missing.includes(f) || way.unreachable.includes(f) || way.cycle.includes(f),
    ),
  );
  const names = [...targets.map((t) => t.id), ...way.missing.map(name), ...way.cycle.map(name)];
  if (stuck.length > 0) {
    const does = sayList(stuck.map((m) => `"${strip.actions[m]!.does}"`));
    return refuse(
      'unreachable',
      `${what} cannot be reached: ${does} will not come, and there is no other way round.`,
      [...names, ...stuck.map((m) => strip.actions[m]!.id)],
    );
  }
  if (way.cycle.length > 0) {
    const round = sayList(way.cycle.map((f) => `"${name(f)}"`));
    return refuse(
      'unreachable',
      `${what} cannot be reached: ${round} wait for each other in a circle.`,
      names,
    );
  }
  const missing = sayList(way.missing.map((f) => `"${name(f)}"`));
  return refuse(
    'unreachable',
    `${what} cannot be reached: nothing in this bike's work gives ${missing}.`,
    names,
  );
}
