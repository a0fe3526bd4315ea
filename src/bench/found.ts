/** As found → as built: what was written down when a thing came off, for the very step where it goes back. */
import type { BenchRecord } from '../job/bench-fold.ts';
import type { Asking } from './ask.ts';
import { asksOf } from './asks-of.ts';

/** One record in words. */
export interface SaidRecord {
  readonly event: string;
  readonly title: string;
  /** "Thickness of each: 0.5, 0.5, 1.5 mm". */
  readonly lines: readonly string[];
  readonly at: string;
  readonly who: string;
}

/** A record as the log has it, in words of the ask it answers; plain where this version does not know the ask. */
export function sayRecord(asking: Asking, record: BenchRecord): SaidRecord {
  const { event, at, who, words, yes } = record;
  const ask = asksOf(asking).find(({ id }) => id === record.ask);
  const fields = ask?.fields ?? [];
  const named = Object.entries(words)
    .filter(([, text]) => text.trim() !== '')
    .map(([id, text]) => {
      if (id === 'why') return `All the same: ${text}`;
      const field = fields.find((one) => one.id === id);
      const value = field?.choices?.find((choice) => choice.id === text)?.words ?? text;
      return `${field?.words ?? id}: ${value}`;
    });
  const looked = yes.flatMap((id) => ask?.looks.find((look) => look.id === id)?.words ?? []);
  return { event, title: ask?.title ?? record.ask, lines: [...named, ...looked], at, who };
}

/** Records of the move that this step puts back, in order; empty for a step that puts nothing back. */
export function foundFor(asking: Asking, askingOf: (step: string) => Asking | null): readonly SaidRecord[] {
  const { place, bench } = asking;
  if (place.phase !== 'out' || !place.action) return [];
  const move = askingOf(place.action.id);
  if (!move) return [];
  const own = bench.records.filter(({ step }) => step === place.action!.id);
  return own
    .filter((record) => !own.some((other) => other.ask === record.ask && other.event > record.event))
    .map((record) => sayRecord(move, record));
}
