/** The steps of a how-to, each with its caution first; with them what may be told of the job: its notes, its photographs. */
import type { JobState } from '../job/fold.ts';
import type { Machine, Part } from '../machine/definition.ts';
import { sayFastener } from '../machine/say-fastener.ts';
import type { PlanStep } from '../way/plan-shape.ts';
import { sayMinutes } from '../way/plan-words.ts';
import type { Block, Pictured } from './document.ts';
import type { HowToMay } from './how-to.ts';
import type { JobWay } from './job-way.ts';
import { heading, list, words } from './make-block.ts';

const PHASES: Readonly<Record<PlanStep['phase'], string>> = {
  in: 'Going in',
  bottom: 'At the bottom',
  out: 'Coming back',
  closing: 'Closing',
};

export function stepBlocks(
  state: JobState,
  machine: Machine,
  way: JobWay,
  may: HowToMay,
  shown: Map<string, Pictured>,
): readonly Block[] {
  const blocks: Block[] = [];
  let phase: PlanStep['phase'] | null = null;
  for (const [n, step] of way.steps.entries()) {
    if (step.phase !== phase) blocks.push(heading(1, PHASES[step.phase]));
    phase = step.phase;
    if (step.caution !== null) blocks.push({ kind: 'caution', text: step.caution });
    blocks.push(words(`${n + 1}. ${step.does}${notesOf(step)}`));
    blocks.push(...list(figuresOf(machine, step, way.fresh)));
    if (may.notes) blocks.push(...list(noteWords(state, step.id)));
    if (may.photos) blocks.push(...photoBlocks(state, (one) => one === step.id, step.does, may, shown));
  }
  return blocks;
}

function notesOf({ people, unattended, start, end }: PlanStep): string {
  const time = end > start ? sayMinutes(end - start) : null;
  if (unattended) return time === null ? ' (runs by itself)' : ` (runs by itself, ${time})`;
  return people === 2 ? ' (two people)' : '';
}

/** The figures of the fastener where it is turned tight: on the way in they would only be read past. */
function figuresOf(
  machine: Machine,
  { kind, fastener }: PlanStep,
  fresh: readonly Part[],
): readonly string[] {
  if (fastener === null) return [];
  const said = sayFastener(machine, fastener, fresh);
  if (!said) return [];
  const left = said.mind.filter((one) => one.startsWith('LEFT-HAND'));
  if (kind === 'take off') return left.length > 0 ? [`${said.name}: ${left.join('; ')}`] : [];
  if (kind !== 'torque' && kind !== 'retainer' && kind !== 'lock') return [];
  const size = said.size === null ? said.name : `${said.name}, ${said.size}`;
  const torque = said.torque === null ? '' : `: ${said.torque}`;
  const stages = said.stages.length > 0 ? ` in stages of ${said.stages.join(', then ')}` : '';
  return [
    `${size}${torque}${stages}${said.source === null ? '' : `; from: ${said.source}`}`,
    ...(said.mind.length > 0 ? [said.mind.join('; ')] : []),
    ...said.differs,
  ];
}

function noteWords({ notes, bench }: JobState, step: string | null): readonly string[] {
  return [
    ...notes.filter((note) => note.step === step).map(({ text }) => `Note: ${text}`),
    ...bench.deviations
      .filter((one) => one.step === step)
      .map(({ used, why }) => `Done otherwise: ${used}${why.trim() === '' ? '' : ` (${why.trim()})`}`),
  ];
}

/** Notes of no step, and of steps that are not on the list. */
export function looseNotes(state: JobState, way: JobWay | null): readonly Block[] {
  const listed = new Set(way?.steps.map(({ id }) => id) ?? []);
  const steps = new Set(
    [...state.notes, ...state.bench.deviations].flatMap(({ step }) =>
      step !== null && listed.has(step) ? [] : [step],
    ),
  );
  const items = [...steps].flatMap((step) => noteWords(state, step));
  return items.length === 0 ? [] : [heading(1, 'Notes'), ...list(items)];
}

function photoBlocks(
  { bench }: JobState,
  isOf: (step: string) => boolean,
  does: string,
  { notes }: HowToMay,
  shown: Map<string, Pictured>,
): readonly Block[] {
  // One picture may be named twice; it is shown where it was named first.
  const photos = new Map<string, Pictured>();
  for (const { step, photo, about } of bench.photos)
    if (isOf(step) && !shown.has(photo) && !photos.has(photo))
      photos.set(photo, { photo, about: (notes && about.trim()) || does });
  for (const [photo, pictured] of photos) shown.set(photo, pictured);
  return photos.size === 0 ? [] : [{ kind: 'photos', photos: [...photos.values()] }];
}

export function loosePhotos(
  state: JobState,
  way: JobWay | null,
  may: HowToMay,
  shown: Map<string, Pictured>,
): readonly Block[] {
  const listed = new Set(way?.steps.map(({ id }) => id) ?? []);
  const blocks = photoBlocks(state, (step) => !listed.has(step), 'A photograph of this job', may, shown);
  return blocks.length === 0 ? [] : [heading(1, 'Photographs'), ...blocks];
}
