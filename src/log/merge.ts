/** How a batch meets what a store holds, and how two logs of one job become one. */
import type { JobEvent } from '../job/event.ts';
import { canonical, inOrder } from '../job/stamp.ts';

export type Sorted =
  | { readonly ok: true; readonly fresh: readonly JobEvent[]; readonly duplicate: readonly string[] }
  | { readonly ok: false; readonly why: string; readonly event: string };

/**
 * Tells new events from known ones. Rules 2–4 of SPEC.md, in one place for every store.
 * @param held canonical text of each event the store holds, by id; only ids of the batch are looked up
 */
export function sortOut(batch: readonly JobEvent[], held: ReadonlyMap<string, string>): Sorted {
  const fresh = new Map<string, { readonly event: JobEvent; readonly text: string }>();
  const duplicate = new Set<string>();
  for (const event of batch) {
    const text = canonical(event);
    const known = held.get(event.id) ?? fresh.get(event.id)?.text;
    if (known === undefined) {
      fresh.set(event.id, { event, text });
    } else if (known !== text) {
      return {
        ok: false,
        event: event.id,
        why: `The event ${event.id} is already in the log with other content; nothing was kept. Write the change as a new event.`,
      };
    } else if (!fresh.has(event.id)) {
      duplicate.add(event.id);
    }
  }
  return {
    ok: true,
    fresh: inOrder([...fresh.values()].map((entry) => entry.event)),
    duplicate: [...duplicate],
  };
}

export interface Merged {
  /** Every event of both, each id once, in order. */
  readonly events: readonly JobEvent[];
  /** Ids that the two hold with different content; the one whose text sorts first is kept, on every device alike. */
  readonly clashes: readonly string[];
}

/** Two logs as one: the same whichever comes first and however often they are merged. Rules 8–9 of SPEC.md. */
export function mergeEvents(a: readonly JobEvent[], b: readonly JobEvent[]): Merged {
  const texts = new Map<string, string>();
  const clashes = new Set<string>();
  for (const event of [...a, ...b]) {
    const text = canonical(event);
    const known = texts.get(event.id);
    if (known !== undefined && known !== text) clashes.add(event.id);
    texts.set(event.id, text);
  }
  return { events: inOrder([...a, ...b]), clashes: [...clashes].sort() };
}

/** Events of `mine` that `theirs` lacks: what has to be sent. */
export function missingFrom(theirs: readonly JobEvent[], mine: readonly JobEvent[]): readonly JobEvent[] {
  const known = new Set(theirs.map((event) => event.id));
  return inOrder(mine.filter((event) => !known.has(event.id)));
}
