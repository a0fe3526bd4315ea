import type { JSX } from 'preact';
import { useMemo } from 'preact/hooks';
import { provedVolts } from '../../draw/proved-volts.ts';
import { job } from '../state/job.ts';
import { proofVolts } from '../state/side.ts';
import { pictureOf } from './picture.tsx';

/** Battery volts over engine speed: before, after, and what the repaired bike should show. */
export function ProofChart(): JSX.Element | null {
  const { readings, proof } = job.value;
  const band = proofVolts.value;
  const sheets = useMemo(
    () =>
      (['wide', 'narrow'] as const).map((shape) =>
        provedVolts({ before: readings, after: proof.readings, band, shape }),
      ),
    [readings, proof.readings, band],
  );
  if (sheets[0] === null || sheets[1] === null) return null;
  return (
    <section class="stack tight" aria-labelledby="before-after">
      <h2 id="before-after">Before and after</h2>
      <figure class="curves only-wide">{pictureOf(sheets[0]!)}</figure>
      <figure class="curves only-narrow">{pictureOf(sheets[1]!)}</figure>
    </section>
  );
}
