import type { JSX } from 'preact';
import { inHundred } from '../../verdict/say-chance.ts';
import { Fetched } from '../parts/fetched-page.tsx';
import { writeRoute } from '../route.ts';
import { job, jobId } from '../state/job.ts';

const openFiles = () => import('../parts/handover-files.tsx');
const openCost = () => import('../parts/handover-cost.tsx');
const openHistory = () => import('../parts/handover-history.tsx');

function Proved(): JSX.Element {
  const { said, made } = job.value.proof;
  const to = writeRoute({ at: 'job', job: jobId.value ?? '', station: 'proof', take: null });
  if (said?.proven && said.changesSince === 0)
    return (
      <p class="step">
        <b class="mark done">◆ Proven</b> {said.at.slice(0, 10)}: that a fault is left,{' '}
        {inHundred(said.faultLeft)}.
      </p>
    );
  return (
    <p class="warn">
      <span>
        <b class="flag">▲</b>{' '}
        {said && !said.proven
          ? 'This job was closed as not proven: everything handed over says so.'
          : said
            ? 'Entries came after the proof was written down: say it anew.'
            : made
              ? 'The proof is not finished: what is handed over now will say so.'
              : 'Nothing was read after the repair: what is handed over now will say so.'}{' '}
        <a class="link" href={to}>
          To the proof
        </a>
      </span>
    </p>
  );
}

/** The station Handover: what the owner keeps, what to look at again, the film, the cost, the bike's years. */
export function Handover(): JSX.Element {
  return (
    <div class="stack wide handover screen-only">
      <h1 tabIndex={-1}>Handover</h1>
      <Proved />
      <section class="stack tight" aria-labelledby="papers">
        <h2 id="papers">On paper</h2>
        <p class="row">
          <a
            class="link"
            href={writeRoute({ at: 'job', job: jobId.value ?? '', station: 'record', take: null })}
          >
            The record of this job
          </a>
          <a
            class="link"
            href={writeRoute({ at: 'job', job: jobId.value ?? '', station: 'owner', take: null })}
          >
            The page for the owner
          </a>
        </p>
      </section>
      <Fetched of={openFiles}>
        {({ HandoverReminders, HandoverFilm }) => (
          <>
            <HandoverReminders />
            <HandoverFilm />
          </>
        )}
      </Fetched>
      <Fetched of={openCost} quiet>
        {({ HandoverCost }) => <HandoverCost />}
      </Fetched>
      <Fetched of={openHistory} quiet>
        {({ HandoverHistory }) => <HandoverHistory />}
      </Fetched>
    </div>
  );
}
