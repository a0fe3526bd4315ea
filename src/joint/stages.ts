/**
 * Tightening in stages, so that a part comes down level: snug, 20–30 %, 50–70 %, all of it in the order of the joint,
 * then round and round at full torque until nothing moves (ASME PCC-1, from memory). Stages that the book gives win.
 * Torques in N·m at the screw.
 */
import { requireMeasure } from './measure.ts';
import { type Refusal, refuse, requireWithin } from './require.ts';
import { sayShare, sayTorque, sayTorques } from './say.ts';
import { type Mark, marksOf, nearestMark, type Scale } from './wrench-scale.ts';

export type StageName = 'snug' | 'first' | 'second' | 'full' | 'book' | 'round';

export interface Stage {
  readonly name: StageName;
  /** N·m; null for snug, which is by feel. */
  readonly torque: number | null;
  /** Share of the final torque, dimensionless; null for snug. */
  readonly share: number | null;
  /** Mark on the wrench; null for snug, or where no scale was given. */
  readonly mark: Mark | null;
  /** In the order of the joint, or once round it. */
  readonly walk: 'order' | 'round';
  /** One sentence for the hand. */
  readonly words: string;
}

export interface StagePlan {
  readonly ok: true;
  readonly stages: readonly Stage[];
  readonly by: 'book' | 'practice';
  readonly cautions: readonly string[];
}

export interface StageTask {
  /** Final torque, N·m. */
  readonly torque: number;
  /** Screws in the joint, from 1. */
  readonly screws: number;
  /** Stages the book gives, N·m, rising; the last is the final torque. */
  readonly book?: readonly number[];
  /** Scale of the wrench; torques are rounded to its marks. */
  readonly scale?: Scale;
  /** Torque at the screw over setting, dimensionless, when an adapter is on; 1 when not given. */
  readonly factor?: number;
}

/** Stages short of the full torque, as shares of it: least, aim, most (ASME PCC-1, from memory). */
const PARTS = [
  { name: 'first', low: 0.2, aim: 0.25, high: 0.3 },
  { name: 'second', low: 0.5, aim: 0.6, high: 0.7 },
] as const;

/** Snug stays at or under this share of the final torque, dimensionless: ASME PCC-1, from memory. */
export const SNUG_MOST = 0.2;

const SAME = 1e-6;

/**
 * Refuses book stages that do not rise or do not end at the final torque, and a final torque off the scale. Throws
 * RangeError for a torque not above 0 or a number of screws that is not whole.
 */
export function stagePlan(task: StageTask): StagePlan | Refusal {
  const { torque, screws, book, scale, factor = 1 } = task;
  requireMeasure('torque', torque);
  requireMeasure('factor', factor);
  requireWithin('screws', screws, 1, 1000);
  if (!Number.isInteger(screws)) throw new RangeError(`screws must be a whole number, got ${screws}`);
  book?.forEach((stage, i) => {
    requireMeasure(`book[${i}]`, stage);
  });
  const wrong = book ? faultOfBook(book, torque) : null;
  if (wrong) return refuse(wrong);
  const marks = scale ? marksOf(scale, torque / factor) : null;
  const full = scale ? nearestMark(torque / factor, scale) : null;
  if (full && !full.ok) return full;
  const cautions: string[] = [];
  const stages: Stage[] = [snug(screws)];
  if (book) {
    book.forEach((stage, i) => {
      const mark = marks ? nearest(marks, stage / factor) : null;
      const before = stages.at(-1)?.mark;
      if (mark && before && mark.set <= before.set)
        cautions.push(
          `Stages ${i} and ${i + 1} of the book fall on one mark, ${mark.figure} ${mark.unit}: a wrench with finer marks keeps them apart.`,
        );
      stages.push(staged('book', stage, torque, mark));
    });
  } else {
    if (screws > 1) stages.push(...partStages(torque, marks, full, factor, cautions));
    stages.push(staged('full', torque, torque, full));
  }
  if (screws > 1)
    stages.push({
      ...staged('round', torque, torque, full),
      walk: 'round',
      words: `Once round the joint at ${atMark(torque, full)}, and again, until no screw moves. Stop before a locker starts to set.`,
    });
  return { ok: true, stages, by: book ? 'book' : 'practice', cautions };
}

function faultOfBook(book: readonly number[], torque: number): string | null {
  if (book.length === 0)
    return 'The book is said to give stages, and none are entered: enter them or take them out.';
  for (let i = 1; i < book.length; i++) {
    if (book[i]! <= book[i - 1]!)
      return `Stage ${i + 1}, ${sayTorque(book[i]!)}, is not above stage ${i}, ${sayTorque(book[i - 1]!)}, and stages must rise: read the book again.`;
  }
  const last = book.at(-1)!;
  if (Math.abs(last / torque - 1) > SAME)
    return `The last stage of the book, ${sayTorque(last)}, is not the final torque, ${sayTorque(torque)}: correct one of them.`;
  return null;
}

function nearest(marks: readonly Mark[], wanted: number): Mark | null {
  return marks.reduce<Mark | null>(
    (best, mark) =>
      best && Math.abs(best.set - wanted) <= Math.abs(mark.set - wanted) * (1 + 1e-9) ? best : mark,
    null,
  );
}

/** The stages before the last that this wrench can tell apart. */
function partStages(
  torque: number,
  marks: readonly Mark[] | null,
  full: Mark | null,
  factor: number,
  cautions: string[],
): Stage[] {
  const stages: Stage[] = [];
  for (const { name, low, aim, high } of PARTS) {
    const within = marks?.filter(
      ({ set }) => set * factor >= low * torque * (1 - 1e-9) && set * factor <= high * torque * (1 + 1e-9),
    );
    const mark = within ? nearest(within, (aim * torque) / factor) : null;
    const wanted = `${sayShare(low)} to ${sayShare(high)} of the torque`;
    const before = stages.at(-1)?.mark;
    if (marks && (!mark || (before && mark.set <= before.set) || (full && mark.set >= full.set)))
      cautions.push(
        `This wrench has no mark at ${wanted}, ${sayTorques({ low: low * torque, high: high * torque })}: do that stage with a smaller wrench, or by feel.`,
      );
    stages.push(staged(name, mark ? mark.set * factor : aim * torque, torque, mark));
  }
  return stages;
}

function atMark(torque: number, mark: Mark | null): string {
  return mark
    ? `${mark.figure} ${mark.unit} on the wrench, ${sayTorque(torque)} at the screw`
    : sayTorque(torque);
}

function snug(screws: number): Stage {
  const words =
    screws > 1
      ? `All screws in by hand until the part sits, at most ${sayShare(SNUG_MOST)} of the torque; look that the gap is even all round.`
      : `In by hand until it seats, at most ${sayShare(SNUG_MOST)} of the torque.`;
  return { name: 'snug', torque: null, share: null, mark: null, walk: 'order', words };
}

function staged(name: StageName, torque: number, final: number, mark: Mark | null): Stage {
  const share = torque / final;
  return {
    name,
    torque,
    share,
    mark,
    walk: 'order',
    words: `In the order of the joint: ${atMark(torque, mark)}${share < 1 - SAME ? `: ${sayShare(share)} of the torque` : ''}.`,
  };
}
