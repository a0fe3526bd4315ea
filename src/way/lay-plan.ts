/**
 * One strip-down laid out in time as a plan: pieces, project, schedule, floats, words for what does not fit.
 */
import { buildPieces, type Piece, type Pieces } from './build-out.ts';
import { chainEnd, floats } from './critical.ts';
import {
  type HoldKind,
  type Plan,
  type PlanRefusal,
  type PlanRequest,
  type PlanStep,
  refuse,
  type Scheduler,
} from './plan-shape.ts';
import type { Project } from './project.ts';
import { handsOf, layOut, nameOf, toolsOf, toProject } from './to-project.ts';
import type { Action, BuildStep, Fact, Work } from './work.ts';

/** What the strip-down says of a way: actions in order, work in hand-min with its bound. */
export interface Chosen {
  readonly todo: readonly Action[];
  readonly work: Plan['work'];
}

const HOLDS: Partial<Record<BuildStep['kind'], HoldKind>> = {
  torque: 'sign',
  lock: 'sign',
  seal: 'sign',
  retainer: 'look',
  inspect: 'look',
  shim: 'measure',
  measure: 'measure',
  prove: 'measure',
  cure: 'wait',
};

/** Why one must stop at this step; null where one need not. */
export function holdOf(step: BuildStep): HoldKind | null {
  return HOLDS[step.kind] ?? null;
}

/** Levels above the deepest that has one of the facts, count. */
export function depthOf(work: Work, facts: readonly Fact[]): number {
  let depth = 0;
  work.levels.forEach((level, i) => {
    if (facts.some((f) => level.facts.includes(f))) depth = Math.max(depth, i);
  });
  return depth;
}

const quoted = (names: readonly string[]) => names.map((n) => `"${n}"`).join(', ');

/** Why the lags or the hours cannot be kept, in words. */
function whyNot(
  project: Project,
  why: 'lags' | 'resources' | 'time',
  fight: readonly number[],
  hands: number,
): PlanRefusal {
  const steps = fight.filter((t) => t !== 0).map((t) => project.tasks[t]!);
  const names = steps.map((t) => t.id);
  const words = quoted(steps.map((t) => t.name));
  if (why === 'lags' && fight.includes(0))
    return refuse(
      'window',
      `The window of what has been done closes before the next step can start: ${words}. Do the earlier step again.`,
      names,
    );
  if (why === 'lags')
    return refuse(
      'lags',
      `These steps cannot all keep their waits and windows: ${words}. One asks for more time than another allows.`,
      names,
    );
  if (why === 'resources')
    return refuse(
      'resources',
      `No order of these steps fits the people, tools, hours and windows: ${words || 'all steps'}.`,
      names,
    );
  return refuse(
    'time',
    `No order of work was found with ${hands} ${hands === 1 ? 'person' : 'people'} in the time spent looking.`,
    names,
  );
}

/** A step that no number of tries could fit: too many hands, or longer than any open hours. */
function misfit(pieces: readonly Piece[], project: Project): PlanRefusal | null {
  const longest = longestOpen(project);
  for (const [i, piece] of pieces.entries()) {
    const task = project.tasks[i + 1]!;
    const short = task.demand.findIndex((d, r) => d > project.capacity[r]!);
    if (short === 0)
      return refuse(
        'hands',
        `"${nameOf(piece)}" takes ${handsOf(piece)} pairs of hands and there ${project.capacity[0] === 1 ? 'is 1' : `are ${project.capacity[0]}`}.`,
        [piece.id],
      );
    if (short > 0)
      return refuse(
        'resources',
        `"${nameOf(piece)}" needs the tool "${project.resources[short]}", and the workshop has none.`,
        [piece.id],
      );
    if (task.attended && task.duration > longest)
      return refuse(
        'hours',
        `"${nameOf(piece)}" takes ${task.duration} min at a stretch, longer than any open hours (${longest} min).`,
        [piece.id],
      );
  }
  return null;
}

/** The longest stretch between shut hours, min. Fewer than a week of them are taken as exceptions, not as every night. */
function longestOpen({ shut }: Project): number {
  if (shut.length < 7) return Number.POSITIVE_INFINITY;
  let longest = 0;
  let at = 0;
  for (const { from, to } of shut) {
    longest = Math.max(longest, from - at);
    at = to;
  }
  return longest;
}

