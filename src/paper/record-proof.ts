/** The proof as the log has it: what was repaired, what was read and looked at since, and what was said in the end. */

import { provedVolts } from '../draw/proved-volts.ts';
import { LOOK_NAMES } from '../proof/look-names.ts';
import { inHundred } from '../verdict/say-chance.ts';
import type { Block } from './document.ts';
import { drawing, list, words } from './make-block.ts';
import type { Recorded } from './record.ts';
import { repairWords, setWords } from './say-faults.ts';
import { readingName, readingValue } from './say-reading.ts';
import { still } from './still.ts';
import { sayWhen } from './wall-time.ts';

export const NOT_PROVED = 'Not proved: no readings were taken after the repair.';

export function proofBlocks({ state, east }: Recorded): readonly Block[] {
  const { made, before, readings, withdrawn, looks, said } = state.proof;
  if (made === null) return [words(NOT_PROVED)];
  const chart = provedVolts({ before: state.readings, after: readings, band: [], shape: 'wide' });
  return [
    said === null
      ? words(readings.length === 0 ? NOT_PROVED : 'Not proved: the proof was not brought to its end.')
      : words(
          `${said.proven ? 'Proven' : 'Not proven'}, said by ${sayWhen(said, east)}. That a fault is left: ${inHundred(said.faultLeft)}.${said.why.trim() === '' ? '' : ` Why it was said: ${said.why.trim()}`}`,
        ),
    ...(said !== null && said.changesSince > 0
      ? [
          words(
            `After that ${said.changesSince === 1 ? 'one entry' : `${said.changesSince} entries`} came: it rests on less than is known now.`,
          ),
        ]
      : []),
    words(
      `Repaired: ${made.repairs.map(repairWords).join('; ') || 'nothing named'} (${sayWhen(made, east)}).`,
    ),
    ...(before.length > 0
      ? [
          words(
            `It was repaired ${before.length === 1 ? 'once' : `${before.length} times`} before that: ${before.map((round) => round.made.repairs.map(repairWords).join('; ')).join('. Then: ')}.`,
          ),
        ]
      : []),
    ...(said !== null && !said.proven && said.sets.length > 0
      ? list(
          said.sets
            .slice(0, 4)
            .map(({ faults, probability }) => `${setWords(faults)}: ${inHundred(probability)}`),
        )
      : []),
    ...(readings.length === 0
      ? []
      : [
          {
            kind: 'rows' as const,
            caption: 'Readings on the repaired bike',
            head: ['Reading', 'Value', 'By whom, when'],
            rows: readings.map((one) => [readingName(one.key), readingValue(one), sayWhen(one, east)]),
          },
        ]),
    ...list(
      withdrawn.map(
        (one) =>
          `Withdrawn: ${readingName(one.key)}, ${readingValue(one)}: ${one.why.trim() || 'no reason given'}.`,
      ),
    ),
    ...(looks.length === 0
      ? []
      : [
          {
            kind: 'rows' as const,
            caption: 'Looks at the repaired bike',
            head: ['Look', 'Found', 'By whom, when'],
            rows: looks.map((one) => [
              LOOK_NAMES[one.check] ?? one.check,
              `${one.ok ? 'as it should be' : 'NOT as it should be'}${one.words.trim() === '' ? '' : `: ${one.words.trim()}`}`,
              sayWhen(one, east),
            ]),
          },
        ]),
    ...(chart === null
      ? []
      : [
          drawing(still(chart), 'Battery volts over engine speed, low beam on, before and after the repair.'),
        ]),
  ];
}
