/**
 * The pieces of a job and what each waits for: the moves in, the work at the bottom, the way out in reverse, closing.
 *
 * Out: before the first step back of an action, everything that needed the action is back. A wait at the end of an
 * action's steps (a cure, no hands) does not hold up what goes back over it; closing waits for it all the same,
 * because an engine must not be filled or run on a wet bead. Where an action has nothing to put back, what it needed
 * waits for whatever needed it.
 */
import type { BikeNow, Did, Phase, Stuck } from './plan-shape.ts';
import { expectedIn, follows, givesAll, outNow } from './strip-problem.ts';
import { type Action, type BuildStep, type Fact, meanOf, type Target, type Work } from './work.ts';

export interface Piece {
  readonly id: string;
  readonly phase: Phase;
  readonly action: Action | null;
  readonly step: BuildStep | null;
  /** Expected duration, whole min. */
  readonly minutes: number;
  readonly facts: readonly Fact[];
  /** Set for what runs already. */
  readonly running: Did | null;
}

/** `to` starts at least `least` minutes after `from` starts; `from` or `to` null: now. */
export interface PieceLag {
  readonly from: string | null;
  readonly to: string | null;
  readonly least: number;
  /** True where it counts from the end of `from` (of `to`, where it is an upper bound), and has its planned time in it. */
  readonly fromEnd?: boolean;
}

/** A window: `to` starts at most `most` min after `from` starts; `from` null: after now. */
export interface Window {
  readonly from: string | null;
  readonly to: string;
  readonly least: number;
  readonly most: number;
  /** Id of the step whose window it is. */
  readonly after: string;
}

export interface Pieces {
  readonly pieces: readonly Piece[];
  readonly lags: readonly PieceLag[];
  readonly windows: readonly Window[];
}

/** Duration for the order of work, whole min; nothing that takes time takes none. */
function whole(minutes: number): number {
  return minutes > 0 ? Math.max(1, Math.round(minutes)) : 0;
}

/** Which of the actions, in this order, first gives each fact. */
export function firstGivers(
  order: readonly Action[],
  given: readonly Fact[],
): ReadonlyMap<Fact, Action | null> {
  const giver = new Map<Fact, Action | null>();
  for (const fact of given) {
    giver.set(fact, null);
    const then = follows(fact);
    if (then !== null) giver.set(then, null);
  }
  for (const action of order)
    for (const fact of givesAll(action)) if (!giver.has(fact)) giver.set(fact, action);
  return giver;
}

