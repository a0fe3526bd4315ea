/** Notes as they were written, each at its step. */
import type { Block } from './document.ts';
import { stepWords } from './job-bench.ts';
import { heading, list } from './make-block.ts';
import type { Recorded } from './record.ts';
import { sayWhen } from './wall-time.ts';

export function noteBlocks({ state, bench, east }: Recorded): readonly Block[] {
  if (state.notes.length === 0) return [];
  return [
    heading(1, 'Notes'),
    ...list(
      state.notes.map(
        (note) =>
          `${note.step === null ? '' : `At “${stepWords(bench.places, note.step)}”: `}${note.text.trim()} (${sayWhen(note, east)})`,
      ),
    ),
  ];
}
