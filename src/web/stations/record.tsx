import type { JSX } from 'preact';
import { PAGES } from '../pages.ts';
import { Fetched } from '../parts/fetched-page.tsx';
import { Press } from '../parts/press-button.tsx';
import { writeRoute } from '../route.ts';
import { jobId, loading } from '../state/job.ts';

const print = (): void => void import('../print-paper.ts').then(({ printPaper }) => printPaper());

/** The record, or the page for the owner: read here, printed from here, or kept as the laptop makes it. */
function Paper(props: { readonly kind: 'record' | 'owner' }): JSX.Element {
  const { kind } = props;
  const job = jobId.value ?? '';
  const other = kind === 'record' ? 'owner' : 'record';
  return (
    <div class="stack wide">
      <p class="step screen-only">
        {kind === 'record'
          ? 'What was found, done and measured on this bike, written out from the log of the job. Print it from here, or keep it as a PDF.'
          : 'What the owner is told about the bike, in plain words. Print it from here, or keep it as a PDF.'}
      </p>
      <div class="row screen-only">
        <Press act={print}>Print</Press>
        <a class="link" href={`/api/jobs/${encodeURIComponent(job)}/${kind}.pdf`} download>
          Keep as PDF (made on the laptop)
        </a>
        <a class="link" href={writeRoute({ at: 'job', job, station: other, take: null })}>
          {kind === 'record' ? 'The page for the owner' : 'The record'}
        </a>
        <a class="link" href={writeRoute({ at: 'job', job, station: 'handover', take: null })}>
          Back to the handover
        </a>
      </div>
      {loading.value.is === 'loading' ? (
        <p class="step">Opening the job…</p>
      ) : (
        <Fetched of={PAGES.paper}>{({ JobPaper }) => <JobPaper kind={kind} />}</Fetched>
      )}
    </div>
  );
}

export function RecordPage(): JSX.Element {
  return <Paper kind="record" />;
}

export function OwnerPage(): JSX.Element {
  return <Paper kind="owner" />;
}
