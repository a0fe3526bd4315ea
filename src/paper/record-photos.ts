/** Photographs by step; one that is not at hand is named as missing. A picture named twice is shown once. */
import type { Block, Pictured } from './document.ts';
import { stepWords } from './job-bench.ts';
import { heading, list, words } from './make-block.ts';
import type { Recorded } from './record.ts';
import { wallTime } from './wall-time.ts';

export function photoBlocks({ state, bench, here, east }: Recorded): readonly Block[] {
  const { photos } = state.bench;
  if (photos.length === 0) return [];
  const shown = new Map<string, Pictured & { readonly step: string }>();
  const missing = new Map<string, string>();
  for (const { photo, step, about, at } of photos) {
    const where = step === '' ? '' : stepWords(bench.places, step);
    const told = `${about.trim() || where || 'A photograph of this job'} (${wallTime(at, east)})`;
    if (shown.has(photo) || missing.has(photo)) continue;
    if (here(photo)) shown.set(photo, { photo, about: told, step });
    else missing.set(photo, `${told}${about.trim() && where ? `, at “${where}”` : ''}`);
  }
  const steps = [...new Set([...shown.values()].map(({ step }) => step))];
  return [
    heading(1, 'Photographs'),
    ...steps.flatMap((step): Block[] => [
      heading(2, step === '' ? 'Not at a step' : stepWords(bench.places, step)),
      {
        kind: 'photos',
        photos: [...shown.values()]
          .filter((one) => one.step === step)
          .map(({ photo, about }) => ({ photo, about })),
      },
    ]),
    ...(missing.size > 0
      ? [
          words(
            'The log names photographs whose pictures are not here; open the job on the device that took them:',
          ),
          ...list([...missing.values()]),
        ]
      : []),
  ];
}
