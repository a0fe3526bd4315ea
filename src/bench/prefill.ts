/** What was entered before and still holds: the wrench in hand, the temperature of the evening. Never a figure to be read. */
import type { BenchRecord } from '../job/bench-fold.ts';
import { USABLE_FROM } from '../joint/wrench-scale.ts';
import type { Texts } from '../sum/sum.ts';
import type { Ask, Asking } from './ask.ts';
import { stageOf } from './torque-ask.ts';

/** A temperature entered within this time is taken for now's, ms: two hours, common practice. */
const SAME_EVENING = 2 * 3_600_000;

/** Texts to begin an ask with, by field; the ask's own initial texts stand where nothing is known. */
export function prefill(asking: Asking, ask: Ask, nowMs: number): Texts {
  const { records } = asking.bench;
  const initial = Object.fromEntries(ask.fields.map(({ id, initial: text }) => [id, text]));
  const fields = new Set(ask.fields.map(({ id }) => id));
  const own: Record<string, string> = {};
  if (ask.id === 'torque') Object.assign(own, wrenchBefore(asking, records));
  if (fields.has('temperature')) {
    const before = records.findLast(
      ({ words, at }) =>
        words.temperature && nowMs - Date.parse(at) < SAME_EVENING && nowMs >= Date.parse(at),
    );
    if (before) own.temperature = before.words.temperature!;
  }
  return { ...initial, ...own };
}

/** The wrench of the last torque that suits this one: the setting itself is never carried over. */
function wrenchBefore(asking: Asking, records: readonly BenchRecord[]): Texts {
  const stage = stageOf(asking);
  if (!stage) return {};
  const wanted = stage.is.high;
  const before = records.findLast(({ ask, figures }) => {
    const full = figures.fullScaleNm;
    return ask === 'torque' && typeof full === 'number' && wanted <= full && wanted >= USABLE_FROM * full;
  });
  if (!before) return {};
  const { full, length } = before.words;
  return { ...(full ? { full } : {}), ...(length ? { length } : {}) };
}
