/**
 * Rows from which the templates' ways in are put together, in the members of a machine file. A template gives minutes as
 * wide ranges and no torque at all: nobody may invent a figure that a thread is tightened by.
 */
import type { JsonObject } from '../machine/json-value.ts';

export type Row = JsonObject;
export type Rows = { readonly [id: string]: Row };

/** What the mechanical sections of a template hold. */
export interface WayIn {
  readonly parts: Rows;
  readonly fasteners: Rows;
  readonly fluids: Rows | undefined;
  readonly work: Row;
}

/** A build step. */
export function step(id: string, does: string, kind: string, minutes: string, more: Row = {}): Row {
  return { id, does, kind, minutes, ...more };
}

/** Something that is taken off or loosened on the way in. */
export function action(
  does: string,
  needs: readonly string[],
  gives: readonly string[],
  minutes: string,
  more: Row = {},
): Row {
  return { does, needs: needs.length === 0 ? undefined : needs, gives, minutes, ...more };
}

/** A place one may want to get to. */
export function target(
  name: string,
  needs: readonly string[],
  repairs: readonly string[],
  work: readonly Row[],
): Row {
  return { name, needs, work, repairs };
}

/** A chance that it will not let go; all of these are guesses. */
export function seizes(basePercent: number, place: string, adds: string, cause: string): Row {
  return { basePercent, place, adds, cause };
}

const BY_THE_BOOK = "No figures here. Torque, thread and locker by the bike's own book; add them once read.";

/** A fastener of which nobody has said anything but what it holds. */
export function fastener(name: string, part: string | null, opened: string, more: Row = {}): Row {
  return { name, ...more, part: part ?? undefined, opened, note: BY_THE_BOOK };
}
