/** The verdict as it was accepted, with its certainty at that time, and chances that somebody had set by hand. */
import { inHundred } from '../verdict/say-chance.ts';
import type { Block } from './document.ts';
import { loopOfJob } from './job-loop.ts';
import { drawing, heading, list, words } from './make-block.ts';
import type { Recorded } from './record.ts';
import { faultWords, repairWords, setWords } from './say-faults.ts';
import { still } from './still.ts';
import { sayWhen } from './wall-time.ts';

/** Sets of faults told one by one; the rest is summed. */
const MOST_SETS = 6;
/** Repairs that are neither advised nor this likely are left out, 0–1. */
const TOLD = 0.02;

export function verdictBlocks(of: Recorded): readonly Block[] {
  const { state, machine, east } = of;
  const { accepted, reopened, priors } = state;
  const chances = priors.map(
    (one) =>
      `${faultWords(one.fault)}: set to ${inHundred(one.chance)} before any reading, by ${sayWhen(one, east)}: ${one.why.trim() || 'no reason given'}.`,
  );
  if (accepted === null)
    return [
      heading(1, 'Verdict'),
      words(
        reopened === null
          ? 'No verdict was accepted.'
          : `The verdict was opened again by ${sayWhen(reopened, east)} and none was accepted since: ${reopened.why.trim() || 'no reason given'}.`,
      ),
      ...list(chances),
    ];
  const sets = accepted.sets.slice(0, MOST_SETS);
  const rest = accepted.sets.slice(MOST_SETS).reduce((sum, { probability }) => sum + probability, 0);
  const repairs = accepted.repairs.filter(
    (line) => line.worthDoing || line.whileOpen === true || line.probability >= TOLD,
  );
  const best = sets[0];
  return [
    heading(1, 'Verdict'),
    words(
      `${best ? `Held for dead: ${setWords(best.faults)}, ${inHundred(best.probability)}. ` : ''}Accepted by ${sayWhen(accepted, east)}. The chances are those of that moment, out of a hundred bikes with these readings.`,
    ),
    ...(accepted.changesSince > 0
      ? [
          words(
            `Since then ${accepted.changesSince === 1 ? 'one entry' : `${accepted.changesSince} entries`} came that could change it: a reading taken, withdrawn or picked, or a chance set.`,
          ),
        ]
      : []),
    {
      kind: 'rows',
      caption: 'What may be wrong, the likeliest first',
      head: ['What is wrong', 'How sure'],
      rows: [
        ...sets.map(({ faults, probability }) => [setWords(faults), inHundred(probability)]),
        ...(rest > 0
          ? [[`${accepted.sets.length - MOST_SETS} other combinations together`, inHundred(rest)]]
          : []),
        ['None of the faults known here', inHundred(accepted.noneOfThese)],
      ],
    },
    {
      kind: 'rows',
      caption: 'Repairs',
      head: ['Repair', 'Needed, how sure', 'Advice'],
      rows: repairs.map((line) => [
        repairWords(line.repair),
        inHundred(line.probability),
        line.whileOpen ? 'while it is open anyway' : line.worthDoing ? 'do it' : 'leave it',
      ]),
    },
    ...(machine === null
      ? []
      : [
          drawing(
            still(loopOfJob(state, machine)),
            'The charging circuit, with how likely each member was to be at fault when the verdict was accepted.',
          ),
        ]),
    ...(chances.length > 0 ? [heading(2, 'Chances set by hand'), ...list(chances)] : []),
  ];
}
