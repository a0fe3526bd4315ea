import type { JSX } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import { ownerSheet } from '../../paper/owner-sheet.ts';
import { jobRecord } from '../../paper/record.ts';
import { PaperPage } from '../parts/paper-document.tsx';
import { Press } from '../parts/press-button.tsx';
import { writeRoute } from '../route.ts';
import { jobId, logged } from '../state/job.ts';
import { machine } from '../state/machine.ts';
import { jobProof, lookAtProof } from '../state/proof.ts';

/** The record, or the page for the owner: read here, printed from here, or kept as the laptop makes it. */
function Paper(props: { readonly kind: 'record' | 'owner' }): JSX.Element {
  const { kind } = props;
  useEffect(lookAtProof, []);
  const proved = jobProof.value;
  const [events, file, job] = [logged.value, machine.value?.machine ?? null, jobId.value ?? ''];
  const document = useMemo(() => {
    const make = kind === 'record' ? jobRecord : ownerSheet;
    const at = new Date();
    // A picture that is not in this browser may still come from the laptop: its place says what became of it.
    return make({
      events,
      machine: file,
      here: () => true,
      proved,
      at: at.toISOString(),
      east: -at.getTimezoneOffset(),
    });
  }, [kind, events, file, proved]);
  const other = kind === 'record' ? 'owner' : 'record';
  return (
    <div class="stack wide">
      <div class="row screen-only">
        <Press act={() => print()}>Print</Press>
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
      <PaperPage of={document} />
    </div>
  );
}

export function RecordPage(): JSX.Element {
  return <Paper kind="record" />;
}

export function OwnerPage(): JSX.Element {
  return <Paper kind="owner" />;
}
