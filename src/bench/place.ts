/** Where a step stands in the machine file: its entry, its neighbours, and which fastener it is about. */
import type { Machine } from '../machine/definition.ts';
import type { WorkSection, WorkStep } from '../machine/work-definition.ts';

type ActionEntry = WorkSection['actions'][string];

export interface StepPlace {
  /** Id of the action or step. */
  readonly id: string;
  readonly phase: 'in' | 'bottom' | 'out' | 'closing';
  /** The action, for a move on the way in and for what puts it back; null at the bottom and in closing. */
  readonly action: { readonly id: string; readonly entry: ActionEntry } | null;
  /** The build step; null on the way in. */
  readonly step: WorkStep | null;
  /** Steps that follow each other, this one among them; for a move on the way in those that put it back. */
  readonly list: readonly WorkStep[];
  /** Id of the fastener it is about, its own or that of the move it puts back; null for none. */
  readonly fastener: string | null;
}

/** Kinds of step that are about the fastener of the move they put back, though they do not name it. */
const SHARES_FASTENER: ReadonlySet<string> = new Set(['clean', 'lock', 'torque', 'retainer', 'inspect']);

/** Every place of the section `work`, by id. Of two steps with one id the first counts. */
export function placesOf(machine: Pick<Machine, 'work'>): ReadonlyMap<string, StepPlace> {
  const found = new Map<string, StepPlace>();
  const put = (place: StepPlace): void => {
    if (!found.has(place.id)) found.set(place.id, place);
  };
  const { work } = machine;
  if (!work) return found;
  for (const [id, entry] of Object.entries(work.actions)) {
    const [action, list] = [{ id, entry }, entry.back ?? []];
    put({ id, phase: 'in', action, step: null, list, fastener: entry.fastener });
    for (const step of list) {
      const fastener = step.fastener ?? (SHARES_FASTENER.has(step.kind) ? entry.fastener : null);
      put({ id: step.id, phase: 'out', action, step, list, fastener });
    }
  }
  for (const { work: steps } of Object.values(work.targets))
    for (const step of steps ?? []) put(loose(step, 'bottom', steps ?? []));
  for (const step of work.closing ?? []) put(loose(step, 'closing', work.closing ?? []));
  return found;
}

function loose(step: WorkStep, phase: 'bottom' | 'closing', list: readonly WorkStep[]): StepPlace {
  return { id: step.id, phase, action: null, step, list, fastener: step.fastener };
}

/** What a place asks for by its own word in the file. */
export function askedBy({ step, action, phase }: StepPlace): readonly string[] {
  return (phase === 'in' ? action?.entry.asks : step?.asks) ?? [];
}
