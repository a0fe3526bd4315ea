import type { JSX } from 'preact';
import { MEMBER_NAMES } from '../../draw/loop.ts';
import { MEMBERS } from '../../fault/catalogue.ts';
import { REPAIRS } from '../../fault/faults.ts';
import type { Answer, RepairLine } from '../../verdict/answer.ts';
import { describeKey, kindOf } from '../keys.ts';
import { Chance } from '../parts/chance.tsx';
import { DoubtLine } from '../parts/doubtful.tsx';
import { LoopFigure } from '../parts/loop-figure.tsx';
import { Press } from '../parts/press-button.tsx';
import { capital, countWords, inHundred, listWords, showTime, showValue, small } from '../show.ts';
import { happenedUndoably, job } from '../state/job.ts';
import { openReading, pickAbout } from '../state/taking.ts';
import { answer, failure, thinking } from '../state/verdict.ts';
import { leadOf, setWords } from '../words/lead.ts';

/** Sets shown one by one, at most. */
const SETS_SHOWN = 6;
/** A set or repair below this share is not worth a line of its own. */
const WORTH_A_LINE = 0.01;

function LeadLine(props: { readonly got: Answer }): JSX.Element {
  const lead = leadOf(props.got);
  return (
    <p class="step lead" aria-live="polite">
      {lead ? (
        <>
          {lead.opening}: <b>{lead.what}</b>, <span class="whole">{lead.share}</span>.
        </>
      ) : (
        'Nothing in the catalogue explains these readings.'
      )}
    </p>
  );
}

function Sets(props: { readonly got: Answer }): JSX.Element {
  const shown = props.got.sets.filter((set) => set.probability >= WORTH_A_LINE).slice(0, SETS_SHOWN);
  const rest = 1 - props.got.noneOfThese - shown.reduce((sum, set) => sum + set.probability, 0);
  return (
    <section aria-labelledby="sets" class="stack tight">
      <h2 id="sets">What explains the readings</h2>
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
          <span class="quiet">None of these: something this catalogue does not know</span>
          <Chance probability={props.got.noneOfThese} />
        </li>
      </ol>
      <p class="quiet">
        How often each fault turns up at all is a guess; the readings are weighed against it.
      </p>
    </section>
  );
}

function Repairs(props: { readonly lines: readonly RepairLine[] }): JSX.Element {
  const doing = props.lines.filter((line) => line.worthDoing);
  const leaving = props.lines.filter((line) => !line.worthDoing && line.probability >= 0.02);
  const item = (line: RepairLine): JSX.Element => {
    const repair = REPAIRS[line.repair];
    return (
      <li key={line.repair}>
        <span>
          <b class={line.worthDoing ? 'mark do' : 'mark leave'}>{line.worthDoing ? '■ Do:' : '□ Not now:'}</b>{' '}
          {small(repair?.title ?? line.repair)}
          {line.worthDoing && repair && <span class="under">about {repair.minutes} min, a guess</span>}
        </span>
        <Chance probability={line.probability} />
      </li>
    );
  };
  return (
    <section aria-labelledby="repairs" class="stack tight">
      <h2 id="repairs">What to repair</h2>
      {doing.length === 0 && <p>No repair is worth doing on what is known so far.</p>}
      <ol class="chances">
        {doing.map(item)}
        {leaving.map(item)}
      </ol>
      {props.lines.length > 0 && (
        <p class="quiet">
          The figure is how often, in a hundred bikes that read like this, the part needs the repair.
        </p>
      )}
    </section>
  );
}

