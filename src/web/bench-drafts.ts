/** What was typed for a record and is not signed yet: kept in this tab, so that a reload in mid-step loses nothing. */
import type { Texts } from '../sum/sum.ts';

export interface Draft {
  readonly texts: Texts;
  readonly yes: readonly string[];
}

const keyOf = (job: string, step: string, ask: string): string => `chargewright.draft.${job}.${step}.${ask}`;

/** The draft of a record; null where there is none or it cannot be read. */
export function keptDraft(storage: Storage, job: string, step: string, ask: string): Draft | null {
  try {
    const read = JSON.parse(storage.getItem(keyOf(job, step, ask)) ?? 'null') as Partial<Draft> | null;
    if (typeof read?.texts !== 'object' || read.texts === null || !Array.isArray(read.yes)) return null;
    const texts = Object.entries(read.texts).filter(([, text]) => typeof text === 'string');
    return { texts: Object.fromEntries(texts), yes: read.yes.filter((id) => typeof id === 'string') };
  } catch {
    return null;
  }
}

export function keepDraft(storage: Storage, job: string, step: string, ask: string, draft: Draft): void {
  try {
    storage.setItem(keyOf(job, step, ask), JSON.stringify(draft));
  } catch {
    // The tab stores nothing: what is typed stands on the page until it is left.
  }
}

export function dropDraft(storage: Storage, job: string, step: string, ask: string): void {
  try {
    storage.removeItem(keyOf(job, step, ask));
  } catch {
    // Nothing was kept then.
  }
}
