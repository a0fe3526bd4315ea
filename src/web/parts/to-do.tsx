import type { JSX } from 'preact';
import { REPAIRS } from '../../fault/repairs.ts';
import type { Answer, RepairLine } from '../../verdict/answer.ts';
import { costOfRepair, costTogether } from '../../verdict/repairs.ts';
import { isExplained } from '../advised.ts';
import { countWords, small } from '../show.ts';
import { costWords, minuteWords, savesWords, turnsWords } from '../words/advice.ts';
import { Chance } from './chance.tsx';
import { Fold } from './fold.tsx';

/** A repair left alone below this chance is not worth a line. */
const WORTH_A_LINE = 0.02;

const MARKS = {
  do: ['mark do', '■ Do:'],
  also: ['mark also', '◪ Also:'],
  leave: ['mark leave', '□ Not now:'],
} as const;

function Line(props: { readonly line: RepairLine; readonly mark: keyof typeof MARKS }): JSX.Element {
  const { line } = props;
  const repair = REPAIRS[line.repair];
  const [kind, word] = MARKS[props.mark];
  const saves = savesWords(line);
  // What is done besides finds its cover off; the rest is priced with its covers.
  const cost = repair && (props.mark === 'also' ? costOfRepair(repair.id) : costTogether([repair.id]));
  return (
    <li>
      <p class={props.mark === 'leave' ? undefined : 'deed'}>
        <b class={kind}>{word}</b> {small(repair?.title ?? line.repair)}
      </p>
      <Chance probability={line.probability} />
      <p class="under">
        {cost && `${costWords(cost)}. `}
        {saves && `${saves}. `}
        {turnsWords(line)}.
      </p>
    </li>
  );
}

/** What to buy and do at least expected cost, what is worth doing while it is open, and what is left alone. */
export function ToDo(props: { readonly got: Answer }): JSX.Element {
  const explained = isExplained(props.got);
  const lines = explained ? props.got.repairs : [];
  const doing = lines.filter((line) => line.worthDoing && !line.whileOpen);
  const also = lines.filter((line) => line.whileOpen);
  const leaving = lines.filter(
    (line) => !line.worthDoing && !line.whileOpen && line.probability >= WORTH_A_LINE,
  );
  const all = [...doing, ...also].flatMap((line) => (REPAIRS[line.repair] ? [line.repair] : []));
  const { minutes, parts } = costTogether(all);
  return (
    <section aria-labelledby="todo" class="stack tight">
      <h2 id="todo">What to do</h2>
      {doing.length === 0 && (
        <p class="deed">
          {explained
            ? 'No repair is worth doing on what is known so far.'
            : 'Nothing, until these readings are explained.'}
        </p>
      )}
      {doing.length > 0 && (
        <ol class="advice">
          {doing.map((line) => (
            <Line key={line.repair} line={line} mark="do" />
          ))}
        </ol>
      )}
      {also.length > 0 && (
        <>
          <h3>While it is open</h3>
          <p>Not called dead, but cheap to do while the same cover is off:</p>
          <ol class="advice">
            {also.map((line) => (
              <Line key={line.repair} line={line} mark="also" />
            ))}
          </ol>
        </>
      )}
      {all.length > 1 && (
        <p>
          Together up to <b class="whole">{minuteWords(minutes)}</b> and parts about <b>{parts}</b>.
        </p>
      )}
      {leaving.length > 0 && (
        <Fold head={<b>Left alone: {countWords(leaving.length, 'repair', 'repairs')}</b>}>
          {() => (
            <ol class="advice">
              {leaving.map((line) => (
                <Line key={line.repair} line={line} mark="leave" />
              ))}
            </ol>
          )}
        </Fold>
      )}
      {doing.length + also.length > 0 && (
        <p class="quiet">
          The figure is how often, in a hundred bikes that read like this, the part needs it. Minutes and
          parts are guesses; parts are in a money of no country.
        </p>
      )}
    </section>
  );
}
