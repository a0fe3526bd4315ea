/** Holds that were overridden and deviations, each with the reason given and what it means next time. */
import { deviationsOf } from '../bench/deviations.ts';
import type { Block } from './document.ts';
import { stepWords } from './job-bench.ts';
import { heading, list, words } from './make-block.ts';
import type { Recorded } from './record.ts';
import { sayWhen } from './wall-time.ts';

export function holdBlocks({ state, bench, east }: Recorded): readonly Block[] {
  const { overrides } = state.bench;
  return [
    heading(1, 'Holds passed over'),
    ...(overrides.length === 0
      ? [words('None: every step that was ticked had its records.')]
      : list(
          overrides.map(
            (one) =>
              `${stepWords(bench.places, one.step)}: ${one.ask === 'wait' ? 'not waited for what comes first' : `without the record “${one.ask}”`}. ${sayWhen(one, east)} answers for it: ${one.why.trim() || 'no reason given'}.`,
          ),
        )),
  ];
}

export function deviationBlocks({ state, bench, east }: Recorded): readonly Block[] {
  const passed = new Set(state.bench.overrides.map(({ event }) => event));
  const deviations = deviationsOf(state.bench, bench.askingOf).filter(({ event }) => !passed.has(event));
  const whoOf = (event: string) =>
    [...state.bench.records, ...state.bench.deviations].find((one) => one.event === event)?.who ?? '';
  return [
    heading(1, 'Done otherwise'),
    ...(deviations.length === 0
      ? [words('Nothing was done otherwise than the book or the plan wants.')]
      : [
          {
            kind: 'rows' as const,
            caption: 'What was done otherwise, and what it means next time',
            head: ['Step', 'What, and what follows', 'Why, and who answers for it'],
            rows: deviations.map(({ event, step, says, why, at }) => [
              stepWords(bench.places, step),
              says.join(' '),
              `${why.trim() || 'No reason given'} (${sayWhen({ at, who: whoOf(event) }, east)})`,
            ]),
          },
        ]),
  ];
}
