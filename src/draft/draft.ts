/**
 * Room `draft`: a machine file while it is written in forms: each change at one place, taken back and made again without
 * end; what a figure was in earlier versions; two files side by side and one made of both; parts and what holds them built
 * by pointing. Everything here is a value in and a value out; whether a file is sound, room `machine` says.
 *
 * This file: the file and its changes. A step keeps the whole file before it: values share what did not change, so a
 * thousand steps cost little more than their changes, and taking back is exact by construction. Rejected: steps that keep
 * only what stood at the place; an entry taken out of the middle of a list then came back as its end.
 */
import { getAt, type Json, type Path, pathText, putAt, sameJson } from '../machine/json-value.ts';

/** What one touch changed, all of it taken back together. */
export interface Step {
  readonly before: Json;
  /** Where, as the check writes paths. */
  readonly paths: readonly string[];
  /** While somebody types in one field the keys are one step. */
  readonly typing: boolean;
}

export interface Draft {
  readonly value: Json;
  /** Oldest first. */
  readonly done: readonly Step[];
  /** Files that were taken back, the one to be made again last, each with the step that led to it. */
  readonly undone: readonly { readonly step: Step; readonly after: Json }[];
}

/** A file that nobody has changed yet. */
export function openDraft(value: Json): Draft {
  return { value, done: [], undone: [] };
}

/** What is to stand where; undefined takes away. */
export interface Put {
  readonly path: Path;
  readonly is: Json | undefined;
}

/** Most steps that are remembered, count: a long evening has some hundreds. */
export const MOST_STEPS = 5000;

/** The draft after one touch; itself where everything stands so already. `typing` joins the keys of one field. */
export function change(draft: Draft, puts: readonly Put[], typing = false): Draft {
  let value = draft.value;
  const paths: string[] = [];
  for (const { path, is } of puts) {
    if (sameJson(getAt(value, path), is)) continue;
    paths.push(pathText(path));
    value = putAt(value, path, is) ?? null;
  }
  if (paths.length === 0) return draft;
  const last = draft.done.at(-1);
  const goesOn = typing && last?.typing === true && paths.length === 1 && last.paths[0] === paths[0];
  if (goesOn && draft.undone.length === 0) return { ...draft, value };
  const done = [...draft.done, { before: draft.value, paths, typing: typing && paths.length === 1 }];
  return { value, done: done.slice(-MOST_STEPS), undone: [] };
}

/** The draft with its last step taken back; itself where there is none. */
export function undo(draft: Draft): Draft {
  const step = draft.done.at(-1);
  if (!step) return draft;
  const undone = [...draft.undone, { step, after: draft.value }];
  return { value: step.before, done: draft.done.slice(0, -1), undone };
}

/** The draft with the step that was taken back last made again; itself where there is none. */
export function redo(draft: Draft): Draft {
  const last = draft.undone.at(-1);
  if (!last) return draft;
  return { value: last.after, done: [...draft.done, last.step], undone: draft.undone.slice(0, -1) };
}
