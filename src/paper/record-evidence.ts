/** The record's first half: the complaint, what was read, what was believed when it was acted on. */
import { FAULTS } from '../fault/faults.ts';
import { REPAIRS } from '../fault/repairs.ts';
import type { JobState } from '../job/fold.ts';
import type { Reading, Taken, Withdrawn } from '../job/readings-fold.ts';
import { KINDS } from '../reading/catalogue.ts';
import { describeReading } from '../reading/describe.ts';
import { readKey } from '../reading/key.ts';
import { showValue } from '../reading/say-value.ts';
import type { FaultSet } from '../verdict/answer.ts';
import { inHundred } from '../verdict/say-chance.ts';
import type { Block } from './document.ts';
import { heading, list, words } from './make-block.ts';
import type { SayTime } from './say-time.ts';

/** A reading in words; the key as it stands where this version does not know it. */
export function readingWords(text: string): string {
  const key = readKey(text);
  return key !== null && KINDS[key.kind] ? describeReading(key) : text;
}

export function valueWords({ key: text, value, entered }: Pick<Taken, 'key' | 'value' | 'entered'>): string {
  const kind = KINDS[readKey(text)?.kind ?? ''];
  return kind ? showValue(value, kind.unit) : entered || String(value);
}

/** Sets told one by one; the rest is told together. */
const SETS = 5;

export function complaintBlocks({ complaint, opened }: JobState, time: SayTime): readonly Block[] {
  const said = complaint && complaint.words.trim() !== '' ? `“${complaint.words.trim()}”` : null;
  return [
    heading(1, 'The complaint'),
    words(said ?? 'No words of the owner were written down.'),
    ...list((complaint?.symptoms ?? []).map((symptom) => symptom.replaceAll('_', ' '))),
    ...(opened ? [words(`The job was opened ${time(opened.at)}${byWhom(opened.who)}.`)] : []),
  ];
}

/** ", the lead"; nothing where nobody said who. */
export function byWhom(who: string): string {
  return who.trim() === '' ? '' : `, ${who.trim()}`;
}

export function evidenceBlocks({ readings, withdrawn }: JobState, time: SayTime): readonly Block[] {
  return [
    heading(1, 'The evidence'),
    ...(readings.length === 0
      ? [words('No reading was taken of the bike as it came.')]
      : [readingRows('What was read of the bike as it came', readings, time)]),
    ...withdrawnBlocks(withdrawn, time),
  ];
}

export function readingRows(caption: string, readings: readonly Reading[], time: SayTime): Block {
  return {
    kind: 'rows',
    caption,
    head: ['Reading', 'Shown', 'When, who'],
    rows: readings.map((reading) => [
      readingWords(reading.key),
      [
        valueWords(reading),
        ...(reading.earlier.length > 0 ? [`before that ${reading.earlier.map(valueWords).join(', ')}`] : []),
        ...(reading.disputed.length > 0
          ? [`another device read ${reading.disputed.map(valueWords).join(', ')}; nobody picked`]
          : []),
      ].join('; '),
      `${time(reading.at)}${byWhom(reading.who)}`,
    ]),
  };
}

export function withdrawnBlocks(withdrawn: readonly Withdrawn[], time: SayTime): readonly Block[] {
  if (withdrawn.length === 0) return [];
  return [
    words('Taken and withdrawn, not counted:'),
    ...list(
      withdrawn.map(
        (gone) =>
          `${readingWords(gone.key)}: ${valueWords(gone)}, withdrawn ${time(gone.withdrawnAt)}${byWhom(gone.withdrawnBy)}${gone.why ? `: ${gone.why}` : ''}`,
      ),
    ),
  ];
}

/** "stator winding touching the core partway and several burnt pins in the stator plug". */
export function setWords({ faults }: Pick<FaultSet, 'faults'>): string {
  return faults.length === 0
    ? 'no fault'
    : faults.map((fault) => FAULTS[fault]?.title ?? fault).join(' and ');
}

export function setsList(sets: readonly FaultSet[], noneOfThese: number): readonly Block[] {
  const told = sets.slice(0, SETS);
  const rest = Math.max(0, 1 - noneOfThese - told.reduce((sum, { probability }) => sum + probability, 0));
  return list([
    ...told.map((set) => `${setWords(set)}: ${inHundred(set.probability)}`),
    ...(rest >= 0.005 ? [`other sets of faults together: ${inHundred(rest)}`] : []),
    `something that the catalogue does not have: ${inHundred(noneOfThese)}`,
  ]);
}

export function verdictBlocks(state: JobState, time: SayTime): readonly Block[] {
  const { accepted, reopened, priors } = state;
  const head = heading(1, 'The verdict');
  if (accepted === null)
    return [
      head,
      words(
        reopened
          ? `A verdict was accepted and reopened ${time(reopened.at)}${byWhom(reopened.who)}; none stands.`
          : 'No verdict was accepted.',
      ),
    ];
  return [
    head,
    words(`Accepted ${time(accepted.at)}${byWhom(accepted.who)}. What was believed at that moment:`),
    ...setsList(accepted.sets, accepted.noneOfThese),
    {
      kind: 'rows',
      caption: 'What was to be done',
      head: ['Repair', 'Needed, by the readings', 'Decided'],
      rows: accepted.repairs
        .filter(({ probability, worthDoing, whileOpen }) => worthDoing || whileOpen || probability >= 0.02)
        .map(({ repair, probability, worthDoing, whileOpen }) => [
          REPAIRS[repair]?.title ?? repair,
          inHundred(probability),
          worthDoing ? 'to be done' : whileOpen ? 'to be done while it is open' : 'left',
        ]),
    },
    ...(accepted.changesSince > 0
      ? [
          words(
            `${accepted.changesSince} entries came after it: the verdict rests on less than this record shows.`,
          ),
        ]
      : []),
    ...(priors.length > 0
      ? [
          words('Chances before any reading that were set by hand:'),
          ...list(
            priors.map(
              ({ fault, chance, why }) =>
                `${FAULTS[fault as keyof typeof FAULTS]?.title ?? fault}: ${inHundred(chance)}${why ? ` (${why})` : ''}`,
            ),
          ),
        ]
      : []),
  ];
}
