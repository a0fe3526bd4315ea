/** Steps already done, in the shape of a plan's steps, so that one picture and one list hold the whole job. */
import { depthOf, holdOf } from './lay-plan.ts';
import type { Did, Phase, PlanStep } from './plan-shape.ts';
import type { Action, BuildStep, Fact, Work } from './work.ts';

/** Steps of the work that were done or run, at the times at which they were. Ids that the work does not have are left out. */
export function doneSteps(work: Work, did: readonly Did[]): readonly PlanStep[] {
  const steps: PlanStep[] = [];
  const found = placesOf(work);
  for (const { id, start, end } of did) {
    const place = found.get(id);
    if (!place) continue;
    const { piece, phase, action, facts } = place;
    const step = 'kind' in piece ? piece : null;
    steps.push({
      id,
      does: piece.does,
      phase,
      action: action?.id ?? null,
      step,
      kind: step?.kind ?? 'take off',
      start,
      end,
      people: piece.hands,
      tools: piece.tools,
      depth: depthOf(work, facts),
      unattended: piece.hands === 0,
      critical: false,
      float: 0,
      window: null,
      caution: piece.caution ?? null,
      fastener: piece.fastener ?? null,
      hold: step ? holdOf(step) : null,
    });
  }
  return steps;
}

interface Place {
  readonly piece: Action | BuildStep;
  readonly phase: Phase;
  readonly action: Action | null;
  readonly facts: readonly Fact[];
}

function placesOf(work: Work): ReadonlyMap<string, Place> {
  const found = new Map<string, Place>();
  for (const action of work.actions) {
    found.set(action.id, { piece: action, phase: 'in', action, facts: action.gives });
    for (const step of action.back)
      found.set(step.id, { piece: step, phase: 'out', action, facts: action.gives });
  }
  for (const target of work.targets)
    for (const step of target.work)
      found.set(step.id, { piece: step, phase: 'bottom', action: null, facts: target.needs });
  for (const step of work.closing)
    found.set(step.id, { piece: step, phase: 'closing', action: null, facts: [] });
  return found;
}
