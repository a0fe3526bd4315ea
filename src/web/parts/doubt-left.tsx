import type { JSX } from 'preact';
import { readKey } from '../../reading/key.ts';
import type { Answer } from '../../verdict/answer.ts';
import { doubtSentences } from '../../verdict/explain-words.ts';
import type { Explanation } from '../../verdict/explanation.ts';
import { inHundred, ofHundred } from '../../verdict/say-chance.ts';
import { describeKey } from '../keys.ts';
import { capital, listWords, small } from '../show.ts';
import { job } from '../state/job.ts';
import { explanation } from '../state/verdict.ts';
import { setWords } from '../words/lead.ts';
import { Chance } from './chance.tsx';
import { Fold } from './fold.tsx';

/** Sets shown one by one, at most. */
const SETS_SHOWN = 8;
/** A set below this share is not worth a line of its own. */
const WORTH_A_LINE = 0.01;

function Sets(props: { readonly got: Answer }): JSX.Element {
  const shown = props.got.sets.filter((set) => set.probability >= WORTH_A_LINE).slice(0, SETS_SHOWN);
  const rest = 1 - props.got.noneOfThese - shown.reduce((sum, set) => sum + set.probability, 0);
  return (
    <ol class="chances">
      {shown.map((set) => (
        <li key={set.faults.join(' ')}>
          <span>{capital(setWords(set))}</span>
          <Chance probability={set.probability} />
        </li>
      ))}
      {rest > 0.005 && (
        <li>
          <span class="quiet">Other combinations, each less likely</span>
          <Chance probability={rest} />
        </li>
      )}
      <li>
        <span class="quiet">None of these</span>
        <Chance probability={props.got.noneOfThese} />
      </li>
    </ol>
  );
}

/** Circumstances in which no reading was taken, and in which some faults show only. */
function unseen(keys: readonly string[]): readonly string[] {
  const states = keys.map((key) => readKey(key)?.state ?? {});
  const hot = states.some((state) => state.temp === 'hot');
  const moved = states.some((state) => state.wiggle === 'True');
  return [
    ...(hot
      ? []
      : ['No reading was taken at heat: a fault that shows only when hot would not have been seen.']),
    ...(moved
      ? []
      : [
          'None was taken while the harness was moved: a fault that comes and goes would not have been seen.',
        ]),
  ];
}

/** What the reasons leave open; that nothing is left is not said beside a chance of more than three faults. */
function openSentences(why: Explanation, beyondThree: number): readonly string[] {
  const { rival, others, noneOfThese } = why.doubt;
  const most = Math.max(rival?.probability ?? 0, others, noneOfThese);
  const settled = most < WORTH_A_LINE && why.alike.length === 0;
  return settled && beyondThree >= WORTH_A_LINE ? [] : doubtSentences(why);
}

/** What the verdict cannot say. */
export function DoubtLeft(props: { readonly got: Answer }): JSX.Element {
  const { noneOfThese, beyondThree, unchecked } = props.got;
  const why = explanation.value;
  // Until the reasons are worked out there is no more to say than what is not known at all.
  const open = why
    ? openSentences(why, beyondThree)
    : [`Something that none of the known faults explains: ${inHundred(noneOfThese)}.`];
  return (
    <section aria-labelledby="doubt" class="stack tight">
      <h2 id="doubt">What stays in doubt</h2>
      <ul class="doubts">
        {open.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
        <li>
          More than three faults at once, which are not gone through one by one:{' '}
          <b class="whole">
            {beyondThree < 0.005 ? `under ${ofHundred(1)}` : `at most ${inHundred(beyondThree)}`}
          </b>
          .
        </li>
        {unseen(job.value.readings.map(({ key }) => key)).map((line) => (
          <li key={line}>{line}</li>
        ))}
        {unchecked.length > 0 && (
          <li>
            Nothing else checks {unchecked.length === 1 ? 'this reading' : 'these readings'}, so a slip there
            would pass unseen: {listWords(unchecked.map((key) => small(describeKey(key))))}.
          </li>
        )}
      </ul>
      <Fold head={<b>All sets of faults that explain the readings</b>}>{() => <Sets got={props.got} />}</Fold>
    </section>
  );
}
