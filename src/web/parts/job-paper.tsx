import type { JSX } from 'preact';
import { useEffect, useMemo } from 'preact/hooks';
import { ownerSheet } from '../../paper/owner-sheet.ts';
import { jobRecord } from '../../paper/record.ts';
import { logged } from '../state/job.ts';
import { machine } from '../state/machine.ts';
import { jobProof, lookAtProof } from '../state/proof.ts';
import { PaperPage } from './paper-document.tsx';

/** The record or the owner's page of the job on screen, as a document. */
export function JobPaper(props: { readonly kind: 'record' | 'owner' }): JSX.Element {
  const { kind } = props;
  useEffect(lookAtProof, []);
  const proved = jobProof.value;
  const [events, file] = [logged.value, machine.value?.machine ?? null];
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
  return <PaperPage of={document} />;
}
