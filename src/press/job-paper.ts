/** The record of a job, or the page for its owner, as a PDF: from the log, the machine file and the shelf of photographs. */
import type { JobEvent } from '../job/event.ts';
import { foldJob } from '../job/fold.ts';
import { photosNamed } from '../job/photo-file.ts';
import type { PhotoShelf } from '../log/photo-shelf.ts';
import { ownerSheet } from '../paper/owner-sheet.ts';
import { jobRecord } from '../paper/record.ts';
import { proveJob } from '../proof/prove-job.ts';
import { machineOf } from './how-to-pack.ts';
import { pdfOf } from './pdf.ts';

export const PAPERS = { record: jobRecord, owner: ownerSheet } as const;
export type PaperKind = keyof typeof PAPERS;

export interface PaperContent {
  readonly events: readonly JobEvent[];
  /** Text of the machine file; null where it is not here. */
  readonly machine: string | null;
  readonly photos: Pick<PhotoShelf, 'get'>;
  /** When it is put together, ISO 8601 in UTC. */
  readonly at: string;
  /** How far the garage's clock is ahead of UTC, min. */
  readonly east: number;
}

/** Photographs that a paper takes in, bytes: a job of hundreds would otherwise be held in memory at once. */
const MOST_BYTES = 120_000_000;

export interface MadePaper {
  readonly bytes: Uint8Array;
  /** Photographs that the log names and that are not in it, count. */
  readonly missing: number;
}

/** The same content makes the same bytes. */
export async function paperPdf(kind: PaperKind, content: PaperContent): Promise<MadePaper> {
  const { events, machine, photos, at, east } = content;
  const named = kind === 'record' ? photosNamed(events) : [];
  const pictures = new Map<string, Uint8Array>();
  let size = 0;
  for (const photo of named) {
    const got = await photos.get(photo);
    if (!got.ok || size + got.bytes.length > MOST_BYTES) continue;
    size += got.bytes.length;
    pictures.set(photo, got.bytes);
  }
  const here = (photo: string): boolean => pictures.has(photo);
  const file = machineOf(machine);
  // The owner's page tells what was said of the proof and no figure of it: the work is saved there.
  const proved = kind === 'record' && file ? proveJob(foldJob(events), file) : null;
  const document = PAPERS[kind]({ events, machine: file, here, proved, at, east });
  return {
    bytes: await pdfOf(document, (photo) => pictures.get(photo) ?? null),
    missing: named.length - pictures.size,
  };
}
