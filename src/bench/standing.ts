/** How a step stands: which of its records are there and count, and what stands in its way. */
import type { BenchRecord, Override } from '../job/bench-fold.ts';
import type { Ask, Asking, Judged } from './ask.ts';
import { asksOf, judge } from './asks-of.ts';
import { lastRecord } from './last-record.ts';
import type { StepPlace } from './place.ts';
import type { Progress } from './progress.ts';

const MINUTE = 60_000;

export interface AskHere {
  readonly ask: Ask;
  /** The record that was made last; null for none. */
  readonly record: BenchRecord | null;
  /** What the record is now; null where there is none. */
  readonly judged: Judged | null;
  readonly override: Override | null;
  /** Why a record does not count, one sentence; null where it counts or there is none. */
  readonly stale: string | null;
  /** Whether the step may be ticked as far as this goes. */
  readonly met: boolean;
}

/** Something else that must come first. */
export interface Wait {
  /** One sentence. */
  readonly says: string;
  /** Until when, ms since 1970; null where it is no matter of time. */
  readonly untilMs: number | null;
}

export interface Standing {
  readonly asks: readonly AskHere[];
  readonly waits: readonly Wait[];
  /** Somebody answers for not waiting; null for nobody. */
  readonly overridden: Override | null;
  /** Whether the step may be ticked. */
  readonly free: boolean;
}

/** The reason that stands beside a record is no field of its ask. */
export function textsOf(record: BenchRecord): Readonly<Record<string, string>> {
  const { why: _why, ...texts } = record.words;
  return texts;
}

/**
 * Where a step stands at `nowMs`, ms since 1970. `planned` are the ids of the steps of the plan, done or ahead; `places`
 * are those of the machine file.
 */
export function standingOf(
  asking: Asking,
  progress: Progress,
  places: ReadonlyMap<string, StepPlace>,
  planned: ReadonlySet<string>,
  nowMs: number,
): Standing {
  const { bench, place } = asking;
  const overrideOf = (ask: string) =>
    bench.overrides.findLast((one) => one.step === place.id && one.ask === ask) ?? null;
  const asks = asksOf(asking).map((ask): AskHere => {
    const record = lastRecord(bench.records, place.id, ask.id);
    const judged = record && judge(asking, ask.id, textsOf(record), record.yes);
    const stale = record && staleOf(asking, ask, record);
    const override = overrideOf(ask.id);
    const signed =
      judged?.ok === true &&
      stale === null &&
      (judged.stops.length === 0 || (record?.words.why ?? '').trim() !== '');
    return { ask, record, judged, override, stale, met: override !== null || signed };
  });
  const waits = waitsOf(asking, progress, places, planned, nowMs);
  const overridden = overrideOf('wait');
  return {
    asks,
    waits,
    overridden,
    free: asks.every(({ met }) => met) && (waits.length === 0 || overridden !== null),
  };
}

/** Trap of the last measurement taken before the nut was tight. */
function staleOf({ bench, place }: Asking, ask: Ask, record: BenchRecord): string | null {
  if (ask.id !== 'slack-again') return null;
  const torque = lastRecord(bench.records, place.id, 'torque');
  return torque && torque.event > record.event
    ? 'The nut was signed after this measurement: measure once more.'
    : null;
}

function waitsOf(
  { machine, place, bench, done }: Asking,
  { runs }: Progress,
  places: ReadonlyMap<string, StepPlace>,
  planned: ReadonlySet<string>,
  nowMs: number,
): readonly Wait[] {
  const waits: Wait[] = [];
  const doesOf = (id: string) => places.get(id)?.step?.does ?? places.get(id)?.action?.entry.does ?? id;
  for (const { after, from, least, most } of place.step?.lags ?? []) {
    const running = runs.find(({ id }) => id === after);
    if (running && from !== 'start') {
      waits.push({ says: `“${running.does}” still runs.`, untilMs: running.endMs });
      continue;
    }
    const at = done.get(after);
    if (at === undefined) {
      if (planned.has(after) && !running)
        waits.push({ says: `“${doesOf(after)}” comes first.`, untilMs: null });
      continue;
    }
    const until = at + ((least?.low ?? 0) / 60) * MINUTE;
    if (until > nowMs) waits.push({ says: `It must wait after “${doesOf(after)}”.`, untilMs: until });
    if (most && nowMs > at + (most.low / 60) * MINUTE)
      waits.push({
        says: `Its time after “${doesOf(after)}” is over: un-tick that and do it again.`,
        untilMs: null,
      });
  }
  if (place.step?.kind === 'fill')
    waits.push(...plugWaits(machine.fluids?.[place.step.fluid ?? '']?.plug ?? null));
  if (place.step?.kind === 'prove')
    for (const run of runs)
      if (run.kind === 'cure')
        waits.push({ says: `“${run.does}” still runs: no engine before.`, untilMs: run.endMs });
  return waits;

  /** Trap of the drain plug that is only finger-tight. */
  function plugWaits(plug: string | null): readonly Wait[] {
    const steps = [...places.values()].filter(
      (other) => other.fastener === plug && other.step?.kind === 'torque' && plug !== null,
    );
    // A plug that never came out needs no torque.
    const opened = steps.filter((other) => other.action !== null && done.has(other.action.id));
    const signed = ({ id }: StepPlace) =>
      lastRecord(bench.records, id, 'torque') !== null ||
      bench.overrides.some(({ step, ask }) => step === id && ask === 'torque');
    return opened.length === 0 || opened.some(signed)
      ? []
      : [
          {
            says: `The torque of the ${machine.fasteners?.[plug!]?.name ?? 'drain plug'} is not signed yet.`,
            untilMs: null,
          },
        ];
  }
}