/** What stays unsure, and whether another reading is worth its minutes. */
function Remaining(props: { readonly got: Answer }): JSX.Element {
  const { suspicion, next } = props.got;
  const unsure = MEMBERS.filter((member) => suspicion[member] > 0.1 && suspicion[member] < 0.9).sort(
    (a, b) => suspicion[b] - suspicion[a],
  );
  const named = unsure
    .slice(0, 4)
    .map((member) => `the ${MEMBER_NAMES[member]} (${inHundred(suspicion[member])})`);
  return (
    <section aria-labelledby="doubt" class="stack tight">
      <h2 id="doubt">What stays unsure</h2>
      <p>
        {unsure.length === 0
          ? 'Every part is either suspected with at least 9 in 10 or cleared with at least 9 in 10.'
          : `${capital(listWords(named))} may or may not be at fault.`}
      </p>
      {next ? (
        <div class="row">
          <p>
            The next reading worth its minutes: <b>{describeKey(next.key)}</b>,{' '}
            <span class="figure">{next.minutes} min</span>.
          </p>
          <Press act={() => openReading(null)}>Take it</Press>
        </div>
      ) : (
        <p>No reading is worth its minutes any more: act on the list of repairs.</p>
      )}
    </section>
  );
}

function Accept(props: { readonly got: Answer }): JSX.Element {
  const { accepted } = job.value;
  const { sets, repairs, noneOfThese } = props.got;
  const shown = sets.filter((set) => set.probability >= 0.001).slice(0, 50);
  const accept = (): void =>
    happenedUndoably(
      { type: 'verdictAccepted', repairs, sets: shown, noneOfThese },
      'Verdict accepted: the repair list stands.',
    );
  const doing = accepted?.repairs.filter((line) => line.worthDoing) ?? [];
  return (
    <section aria-label="Acceptance" class="accept stack tight">
      {accepted && (
        <p>
          <b class="mark done">◆ Accepted</b> {showTime(accepted.at, new Date())}:{' '}
          {doing.length === 0
            ? 'nothing to repair'
            : listWords(doing.map((line) => small(REPAIRS[line.repair]?.title ?? line.repair)))}
          .
          {accepted.changesSince > 0 &&
            ` ${countWords(accepted.changesSince, 'reading has', 'readings have')} changed since, so look at it again.`}
        </p>
      )}
      <Press class="main" disabled={accepted !== null && accepted.changesSince === 0} act={accept}>
        {accepted && accepted.changesSince > 0 ? 'Accept this verdict instead' : 'Accept this verdict'}
      </Press>
      {props.got.next && (
        <p class="quiet">A reading is still worth its minutes, but it is your bike: you may accept now.</p>
      )}
    </section>
  );
}

export function Verdict(): JSX.Element {
  const got = answer.value;
  const values = new Map(job.value.readings.map((reading) => [reading.key, reading.value]));
  if (!got) {
    return (
      <>
        <h1 tabIndex={-1}>Verdict</h1>
        <p class="step">{failure.value ?? 'Thinking…'}</p>
      </>
    );
  }
  return (
    <>
      <h1 tabIndex={-1}>Verdict{thinking.value && <span class="quiet"> · thinking…</span>}</h1>
      <div class="stack wide verdict">
        <LeadLine got={got} />
        {failure.value !== null && (
          <p class="warn">The newest entries are not in this verdict: {failure.value}</p>
        )}
        {job.value.readings.length === 0 && (
          <p>
            No reading has been taken: this rests only on the complaint and on{' '}
            <b>guessed odds of what usually fails</b>.
          </p>
        )}
        <LoopFigure chosen={null} pick={pickAbout} />
        {got.doubtful.length > 0 && (
          <section class="warn" aria-label="Readings that do not fit">
            {got.doubtful.map((doubt) => {
              const kind = kindOf(doubt.key);
              const value = values.get(doubt.key);
              return (
                <DoubtLine
                  key={doubt.key}
                  doubt={doubt}
                  {...(kind && value !== undefined ? { value: showValue(value, kind.unit) } : {})}
                />
              );
            })}
          </section>
        )}
        <div class="halves even">
          <Repairs lines={got.repairs} />
          <Sets got={got} />
        </div>
        <Remaining got={got} />
        <Accept got={got} />
      </div>
    </>
  );
}
