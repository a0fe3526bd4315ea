/**
 * The how-to for those who film: what is needed, the figures, the circuit, the way in, and every step with its caution first.
 * It goes out into the world, so nothing of the owner is in it unless somebody ticked that it may be: no name, no title, no
 * word of the complaint, no note, no photograph. What it tells comes from the machine file and from the program.
 */
import type { SvgNode } from '../draw/svg.ts';
import type { JobState } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import { sayList } from '../way/plan-words.ts';
import { DEFERENCE } from './deference.ts';
import type { Block, PaperDocument, Pictured } from './document.ts';
import { inventedBlocks } from './front.ts';
import { figureBlocks, needBlocks } from './how-to-needs.ts';
import { looseNotes, loosePhotos, stepBlocks } from './how-to-steps.ts';
import { loopOfJob } from './job-loop.ts';
import { wayOfJob } from './job-way.ts';
import { drawing, heading, words } from './make-block.ts';
import { still } from './still.ts';

/** What of the owner's may be in it; nothing unless ticked. */
export interface HowToMay {
  /** Names, the job's title, the complaint in the owner's words. */
  readonly owner: boolean;
  readonly photos: boolean;
  /** Notes, and what was done otherwise in the words of the one who did. */
  readonly notes: boolean;
}

export interface HowTo {
  readonly document: PaperDocument;
  readonly loop: SvgNode | null;
  readonly dip: SvgNode | null;
  /** SHA-256 of the photographs in it, in order; empty unless they may be. */
  readonly photos: readonly string[];
}

/** The how-to of a job. `machine`: null where its file is not here. `at`: when it is put together, ISO 8601 in UTC. */
export function howToOf(state: JobState, machine: Machine | null, at: string, may: HowToMay): HowTo {
  const invented = state.opened?.invented === true || machine?.about.invented === true;
  const way = machine === null ? null : wayOfJob(state, machine, Date.parse(at));
  const loop = machine === null ? null : still(loopOfJob(state, machine));
  const dip = way?.ok && way.dip ? still(way.dip) : null;
  const name = machine === null ? 'A motorcycle' : `${machine.about.maker} ${machine.about.model}`;
  const to = way?.ok ? sayList(way.targets) : 'charging circuit';
  const shown = new Map<string, Pictured>();
  const blocks: readonly Block[] = [
    { kind: 'words', text: DEFERENCE },
    ...inventedBlocks({ state, machine }),
    ...(may.owner ? ownerBlocks(state) : []),
    ...(machine === null
      ? [words('The machine file of this bike is not here, so there are neither steps nor figures.')]
      : []),
    ...(way !== null && !way.ok ? [words(way.why)] : []),
    ...(way?.ok ? needBlocks(way) : []),
    ...(machine !== null ? figureBlocks(machine, way?.ok ? way : null) : []),
    ...(loop
      ? [
          heading(1, 'The circuit'),
          drawing(
            loop,
            state.accepted === null
              ? 'The loop: the charging circuit of this bike.'
              : 'The loop: the charging circuit of this bike, with how likely each member was to be at fault when the verdict was accepted.',
          ),
        ]
      : []),
    ...(dip
      ? [
          heading(1, 'The way in and back'),
          drawing(
            dip,
            'The dip: time runs right, depth into the bike runs down. As planned before the first spanner; hours count from the beginning of the work.',
          ),
        ]
      : []),
    ...(machine !== null && way?.ok ? stepBlocks(state, machine, way, may, shown) : []),
    ...(may.notes ? looseNotes(state, way?.ok ? way : null) : []),
    ...(may.photos ? loosePhotos(state, way?.ok ? way : null, may, shown) : []),
  ];
  return {
    document: {
      title: `${name}: ${to}, step by step`,
      under:
        machine === null
          ? 'A how-to from the log of a job'
          : `${name}, ${machine.about.year}${invented ? ' (invented)' : ''}`,
      at,
      blocks,
    },
    loop,
    dip,
    photos: [...shown.keys()],
  };
}

function ownerBlocks({ opened, complaint, bench, readings, notes }: JobState): readonly Block[] {
  const people = new Set(
    [opened, complaint, ...bench.records, ...readings, ...notes].flatMap((one) =>
      one && one.who.trim() !== '' ? [one.who.trim()] : [],
    ),
  );
  return [
    heading(1, 'The job'),
    ...(opened ? [words(opened.title)] : []),
    ...(complaint && complaint.words.trim() !== '' ? [words(`The complaint: “${complaint.words}”`)] : []),
    ...(people.size > 0 ? [words(`At the bench: ${sayList([...people])}.`)] : []),
  ];
}
