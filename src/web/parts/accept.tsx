import type { JSX } from 'preact';
import { REPAIRS } from '../../fault/repairs.ts';
import type { Answer } from '../../verdict/answer.ts';
import { advisedLines, isExplained } from '../advised.ts';
import { describeKey } from '../keys.ts';
import { countWords, listWords, showTime, small } from '../show.ts';
import { happened, happenedUndoably, job } from '../state/job.ts';
import { openReading } from '../state/taking.ts';
import { Press } from './press-button.tsx';

/** Sets kept with an acceptance, at most, and the least share worth keeping. */
const SETS_KEPT = 50;
const WORTH_KEEPING = 0.001;

function Accepted(): JSX.Element | null {
  const { accepted, reopened } = job.value;
  if (accepted === null)
    return reopened ? (
      <p>
        <b class="mark">◇ Reopened</b> {showTime(reopened.at, new Date())}: what was accepted before stands no
        longer.
      </p>
    ) : null;
  const doing = accepted.repairs.filter((line) => line.worthDoing || line.whileOpen === true);
  return (
    <p>
      <b class="mark done">◆ Accepted</b> {showTime(accepted.at, new Date())}:{' '}
      {doing.length === 0
        ? 'nothing to repair'
        : listWords(doing.map((line) => small(REPAIRS[line.repair]?.title ?? line.repair)))}
      .
      {accepted.changesSince > 0 &&
        ` ${countWords(accepted.changesSince, 'entry has', 'entries have')} changed since, so look at it again.`}
    </p>
  );
}

/** The two ways on: act on the verdict, or take the reading that is worth its minutes. */
export function Accept(props: { readonly got: Answer }): JSX.Element {
  const { accepted } = job.value;
  const { sets, noneOfThese, next } = props.got;
  const repairs = advisedLines(props.got);
  const shown = sets.filter((set) => set.probability >= WORTH_KEEPING).slice(0, SETS_KEPT);
  const explained = isExplained(props.got);
  const stands = accepted !== null && accepted.changesSince === 0;
  const accept = (): void =>
    happenedUndoably(
      { type: 'verdictAccepted', repairs, sets: shown, noneOfThese },
      'Verdict accepted: the repair list stands.',
    );
  return (
    <section aria-label="Acceptance" class="accept stack tight">
      {next && !stands ? (
        <p>
          One more reading is worth its minutes first: <b>{describeKey(next.key)}</b>,{' '}
          <span class="figure">{next.minutes} min</span>.{' '}
          {explained ? 'It is your bike: you may accept now.' : 'There is nothing to accept yet.'}
        </p>
      ) : (
        !stands && <p>No reading is worth its minutes any more.</p>
      )}
      <Accepted />
      <div class="row">
        {next && !stands && (
          <Press class="main" act={() => openReading(null)}>
            Take that reading
          </Press>
        )}
        {!stands && explained && (
          <Press class={next ? '' : 'main'} act={accept}>
            {accepted ? 'Accept this verdict instead' : 'Accept this verdict'}
          </Press>
        )}
        {accepted && (
          <Press act={() => happened({ type: 'verdictReopened', why: '' })}>Reopen the verdict</Press>
        )}
      </div>
    </section>
  );
}