/** Pieces for carrying out `todo` (in an order that works) and putting everything back. */
export function buildPieces(
  work: Work,
  targets: readonly Target[],
  todo: readonly Action[],
  now: BikeNow,
  stuck: readonly Stuck[],
): Pieces {
  const extra = new Map<string, number>();
  for (const { action, adds } of stuck)
    if (adds !== 'never') extra.set(action, (extra.get(action) ?? 0) + adds);
  const latest = new Map<string, Did>();
  const backOf = new Map(work.actions.map((a) => [a.id, a.back]));
  for (const each of now.did) {
    // Carried out once more: what was put back before does not count.
    for (const step of backOf.get(each.id) ?? []) latest.delete(step.id);
    latest.set(each.id, each);
  }
  const again = new Set(todo.flatMap((a) => a.back.map((s) => s.id)));
  const did = (id: string) => (again.has(id) ? undefined : latest.get(id));
  const redo = new Set(todo.map((a) => a.id));
  const isOut = outNow(work, now).filter((a) => !redo.has(a.id));
  // An action half put back is finished too, unless it is carried out again.
  const outIds = new Set(isOut.map((a) => a.id));
  const half = work.actions.filter(
    (a) =>
      !redo.has(a.id) &&
      !outIds.has(a.id) &&
      a.back.some((s) => latest.has(s.id)) &&
      a.back.some((s) => !latest.has(s.id) || latest.get(s.id)!.end > now.at),
  );
  const all = [...isOut, ...half, ...todo];

  const pieces: Piece[] = [];
  const byId = new Map<string, Piece>();
  const lags: PieceLag[] = [];
  const windows: Window[] = [];
  const add = (
    id: string,
    phase: Phase,
    action: Action | null,
    step: BuildStep | null,
    facts: readonly Fact[],
  ) => {
    const done = phase === 'in' ? undefined : did(id);
    if (done && done.end <= now.at) return;
    const mean = step ? meanOf(step.minutes) : expectedIn(action!, extra.get(action!.id));
    const minutes = done ? Math.ceil(done.end - now.at) : whole(mean);
    const piece: Piece = { id, phase, action, step, minutes, facts, running: done ?? null };
    pieces.push(piece);
    byId.set(id, piece);
    if (done) lags.push({ from: null, to: id, least: 0 }, { from: id, to: null, least: 0 });
  };
  /** `to` waits for the end of `id`, which may be done, running or to come. */
  const after = (id: string, to: string) => {
    const piece = byId.get(id);
    if (piece && byId.has(to) && byId.get(to)!.running === null)
      lags.push({ from: id, to, least: piece.minutes, fromEnd: true });
  };

  for (const action of isOut) {
    const { end, start } = latest.get(action.id)!;
    if (end <= now.at) continue;
    const minutes = Math.ceil(end - now.at);
    const piece: Piece = {
      id: action.id,
      phase: 'in',
      action,
      step: null,
      minutes,
      facts: action.gives,
      running: { id: action.id, start, end },
    };
    pieces.push(piece);
    byId.set(action.id, piece);
    lags.push({ from: null, to: action.id, least: 0 }, { from: action.id, to: null, least: 0 });
  }
  for (const action of todo) add(action.id, 'in', action, null, action.gives);
  for (const target of targets)
    for (const step of target.work) add(step.id, 'bottom', null, step, target.needs);
  for (const action of [...all].reverse())
    for (const step of action.back) add(step.id, 'out', action, step, action.gives);
  for (const step of work.closing) add(step.id, 'closing', null, step, []);

  const giver = firstGivers([...isOut, ...todo], now.facts);
  const askers = new Map<string, string[]>();
  const ask = (fact: Fact, who: string, action: Action | null) => {
    const of = giver.get(fact);
    if (of === undefined || of === null || of === action) return;
    askers.set(of.id, [...(askers.get(of.id) ?? []), who]);
    after(of.id, action ? action.id : who);
  };
  const endOf = new Map<string, readonly string[]>();
  for (const action of all) for (const fact of action.needs) ask(fact, action.id, action);
  for (const target of targets) {
    for (const fact of target.needs) {
      const of = giver.get(fact);
      if (of === undefined || of === null) continue;
      askers.set(of.id, [...(askers.get(of.id) ?? []), `target ${target.id}`]);
      for (const step of target.work) after(of.id, step.id);
    }
    endOf.set(
      `target ${target.id}`,
      target.work.map((s) => s.id),
    );
  }

  const chain = (steps: readonly BuildStep[]) => {
    for (let i = 1; i < steps.length; i++) for (let j = 0; j < i; j++) after(steps[j]!.id, steps[i]!.id);
  };
  for (const target of targets) chain(target.work);
  for (const action of all) chain(action.back);
  chain(work.closing);

  const actionOf = new Map(all.map((a) => [a.id, a]));
  /** Adds the steps after whose end what an asker needed may go back. */
  const release = (who: string, seen: Set<string>, ends: Set<string>): void => {
    if (seen.has(who)) return;
    seen.add(who);
    const fixed = endOf.get(who);
    if (fixed) {
      for (const id of fixed) ends.add(id);
      return;
    }
    const action = actionOf.get(who)!;
    let last = action.back.length;
    while (last > 0 && action.back[last - 1]!.hands === 0) last -= 1;
    ends.add(action.id);
    for (let i = 0; i < last; i++) ends.add(action.back[i]!.id);
    for (const each of askers.get(who) ?? []) release(each, seen, ends);
  };
  for (const action of all) {
    const ends = new Set<string>();
    release(action.id, new Set(), ends);
    const own = new Set(action.back.map((s) => s.id));
    for (const step of action.back) for (const end of ends) if (!own.has(end)) after(end, step.id);
  }
  for (const step of work.closing)
    for (const piece of pieces) if (piece.phase !== 'closing') after(piece.id, step.id);

  for (const piece of pieces) {
    for (const { after: other, from, least, most } of piece.step?.lags ?? []) {
      if (piece.running) continue;
      const before = byId.get(other);
      const done = did(other);
      // Times of what is done or runs are known; all else is bound to the start of the other step.
      const base = done ? null : before ? other : undefined;
      if (base === undefined) continue;
      const shift = done
        ? (from === 'start' ? done.start : done.end) - now.at
        : from === 'start'
          ? 0
          : before!.minutes;
      const fromEnd = !done && from === 'end';
      lags.push({ from: base, to: piece.id, least: Math.ceil(shift + least), fromEnd });
      if (most === undefined) continue;
      const limit = Math.floor(shift + most);
      lags.push({ from: piece.id, to: base, least: -limit, fromEnd });
      windows.push({ from: base, to: piece.id, least: Math.ceil(shift + least), most: limit, after: other });
    }
  }
  return { pieces, lags, windows };
}
