/**
 * Readings from the events: which take of each counts, which it replaced, which stand against it, which were
 * withdrawn. The bike before a repair and the same bike after it are read apart.
 */
import { completeKey } from '../reading/catalogue.ts';
import { readKey, type Value, writeKey } from '../reading/key.ts';
import type { EventOf, JobEvent } from './event.ts';

export interface Taken {
  /** Id of the `readingTaken` event. */
  readonly event: string;
  readonly key: string;
  readonly value: Value;
  readonly entered: string;
  readonly at: string;
  readonly who: string;
}

/** A key's value that counts, with the ones it replaced, oldest first. */
export interface Reading extends Taken {
  readonly earlier: readonly Taken[];
  /** Takes with another value that did not know of this one, nor this of them: a person is to pick. Mostly empty. */
  readonly disputed: readonly Taken[];
}

export interface Withdrawn extends Taken {
  readonly why: string;
  readonly withdrawnAt: string;
  readonly withdrawnBy: string;
}

export interface ReadingsState {
  /** In the order in which the values that count were taken. */
  readonly readings: readonly Reading[];
  readonly withdrawn: readonly Withdrawn[];
  /** Ids of every `readingTaken` event among them. */
  readonly takes: ReadonlySet<string>;
}

/**
 * The readings of the bike as it was after one round of repairs: `after` is the id of the `repairsMade` event, null for
 * the bike as it came. `ordered` is in the order of ids, without repeats.
 */
export function foldReadings(ordered: readonly JobEvent[], after: string | null): ReadingsState {
  const withdrawals = new Map<string, EventOf<'readingWithdrawn'>>();
  for (const event of ordered) {
    // Gathered first: clocks may sort a withdrawal before the reading it names. The first one gives the reason.
    if (event.type === 'readingWithdrawn' && !withdrawals.has(event.event))
      withdrawals.set(event.event, event);
  }
  const byKey = new Map<string, Take[]>();
  const picks: { readonly id: string; readonly event: string }[] = [];
  const withdrawn: Withdrawn[] = [];
  const takes = new Set<string>();
  // A long log takes few keys many times: each is read once.
  const sames = new Map<string, string>();
  const sameAs = (key: string): string => {
    const known = sames.get(key) ?? sameReading(key);
    sames.set(key, known);
    return known;
  };
  for (const event of ordered) {
    if (event.type === 'readingPicked') picks.push({ id: event.id, event: event.event });
    if (event.type !== 'readingTaken' || (event.after ?? null) !== after) continue;
    const { id, key, value, entered, at, who, over } = event;
    const taken = { event: id, key, value, entered, at, who };
    takes.add(id);
    const gone = withdrawals.get(id);
    if (gone) {
      withdrawn.push({ ...taken, why: gone.why, withdrawnAt: gone.at, withdrawnBy: gone.who });
      continue;
    }
    const same = sameAs(key);
    const all = byKey.get(same) ?? [];
    all.push({ taken, over });
    // Taken out and put back, so that the map's order is that of the values that count.
    byKey.delete(same);
    byKey.set(same, all);
  }
  return { readings: [...byKey.values()].map((all) => settle(all, picks)), withdrawn, takes };
}

/** Keys taken twice or more, withdrawn ones not counted, in the order of `readings`. */
export function takenAgain(readings: readonly Reading[]): readonly string[] {
  return readings.filter(({ earlier }) => earlier.length > 0).map(({ key }) => key);
}

/** A take with the take that its writer saw. */
interface Take {
  readonly taken: Taken;
  readonly over: string | null | undefined;
}

/** Which of a key's takes counts, and which others stand against it. A pick settles what was there when it was made. */
function settle(
  takes: readonly Take[],
  picks: readonly { readonly id: string; readonly event: string }[],
): Reading {
  const plain = takes.map(({ taken }) => taken);
  const pick = picks.findLast(({ event }) => plain.some((take) => take.event === event));
  const { taken: last, over } = takes.at(-1)!;
  const earlier = (counts: string) => plain.filter(({ event }) => event !== counts);
  if (pick && last.event < pick.id) {
    const picked = plain.find(({ event }) => event === pick.event)!;
    return { ...picked, earlier: earlier(picked.event), disputed: [] };
  }
  // A log of an earlier version does not say what was seen: then all of it was.
  const seen = over === undefined ? last.event : (over ?? '');
  const stands = ({ event, value }: Taken): boolean => {
    if (value === last.value) return false;
    if (pick && event < pick.id) return event === pick.event && over !== event;
    return event > seen;
  };
  const others = earlier(last.event);
  return { ...last, earlier: others, disputed: others.filter(stands) };
}

/** One text for every way to write a key: `batt_volts` and `batt_volts lights=low rpm=3000` are the same reading. */
function sameReading(text: string): string {
  const key = readKey(text);
  return key ? writeKey(completeKey(key)) : text;
}
