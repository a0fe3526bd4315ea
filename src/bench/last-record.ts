import type { BenchRecord } from '../job/bench-fold.ts';

/** The last record of a step and ask, which is the one that counts; null for none. */
export function lastRecord(records: readonly BenchRecord[], step: string, ask: string): BenchRecord | null {
  return records.findLast((record) => record.step === step && record.ask === ask) ?? null;
}
