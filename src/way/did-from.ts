/**
 * What has been done, from ticks. A tick is one moment; a plan made anew wants when each step began and ended, and that
 * the cure which followed the bead is running already though nobody ticked it.
 */
import type { Did } from './plan-shape.ts';
import { type Action, type BuildStep, meanOf, type Work } from './work.ts';

/** One step's tick. At least one of the two times is there. */
export interface Tick {
  /** Id of an action or a build step. */
  readonly id: string;
  /** When it was set going, min from the start of the job. */
  readonly begun: number | null;
  /** When it was done, min from the start of the job. */
  readonly done: number | null;
}

/** Every action and step of the work by its id. */
export function piecesOf(work: Work): ReadonlyMap<string, Action | BuildStep> {
  const steps = listsOf(work).flat();
  return new Map([...work.actions, ...steps].map((each) => [each.id, each]));
}

/** Steps in the lists in which each follows the one before it. */
function listsOf(work: Work): readonly (readonly BuildStep[])[] {
  return [...work.actions.map((a) => a.back), ...work.targets.map((t) => t.work), work.closing];
}

/**
 * What was done and what runs, in the order of the ticks, each tick's own followed by what it set going by itself: a
 * step without hands begins when the one before it in its list ends. A step ticked as done is taken to have lasted
 * its usual time up to the tick; one only set going lasts its usual time. Ticks of ids that the work does not have
 * are in `strays`.
 */
export function didFrom(
  work: Work,
  ticks: readonly Tick[],
): { readonly did: readonly Did[]; readonly strays: readonly string[] } {
  const pieces = piecesOf(work);
  const next = new Map<string, BuildStep>();
  for (const list of listsOf(work))
    for (let i = 1; i < list.length; i++) if (list[i]!.hands === 0) next.set(list[i - 1]!.id, list[i]!);
  const ticked = new Set(ticks.map(({ id }) => id));
  const did: Did[] = [];
  const strays: string[] = [];
  for (const { id, begun, done } of ticks) {
    const piece = pieces.get(id);
    if (!piece) {
      strays.push(id);
      continue;
    }
    const usual = Math.round(meanOf(piece.minutes));
    const end = done ?? begun! + usual;
    let last: Did = { id, start: Math.min(begun ?? end - usual, end), end };
    did.push(last);
    for (let after = next.get(id); after && !ticked.has(after.id); after = next.get(after.id)) {
      last = { id: after.id, start: last.end, end: last.end + Math.round(meanOf(after.minutes)) };
      did.push(last);
    }
  }
  return { did, strays };
}
