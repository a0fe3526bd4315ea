/**
 * The record of a job: what was complained of, what was read, what was held for dead and how sure it was, what was done
 * with which figures, what was done otherwise, and whether it was shown to be repaired. Nothing is smoothed: what is
 * missing, withdrawn or unknown is said.
 */
import type { JobEvent } from '../job/event.ts';
import { foldJob, type JobState } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import type { JobProof } from '../proof/prove-job.ts';
import { symptomTitle } from '../verdict/symptom-words.ts';
import { DEFERENCE } from './deference.ts';
import type { Block, PaperDocument } from './document.ts';
import { bikeWords, inventedBlocks } from './front.ts';
import { benchOf, type JobBench } from './job-bench.ts';
import { heading, list, words } from './make-block.ts';
import { proofBlocks } from './proof-blocks.ts';
import { cautionBlocks } from './record-cautions.ts';
import { evidenceBlocks } from './record-evidence.ts';
import { foundBlocks } from './record-found.ts';
import { deviationBlocks, holdBlocks } from './record-holds.ts';
import { noteBlocks } from './record-notes.ts';
import { partBlocks } from './record-parts.ts';
import { photoBlocks } from './record-photos.ts';
import { torqueBlocks } from './record-torques.ts';
import { unknownBlocks } from './record-unknown.ts';
import { verdictBlocks } from './record-verdict.ts';
import { rideBlocks } from './ride-blocks.ts';
import { sayWhen, wallTime } from './wall-time.ts';

export interface RecordAsk {
  /** All of the log, in any order. */
  readonly events: readonly JobEvent[];
  /** Null where the machine file is not here. */
  readonly machine: Machine | null;
  /** Whether a photograph's picture is at hand. */
  readonly here: (photo: string) => boolean;
  /** What was worked out of the proof; null where nothing was repaired or the machine file is not here. */
  readonly proved: JobProof | null;
  /** When it is put together, ISO 8601 in UTC. */
  readonly at: string;
  /** How far the garage's clock is ahead of UTC, min. */
  readonly east: number;
}

/** What every chapter looks at. */
export interface Recorded extends RecordAsk {
  readonly state: JobState;
  readonly bench: JobBench;
}

export function recordedOf(ask: RecordAsk): Recorded {
  const state = foldJob(ask.events);
  return { ...ask, state, bench: benchOf(state, ask.machine) };
}

/** The record. A log without its opening event gives one all the same, which says so. */
export function jobRecord(ask: RecordAsk): PaperDocument {
  const of = recordedOf(ask);
  return {
    title: `Record: ${of.state.opened?.title ?? 'a job whose beginning is missing'}`,
    under: `${bikeWords(of)}. Put together ${wallTime(of.at, of.east)}.`,
    at: ask.at,
    blocks: [
      ...inventedBlocks(of),
      words(DEFERENCE),
      ...openingBlocks(of),
      ...complaintBlocks(of),
      ...evidenceBlocks(of),
      ...verdictBlocks(of),
      ...partBlocks(of),
      ...foundBlocks(of),
      ...torqueBlocks(of),
      ...holdBlocks(of),
      ...deviationBlocks(of),
      heading(1, 'Proof'),
      ...proofBlocks(of.state, of.proved, of.east),
      ...rideBlocks(of.state, of.machine),
      ...noteBlocks(of),
      ...photoBlocks(of),
      ...cautionBlocks(of),
      ...unknownBlocks(of),
    ],
  };
}

function openingBlocks({ state, machine, east }: Recorded): readonly Block[] {
  const { opened } = state;
  return [
    opened === null
      ? words('The entry that opened this job has not arrived here: bike and title are not known.')
      : words(`Job opened by ${sayWhen(opened, east)}.`),
    ...(machine === null
      ? [
          words(
            'The machine file of this bike is not here: steps are named by their short names, and its figures are left out.',
          ),
        ]
      : []),
  ];
}

function complaintBlocks({ state, east }: Recorded): readonly Block[] {
  const { complaint } = state;
  if (complaint === null) return [heading(1, 'Complaint'), words('No complaint was written down.')];
  return [
    heading(1, 'Complaint'),
    ...(complaint.words.trim() === '' ? [] : [words(`In the owner’s words: “${complaint.words.trim()}”`)]),
    ...list(complaint.symptoms.map(symptomTitle)),
    words(`Heard by ${sayWhen(complaint, east)}.`),
  ];
}
