/** What a figure was in earlier versions of its file. */
import { getAt, type Json, type Path, sameJson } from '../machine/json-value.ts';

/** One version of a file, as it was saved. */
export interface Version {
  /** Counted from 1. */
  readonly version: number;
  /** When it was saved, ISO 8601 in UTC; null where nobody knows. */
  readonly savedAt: string | null;
  readonly value: Json;
}

/** What stood at a place from a version on; undefined for nothing. */
export interface Stood {
  readonly from: number;
  readonly savedAt: string | null;
  readonly is: Json | undefined;
}

/** What stood at a place, oldest first, one entry for each change; `versions` ascending. Starts with the first version. */
export function historyOf(versions: readonly Version[], path: Path): readonly Stood[] {
  const out: Stood[] = [];
  for (const { version, savedAt, value } of versions) {
    const is = getAt(value, path);
    const last = out.at(-1);
    if (last === undefined || !sameJson(last.is, is)) out.push({ from: version, savedAt, is });
  }
  return out;
}
