/** Evidence: every reading that counts, the takes it replaced, those in dispute, and the withdrawn ones with the reason. */
import type { Block } from './document.ts';
import { heading, list, words } from './make-block.ts';
import type { Recorded } from './record.ts';
import { readingName, readingValue } from './say-reading.ts';
import { sayWhen } from './wall-time.ts';

export function evidenceBlocks({ state, east }: Recorded): readonly Block[] {
  const { readings, withdrawn } = state;
  const again = readings.flatMap(({ key, earlier, disputed }) => [
    ...earlier
      .filter((take) => !disputed.includes(take))
      .map((take) => `${readingName(key)}: ${readingValue(take)} before that (${sayWhen(take, east)}).`),
    ...disputed.map(
      (take) =>
        `${readingName(key)}: ${readingValue(take)} stands against it (${sayWhen(take, east)}); nobody has picked yet.`,
    ),
  ]);
  return [
    heading(1, 'Evidence'),
    ...(readings.length === 0
      ? [words('No reading was taken before the repair.')]
      : [
          {
            kind: 'rows' as const,
            caption: 'Readings that count, in the order in which they were taken',
            head: ['Reading', 'Value', 'By whom, when'],
            rows: readings.map((reading) => [
              readingName(reading.key),
              readingValue(reading),
              sayWhen(reading, east),
            ]),
          },
        ]),
    ...(again.length > 0 ? [heading(2, 'Taken more than once'), ...list(again)] : []),
    ...(withdrawn.length > 0
      ? [
          heading(2, 'Withdrawn'),
          {
            kind: 'rows' as const,
            caption: 'Readings that no longer count, and why',
            head: ['Reading', 'Value', 'Taken', 'Why it was withdrawn'],
            rows: withdrawn.map((one) => [
              readingName(one.key),
              readingValue(one),
              sayWhen(one, east),
              `${one.why.trim() || 'No reason given'} (${sayWhen({ at: one.withdrawnAt, who: one.withdrawnBy }, east)})`,
            ]),
          },
        ]
      : []),
  ];
}
