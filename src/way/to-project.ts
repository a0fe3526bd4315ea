/**
 * Pieces of a job → a project: tasks with resources (hands, tools), lags between starts, and the hours nobody works.
 * Task 0 is "now", of no duration; piece i is task i + 1.
 *
 * A helper who leaves later is a task that holds one pair of hands from then on. How long it lasts must not count in
 * the end of the project, so it is laid out up to an end that is moved outwards: each try is a relaxation of the
 * job (the helper comes back after the end tried), so each proven makespan is a bound, and the first that fits is exact.
 */
import type { Piece, Pieces } from './build-out.ts';
import type { PlanRequest, Scheduler, ShutHours } from './plan-shape.ts';
import type { Project, Schedule, StartLag, Task } from './project.ts';

/** Hours in which nobody works, every night: `from` and `to` are min after midnight, so is `startsAt`, job's start. */
export function shutNights(startsAt: number, from: number, to: number, days = 30): ShutHours[] {
  for (const [name, value] of Object.entries({ startsAt, from, to }))
    if (!(value >= 0 && value <= 1440))
      throw new RangeError(`${name} must be from 0 to 1440 min, got ${value}`);
  const long = (to - from + 1440) % 1440;
  if (long === 0) return [];
  return Array.from({ length: days + 1 }, (_, day) => {
    const start = from - startsAt + 1440 * (day - 1);
    return { from: start, to: start + long };
  }).filter((night) => night.to > 0);
}

/** The project of these pieces, in min from now. */
export function toProject({ pieces, lags }: Pieces, request: PlanRequest): Project {
  const at = request.now?.at ?? 0;
  const toolIds = [...new Set(pieces.flatMap(toolsOf))];
  const count = new Map(request.work.tools.map((t) => [t.id, t.count]));
  const gone = request.helperGone !== undefined && request.helperGone <= at;
  const resources = ['hands', ...toolIds];
  const capacity = [gone ? 1 : request.people, ...toolIds.map((t) => count.get(t) ?? 1)];
  const tasks: Task[] = [
    { id: 'now', name: 'now', duration: 0, demand: resources.map(() => 0), attended: false },
  ];
  // What runs has its people and tools already, whatever the clock says; told to take more than there is, it takes none.
  const holds = (piece: Piece) => {
    const tools = new Set(toolsOf(piece));
    return [handsOf(piece), ...toolIds.map((t) => (tools.has(t) ? 1 : 0))];
  };
  const runs = pieces.filter((p) => p.running).map(holds);
  const fits = capacity.every((most, r) => runs.reduce((sum, each) => sum + each[r]!, 0) <= most);
  for (const piece of pieces)
    tasks.push({
      id: piece.id,
      name: nameOf(piece),
      duration: piece.minutes,
      demand: piece.running && !fits ? resources.map(() => 0) : holds(piece),
      attended: !piece.running && handsOf(piece) > 0,
    });
  const index = new Map(pieces.map((p, i) => [p.id, i + 1]));
  const taskOf = (id: string | null) => (id === null ? 0 : index.get(id)!);
  const most = new Map<number, StartLag>();
  // One from the start and one from the end may both stand: which binds is known when the times are drawn.
  const add = (from: number, to: number, least: number, fromEnd = false) => {
    const key = 2 * (tasks.length * from + to) + Number(fromEnd);
    const old = most.get(key);
    if (!old || old.least < least) most.set(key, { from, to, least, fromEnd });
  };
  pieces.forEach((_, i) => {
    add(0, i + 1, 0);
  });
  for (const { from, to, least, fromEnd } of lags) add(taskOf(from), taskOf(to), least, fromEnd);
  const late = new Map((request.arrivals ?? []).map((a) => [a.supply, a.at - at]));
  const { engine } = request;
  pieces.forEach(({ step, running }, i) => {
    if (running || !step) return;
    if (step.cold && engine) add(0, i + 1, Math.max(0, Math.ceil(engine.stoppedAt + engine.coolsIn - at)));
    for (const { supply } of step.uses) {
      const here = late.get(supply);
      if (here !== undefined) add(0, i + 1, Math.max(0, Math.ceil(here)));
    }
  });
  return { tasks, lags: [...most.values()], capacity, resources, shut: shutFrom(request.shut ?? [], at) };
}

/** Shut hours in min from `at`, ascending, joined where they touch or overlap. */
function shutFrom(hours: readonly ShutHours[], at: number): ShutHours[] {
  const joined: { from: number; to: number }[] = [];
  for (const each of [...hours].sort((a, b) => a.from - b.from)) {
    const from = Math.max(0, Math.floor(each.from - at));
    const to = Math.ceil(each.to - at);
    const last = joined.at(-1);
    if (to <= from) continue;
    if (last && from <= last.to) last.to = Math.max(last.to, to);
    else joined.push({ from, to });
  }
  return joined;
}

/** Pairs of hands a piece takes, count. */
export function handsOf({ step, action }: Piece): number {
  return step ? step.hands : action!.hands;
}

/** Tools a piece holds. */
export function toolsOf({ step, action }: Piece): readonly string[] {
  return step ? step.tools : action!.tools;
}

/** What a piece does, in the words of the work. */
export function nameOf({ step, action }: Piece): string {
  return step ? step.does : action!.does;
}

/** Tries that move the end no further than was found; after them it is doubled, count. */
const EXACT = 8;

/**
 * Lays out a project whose helper leaves `gone` min from now; `gone` null: nobody leaves. Not laid out where even with
 * the helper to the end nothing ends before `below`, min.
 */
export function layOut(
  project: Project,
  gone: number | null,
  schedule: Scheduler,
  below = Number.POSITIVE_INFINITY,
): Schedule {
  const first = schedule(project, below);
  if (gone === null || gone <= 0 || !first.ok) return first;
  const { tasks, lags, capacity } = project;
  let end = first.makespan;
  let bound = first.bound;
  for (let tries = 0; tries < EXACT + 6 && end > gone; tries++) {
    const away: Task = {
      id: 'helper away',
      name: 'the helper is away',
      duration: end - gone,
      demand: project.resources.map((_, r) => (r === 0 ? 1 : 0)),
      attended: false,
    };
    const index = tasks.length;
    const held = [...lags, { from: 0, to: index, least: gone }, { from: index, to: 0, least: -gone }];
    const tried = schedule({ ...project, tasks: [...tasks, away], lags: held });
    if (!tried.ok) return { ...tried, fight: tried.fight.filter((t) => t < index) };
    const starts = tried.starts.slice(0, index);
    const makespan = starts.reduce((last, s, i) => Math.max(last, s + tasks[i]!.duration), 0);
    // Past an end that is not itself proved, what is found counts and the bound stays: the absence alone lasts to it.
    if (end <= bound) bound = Math.max(bound, Math.min(tried.bound, makespan));
    if (makespan <= end) return { ...tried, starts, makespan, bound, proved: bound === makespan };
    end = tries < EXACT ? makespan : Math.max(makespan, 2 * end);
  }
  if (end <= gone) return first;
  // Not settled: one pair of hands from now on is later or the same, and possible.
  const alone = schedule({ ...project, capacity: [1, ...capacity.slice(1)] });
  return alone.ok ? { ...alone, bound, proved: bound === alone.makespan } : alone;
}
