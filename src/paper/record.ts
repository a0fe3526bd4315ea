/**
 * The record of a job: everything that was said, read, believed, done and signed, in the order in which a stranger would
 * ask for it. It invents nothing and leaves nothing out: what the log has and this version does not know is counted.
 */
import { isKnownEvent } from '../job/check.ts';
import type { JobEvent } from '../job/event.ts';
import { foldJob } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import type { JobProof } from '../proof/prove-job.ts';
import { BOOK_FIRST } from './book-first.ts';
import type { Block, PaperDocument } from './document.ts';
import { bikeWords, inventedBlocks } from './front.ts';
import { benchOf } from './job-bench.ts';
import { loopOfJob } from './job-loop.ts';
import { drawing, heading, list, words } from './make-block.ts';
import { proofBlocks } from './proof-blocks.ts';
import { complaintBlocks, evidenceBlocks, verdictBlocks } from './record-evidence.ts';
import {
  builtBlocks,
  cautionBlocks,
  deviationBlocks,
  noteBlocks,
  partsBlocks,
  photoBlocks,
  torqueBlocks,
} from './record-work.ts';
import { timeIn } from './say-time.ts';
import { still } from './still.ts';

/** What a record is put together with. */
export interface PaperWith {
  /** Null where the machine file is not here. */
  readonly machine: Machine | null;
  /** When it is put together, ISO 8601 in UTC. */
  readonly at: string;
  /** How far the garage's clock is ahead of UTC, min. */
  readonly east: number;
  /** Null where nothing was repaired, or the machine file is not here. */
  readonly proved: JobProof | null;
}

export function jobRecord(
  events: readonly JobEvent[],
  { machine, at, east, proved }: PaperWith,
): PaperDocument {
  const state = foldJob(events);
  const bench = benchOf(state, machine);
  const time = timeIn(east);
  return {
    title: `Record: ${state.opened?.title ?? 'a job'}`,
    under: bikeWords(state, machine),
    at,
    blocks: [
      words(BOOK_FIRST),
      ...inventedBlocks(state, machine),
      ...(machine === null
        ? [words('The machine file of this bike is not here: its figures are left out.')]
        : []),
      ...complaintBlocks(state, time),
      ...evidenceBlocks(state, time),
      ...verdictBlocks(state, time),
      ...(machine && state.accepted
        ? [
            drawing(
              still(loopOfJob(state, machine)),
              'The loop: how likely each member was to be at fault then.',
            ),
          ]
        : []),
      ...partsBlocks(bench),
      ...builtBlocks(bench, time),
      ...torqueBlocks(bench, time),
      ...deviationBlocks(bench, time),
      ...proofBlocks(state, proved, time),
      ...noteBlocks(bench, time),
      ...cautionBlocks(bench),
      ...photoBlocks(bench, time),
      ...unknownBlocks(events),
    ],
  };
}

/** Entries of a later version: kept in the log, and told here by their type. */
function unknownBlocks(events: readonly JobEvent[]): readonly Block[] {
  const counts = new Map<string, number>();
  for (const { type } of events as readonly { readonly type: string }[])
    if (!isKnownEvent(type)) counts.set(type, (counts.get(type) ?? 0) + 1);
  if (counts.size === 0) return [];
  return [
    heading(1, 'Entries this version does not know'),
    words('They are kept in the log and count for nothing here:'),
    ...list([...counts].map(([type, count]) => `${type}: ${count}`)),
  ];
}
