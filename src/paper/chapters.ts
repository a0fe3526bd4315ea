/**
 * Chapters of a film from the log: clip marks say when a camera ran, ticks say what was in hand until then. Times count
 * from the clip's own start, so that the film's first picture is 0.
 */
import type { EventOf, JobEvent } from '../job/event.ts';
import { inOrder } from '../job/stamp.ts';
import { liveEvents } from '../job/struck.ts';
import { clockTime } from './chapter-texts.ts';

/** Shortest chapter that stays by itself, ms: common practice, no source. */
export const SHORTEST = 10_000;
/** Steps named in the title of a chapter that holds several, count. */
const MOST_NAMED = 3;

export interface Chapter {
  /** Where it begins, ms from the start of the clip. */
  readonly from: number;
  /** Where it ends, ms from the start of the clip; later than `from` unless the clip has no length. */
  readonly to: number;
  /** As the machine file words it: may hold any letters, also a new line. */
  readonly title: string;
}

/** A clap: where film and sound are laid one on the other. */
export interface Clap {
  readonly number: number;
  /** ms from the start of the clip. */
  readonly at: number;
}

export interface ClipChapters {
  /** As it was counted on screen; two devices apart may have counted the same. */
  readonly number: number;
  /** Its own in the job and fit for a file: "clip-03", "clip-03-b". */
  readonly name: string;
  /** ms. */
  readonly length: number;
  /** True for a clip that nobody stopped. */
  readonly open: boolean;
  /** In order, without gaps, the first at 0; one at least. */
  readonly chapters: readonly Chapter[];
  readonly claps: readonly Clap[];
  /** What is uncertain about it, one sentence each. */
  readonly says: readonly string[];
}

export interface Film {
  /** In the order in which they were started. */
  readonly clips: readonly ClipChapters[];
  /** Marks that belong to no clip, one sentence each. */
  readonly says: readonly string[];
}

type Mark = EventOf<'clipMarked'>;
type Finished = EventOf<'stepDone'> | EventOf<'stepBegun'>;

interface Running {
  readonly start: Mark;
  readonly events: JobEvent[];
  stop: Mark | null;
}

/** The clips of a job with their chapters. `titleOf` words a step; it is asked for steps that the machine file may not have. */
export function filmOf(events: readonly JobEvent[], titleOf: (step: string) => string): Film {
  const { clips, says } = clipsOf(liveEvents(inOrder(events)));
  const names = new Map<number, number>();
  return {
    says,
    clips: clips.map((clip) => {
      const { number } = clip.start;
      const before = names.get(number) ?? 0;
      names.set(number, before + 1);
      const name = `clip-${String(number).padStart(2, '0')}${before === 0 ? '' : `-${letters(before)}`}`;
      return { number, name, ...chaptersOf(clip, titleOf) };
    }),
  };
}

/** b, c … z, then aa: the first of a number has none. */
function letters(n: number): string {
  return n < 26 ? String.fromCharCode(97 + n) : `${letters(Math.floor(n / 26) - 1)}${letters(n % 26)}`;
}

