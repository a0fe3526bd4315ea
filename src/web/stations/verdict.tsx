import type { JSX } from 'preact';
import { FAULTS } from '../../fault/faults.ts';
import type { Answer } from '../../verdict/answer.ts';
import { inHundred } from '../../verdict/say-chance.ts';
import { advisedLines } from '../advised.ts';
import { Accept } from '../parts/accept.tsx';
import { DoubtLeft } from '../parts/doubt-left.tsx';
import { Doubts } from '../parts/doubtful.tsx';
import { Guessed } from '../parts/guessed.tsx';
import { Later } from '../parts/later.tsx';
import { LoopFigure } from '../parts/loop-figure.tsx';
import { Misfit } from '../parts/misfit.tsx';
import { ToDo } from '../parts/to-do.tsx';
import { Why } from '../parts/why.tsx';
import { writeRoute } from '../route.ts';
import { listWords } from '../show.ts';
import { job, jobId } from '../state/job.ts';
import { pickAbout } from '../state/taking.ts';
import { answer, failure, thinking } from '../state/verdict.ts';
import { leadOf } from '../words/lead.ts';

function LeadLine(props: { readonly got: Answer }): JSX.Element {
  const lead = leadOf(props.got);
  return (
    <div aria-live="polite">
      <p class="step lead">
        {lead ? (
          <>
            {lead.opening}: <b>{lead.what}</b>, <span class="whole">{lead.share}</span>.
          </>
        ) : (
          'Nothing in the catalogue explains these readings.'
        )}
      </p>
      {lead?.only && <p>That this is all that is wrong: {lead.only}.</p>}
    </div>
  );
}

/** That this job weighs some faults otherwise than the catalogue. */
function OwnOdds(): JSX.Element | null {
  const { priors } = job.value;
  if (priors.length === 0) return null;
  const said = priors.map(
    ({ fault, chance }) => `${FAULTS[fault as keyof typeof FAULTS]?.title ?? fault} ${inHundred(chance)}`,
  );
  return (
    <p class="own-odds">
      <b>◈ Odds set in this job:</b> {listWords(said)}.{' '}
      <a
        href={writeRoute({ at: 'job', job: jobId.value ?? '', station: 'odds', take: null })}
        class="link plain"
      >
        See the odds
      </a>
    </p>
  );
}

/** From what is to be done to how one gets there. */
function ToTheWayIn(props: { readonly got: Answer }): JSX.Element | null {
  const { opened } = job.value;
  const doing = advisedLines(props.got).some(({ worthDoing, whileOpen }) => worthDoing || whileOpen);
  if (!opened || !doing) return null;
  return (
    <p>
      <a class="link" href={writeRoute({ at: 'job', job: jobId.value ?? '', station: 'way', take: null })}>
        Plan the way in
      </a>
    </p>
  );
}

export function Verdict(): JSX.Element {
  const got = answer.value;
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
      <div class="stack wide verdict beside">
        <div class="stack tight">
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
          <OwnOdds />
          <Guessed link />
        </div>
        <Misfit got={got} />
        <Doubts />
        <Later>{() => <ToDo got={got} />}</Later>
        <Later>{() => <Accept got={got} />}</Later>
        <Later>{() => <ToTheWayIn got={got} />}</Later>
        <section class="verdict-loop" aria-label="The charging circuit">
          <Later>{() => <LoopFigure chosen={null} pick={pickAbout} shape="narrow" />}</Later>
        </section>
        <Later>{() => <Why />}</Later>
        <Later>{() => <DoubtLeft got={got} />}</Later>
      </div>
    </>
  );
}
