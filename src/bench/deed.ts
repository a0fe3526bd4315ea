/** What an entry was, in words: for the bar that takes it back, and for the record. */
import type { JobEvent } from '../job/event.ts';
import { isStrikable } from '../job/struck.ts';
import type { StepPlace } from './place.ts';

/** The last entry of a device that still counts and may be struck; null for none. `live` are events in order. */
export function lastDeed(live: readonly JobEvent[], device: string): JobEvent | null {
  return (
    live.findLast(
      (event) => event.device === device && event.type !== 'entryStruck' && isStrikable(event.type),
    ) ?? null
  );
}

/** An entry in a few words. */
export function sayDeed(event: JobEvent, places: ReadonlyMap<string, StepPlace>): string {
  const does = (id: string): string => {
    const place = places.get(id);
    return place?.step?.does ?? place?.action?.entry.does ?? id;
  };
  switch (event.type) {
    case 'stepDone':
      return `Done: ${does(event.step)}`;
    case 'stepBegun':
      return `It runs: ${does(event.step)}`;
    case 'stepUndone':
      return `Not done after all: ${does(event.step)}`;
    case 'recordMade':
      return `Signed at “${does(event.step)}”`;
    case 'holdOverridden':
      return `Went on without a record at “${does(event.step)}”`;
    case 'deviationNoted':
      return `Noted: ${event.used}`;
    case 'noteAdded':
      return `Note: ${event.text.slice(0, 40)}`;
    case 'photoAdded':
      return 'Photograph';
    case 'clipMarked':
      return event.what === 'clap' ? `Clap ${event.number}` : `Clip ${event.number}: ${event.what}`;
    case 'wayTroubled':
      return 'Trouble noted';
    case 'wayCleared':
      return 'Trouble cleared';
    case 'wayChosen':
      return 'Choice of the way';
    case 'stockNoted':
      return event.here ? 'At hand' : 'Not at hand';
    default:
      return 'The last entry';
  }
}