/** Each clip with what was written while it ran. A device runs one camera; two devices may run two. */
function clipsOf(ordered: readonly JobEvent[]): {
  readonly clips: readonly Running[];
  readonly says: readonly string[];
} {
  const clips: Running[] = [];
  const says: string[] = [];
  const running = new Map<string, Running>();
  const finished = new Set<string>();
  const begun = new Set<string>();
  for (const event of ordered) {
    if (event.type === 'clipMarked' && event.what === 'start') {
      // A clip of this device that still runs was never stopped: its last entry was the one before.
      const clip: Running = { start: event, events: [], stop: null };
      running.set(event.device, clip);
      clips.push(clip);
      continue;
    }
    if (event.type === 'clipMarked' && event.what === 'stop') {
      const own = running.get(event.device);
      const clip =
        own?.start.number === event.number
          ? own
          : ([...running.values()].find(({ start }) => start.number === event.number) ?? null);
      if (clip) {
        clip.stop = event;
        running.delete(clip.start.device);
      } else says.push(`Clip ${event.number} was stopped but never started: it has no chapters.`);
      continue;
    }
    if (event.type === 'clipMarked' && running.size === 0) {
      says.push(`Clap ${event.number} fell into no clip.`);
      continue;
    }
    if (event.type === 'stepUndone') {
      finished.delete(event.step);
      begun.delete(event.step);
    }
    // The second tick of a step says nothing new; nor does the end of what ran by itself say what the camera saw.
    const old =
      (event.type === 'stepDone' && (finished.has(event.step) || begun.has(event.step))) ||
      (event.type === 'stepBegun' && (finished.has(event.step) || begun.has(event.step)));
    if (event.type === 'stepDone') finished.add(event.step);
    if (event.type === 'stepBegun') begun.add(event.step);
    if (!old) for (const clip of running.values()) clip.events.push(event);
  }
  return { clips, says };
}

function chaptersOf(
  { start, events, stop }: Running,
  titleOf: (step: string) => string,
): Omit<ClipChapters, 'number' | 'name'> {
  const begin = Date.parse(start.at);
  const says: string[] = [];
  let apart = false;
  let last = 0;
  const limit = stop === null ? Number.POSITIVE_INFINITY : Math.max(0, Date.parse(stop.at) - begin);
  // In the order that all devices agree on; where their clocks do not, a time is moved until it fits that order.
  const placed = events.map((event) => {
    const said = Date.parse(event.at) - begin;
    const at = Math.min(Math.max(said, last), limit);
    if (at !== said) apart = true;
    last = at;
    return { event, at };
  });
  const length = stop === null ? last : limit;
  if (stop !== null && Date.parse(stop.at) < begin) apart = true;
  if (stop === null)
    says.push(
      `Clip ${start.number} was never stopped: it is taken to end with its last entry, at ${clockTime(length)}.`,
    );
  if (apart)
    says.push(
      `In clip ${start.number} the clocks of two devices are apart: some times were moved to keep the order of the entries.`,
    );
  const spans: Span[] = [];
  let from = 0;
  for (const { event, at } of placed) {
    if (!isFinished(event)) continue;
    spans.push({ from, to: at, titles: [titleOf(event.step)] });
    from = at;
  }
  if (length > from || spans.length === 0) {
    const onScreen = stop?.step || (spans.length === 0 ? start.step : '');
    const rest = spans.length === 0 ? `Clip ${start.number}` : 'The rest';
    spans.push({ from, to: length, titles: [onScreen === '' ? rest : titleOf(onScreen)] });
  }
  return {
    length,
    open: stop === null,
    says,
    claps: placed.flatMap(({ event, at }) =>
      event.type === 'clipMarked' ? [{ number: event.number, at }] : [],
    ),
    chapters: withoutShort(spans).map(({ titles, ...span }) => ({ ...span, title: joined(titles) })),
  };
}

function isFinished(event: JobEvent): event is Finished {
  return event.type === 'stepDone' || event.type === 'stepBegun';
}

interface Span {
  readonly from: number;
  readonly to: number;
  readonly titles: readonly string[];
}

/** A chapter that is too short goes into the one before; the first into the one after. */
function withoutShort(spans: readonly Span[]): readonly Span[] {
  const kept: Span[] = [];
  for (const span of spans) {
    const before = kept.at(-1);
    const short = span.to - span.from < SHORTEST;
    // Only the first can be short and still stand here: it waits for the next.
    if (before && (short || before.to - before.from < SHORTEST))
      kept[kept.length - 1] = { from: before.from, to: span.to, titles: [...before.titles, ...span.titles] };
    else kept.push(span);
  }
  return kept;
}

function joined(titles: readonly string[]): string {
  const each = [...new Set(titles)];
  const named = each.slice(0, MOST_NAMED).join(' · ');
  return each.length > MOST_NAMED ? `${named} and ${each.length - MOST_NAMED} more` : named;
}