/** The plan of a way, or why it cannot be laid out; `before`: only one that rides before this is asked for, min. */
export function layPlan(
  request: PlanRequest,
  chosen: Chosen,
  schedule: Scheduler,
  before = Number.POSITIVE_INFINITY,
): Plan | PlanRefusal {
  const { work, stuck = [] } = request;
  const now = request.now ?? { at: 0, did: [], facts: [] };
  const targets = work.targets.filter((t) => request.targets.includes(t.id));
  const built = buildPieces(work, targets, chosen.todo, now, stuck);
  const { pieces } = built;
  const project = toProject(built, request);
  const no = misfit(pieces, project);
  if (no) return no;
  const chain = now.at + chainEnd(project);
  // Lags that fight are for the scheduler to name.
  if (Number.isFinite(chain) && chain >= before)
    return refuse('time', 'The waits of these steps alone take longer.');
  const gone =
    request.people === 2 && request.helperGone !== undefined ? Math.floor(request.helperGone - now.at) : null;
  const laid = layOut(project, gone, schedule, Math.ceil(before - now.at));
  if (!laid.ok && before < Number.POSITIVE_INFINITY)
    return refuse('time', 'No order of these steps was found that rides sooner.');
  if (!laid.ok) return whyNot(project, laid.why, laid.fight, project.capacity[0]!);
  if (laid.starts[0] !== 0) return missed(built, request.work);
  const slack = floats(withAway(project, gone, laid.makespan), [...laid.starts, gone ?? 0], laid.makespan);
  const steps = pieces.map((piece, i) =>
    toStep(request, built, piece, laid.starts, i, slack[i + 1]!, now.at),
  );
  const order = [...steps].map((s) => s.id);
  return {
    steps: [...steps].sort((a, b) => a.start - b.start || a.end - b.end),
    actions: chosen.todo.map((a) => a.id),
    work: chosen.work,
    ride: { at: now.at + laid.makespan, bound: now.at + laid.bound, proved: laid.proved },
    at: now.at,
    project,
    order,
    gone: gone !== null && gone > 0 ? gone : null,
    stuck,
  };
}

/** The project with what a helper who leaves takes away, so that floats do not count on both pairs of hands. */
function withAway(project: Project, gone: number | null, end: number): Project {
  const away = gone !== null && gone > 0 && gone < end;
  const demand = project.resources.map((_, r) => (away && r === 0 ? 1 : 0));
  const task = { id: 'helper away', name: '', duration: away ? end - gone : 0, demand, attended: false };
  return { ...project, tasks: [...project.tasks, task] };
}

/** The project could begin only later than now: a window of something done is missed. */
function missed({ windows, pieces }: Pieces, work: Work): PlanRefusal {
  const open = windows.filter((w) => w.from === null);
  const step = (id: string) => pieces.find((p) => p.id === id);
  const name = (id: string) =>
    [...work.actions.flatMap((a) => a.back), ...work.targets.flatMap((t) => t.work), ...work.closing].find(
      (s) => s.id === id,
    )?.does ?? id;
  const words = open
    .map((w) => `"${nameOf(step(w.to)!)}" within the window of "${name(w.after)}"`)
    .join('; ');
  return refuse(
    'window',
    `It is too late for ${words}: do the earlier step again.`,
    open.flatMap((w) => [w.after, w.to]),
  );
}

function toStep(
  request: PlanRequest,
  built: Pieces,
  piece: Piece,
  starts: readonly number[],
  i: number,
  float: number,
  at: number,
): PlanStep {
  const { step, action, phase } = piece;
  const start = piece.running ? piece.running.start : at + starts[i + 1]!;
  const index = (id: string | null) => (id === null ? 0 : built.pieces.findIndex((p) => p.id === id) + 1);
  let open: PlanStep['window'] = null;
  for (const w of built.windows) {
    if (w.to !== piece.id) continue;
    const base = at + starts[index(w.from)]!;
    if (open === null || base + w.most < open.to)
      open = { from: base + w.least, to: base + w.most, after: w.after };
  }
  return {
    id: piece.id,
    does: nameOf(piece),
    phase,
    action: action?.id ?? null,
    step,
    kind: step?.kind ?? 'take off',
    start,
    end: piece.running ? piece.running.end : start + piece.minutes,
    people: handsOf(piece),
    tools: toolsOf(piece),
    depth: depthOf(request.work, piece.facts),
    unattended: handsOf(piece) === 0,
    critical: float === 0,
    // What opened the window may be put off as well; once it has begun, only the window is left.
    float: open === null ? float : Math.max(0, Math.min(float, open.to - start)),
    window: open,
    caution: (step ? step.caution : action?.caution) ?? null,
    fastener: (step ? step.fastener : action?.fastener) ?? null,
    hold: step ? holdOf(step) : null,
  };
}
