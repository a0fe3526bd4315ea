/** What was done otherwise than the book or the plan wants, with what follows from it: for the owner's sheet and the next job. */
import type { NotedDeviation } from '../job/bench-fold.ts';
import type { LockerStrength } from '../joint/locker.ts';
import type { Asking } from './ask.ts';
import { isAsk, judge } from './asks-of.ts';
import { textsOf } from './standing.ts';
import { lockerStops } from './wet-asks.ts';

export interface Deviation {
  /** Id of the entry it comes from. */
  readonly event: string;
  readonly at: string;
  readonly step: string;
  /** What was done otherwise, and what it means, one sentence each. */
  readonly says: readonly string[];
  /** In the words of the one who answers for it. */
  readonly why: string;
}

/** Every deviation of the job, in order of their ids. `askingOf` gives null for a step the file no longer has. */
export function deviationsOf(
  bench: Asking['bench'],
  askingOf: (step: string) => Asking | null,
): readonly Deviation[] {
  const signed = bench.records.flatMap((record): Deviation[] => {
    const asking = askingOf(record.step);
    if (!asking || !isAsk(record.ask)) return [];
    const judged = judge(asking, record.ask, textsOf(record), record.yes);
    if (!judged.ok || judged.stops.length === 0) return [];
    const { event, at, step, words } = record;
    return [{ event, at, step, says: judged.stops, why: words.why ?? '' }];
  });
  // Only the last record of a step and ask counts: what was done again as it should be is no deviation.
  const last = signed.filter(({ event }) => {
    const record = bench.records.find((one) => one.event === event)!;
    return !bench.records.some(
      (one) => one.step === record.step && one.ask === record.ask && one.event > event,
    );
  });
  const noted = bench.deviations.map(({ event, at, step, why, ...rest }): Deviation => {
    const asking = askingOf(step);
    return { event, at, step, says: consequence(asking, rest), why };
  });
  const left = bench.overrides.map(({ event, at, step, ask, why }): Deviation => {
    const what =
      ask === 'wait' ? 'It was not waited for what comes first.' : `The record “${ask}” was left out.`;
    return { event, at, step, says: [what], why };
  });
  return [...last, ...noted, ...left].sort((a, b) => (a.event < b.event ? -1 : 1));
}

/** What follows from what was noted. */
export function consequence(
  asking: Asking | null,
  { what, used }: Pick<NotedDeviation, 'what' | 'used'>,
): readonly string[] {
  switch (what) {
    case 'locker': {
      const known = ['none', 'low', 'medium', 'high'].includes(used);
      const says = known && asking ? lockerStops(asking, used as LockerStrength | 'none') : [];
      return says.length > 0 ? says : [`Thread locker used: ${used}.`];
    }
    case 'sealant':
      return used === 'acid'
        ? [
            'Acid-cure sealant went on. It attacks copper and electronics (MIL-A-46106B): near the stator take it off, clean, and lay a neutral-cure bead.',
          ]
        : [`Sealant used: ${used}. Its own sheet says when it skins and cures.`];
    case 'used-again':
      return [
        `Used again: ${used}. It is meant to be used once: look at it after the first ride, replace it when it is next open.`,
      ];
    case 'torque':
      return [`Tightened otherwise: ${used}. Check it after the first ride.`];
    case 'other':
      return [`${used}. What follows from it this program does not know: look at it after the first ride.`];
  }
}
