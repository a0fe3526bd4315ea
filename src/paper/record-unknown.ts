/** Entries of kinds that this version does not know: kept in the log, counted, and named. */

import { isEventType } from '../job/check.ts';
import { inOrder } from '../job/stamp.ts';
import { liveEvents } from '../job/struck.ts';
import type { Block } from './document.ts';
import { heading, list, words } from './make-block.ts';
import type { Recorded } from './record.ts';

export function unknownBlocks({ events }: Recorded): readonly Block[] {
  const all = inOrder(events);
  const counts = new Map<string, number>();
  for (const { type } of liveEvents(all) as readonly { readonly type: string }[])
    if (!isEventType(type)) counts.set(type, (counts.get(type) ?? 0) + 1);
  const struck = all.length - liveEvents(all).length;
  if (counts.size === 0 && struck === 0) return [];
  return [
    heading(1, 'About this log'),
    ...(counts.size > 0
      ? [
          words(
            'The log holds entries that this version does not know. They are kept, and left out of everything above:',
          ),
          ...list([...counts].map(([type, count]) => `${type} (unknown): ${count}`)),
        ]
      : []),
    ...(struck > 0
      ? [
          words(
            `${struck === 1 ? 'One entry was' : `${struck} entries were`} taken back and ${struck === 1 ? 'is' : 'are'} not told here; the log keeps ${struck === 1 ? 'it' : 'them'}.`,
          ),
        ]
      : []),
  ];
}
