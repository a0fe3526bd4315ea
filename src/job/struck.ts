/** Which entries count: all but those struck, where a strike that was struck itself strikes nothing. */
import type { EventType, JobEvent } from './event.ts';

/**
 * What may be struck: deeds and remarks of the work. Readings are withdrawn with a reason instead, the verdict is
 * reopened, and a job that was opened stays so.
 */
const STRIKABLE: ReadonlySet<EventType> = new Set([
  'noteAdded',
  'wayChosen',
  'stepBegun',
  'stepDone',
  'stepUndone',
  'wayTroubled',
  'wayCleared',
  'stockNoted',
  'recordMade',
  'holdOverridden',
  'deviationNoted',
  'photoAdded',
  'clipMarked',
  'repairsMade',
  'proofLooked',
  'proofSaid',
  'lifeTold',
  'costNoted',
  'minutesLearned',
  'offerAnswered',
  'entryStruck',
]);

/** Whether an entry of this type may be struck. */
export function isStrikable(type: EventType): boolean {
  return STRIKABLE.has(type);
}

/** The events that count, in the order given. `ordered` is in the order of ids, without repeats. */
export function liveEvents(ordered: readonly JobEvent[]): readonly JobEvent[] {
  const strikes = ordered.filter((event) => event.type === 'entryStruck');
  if (strikes.length === 0) return ordered;
  const struck = new Set<string>();
  // Latest first: a strike names what was there before it, so by then it is known whether it counts itself.
  for (const strike of strikes.toReversed()) if (!struck.has(strike.id)) struck.add(strike.event);
  return ordered.filter((event) => !struck.has(event.id) || !STRIKABLE.has(event.type));
}
