import type { JSX } from 'preact';
import { useMemo } from 'preact/hooks';
import { provedVolts } from '../../draw/proved-volts.ts';
import { partsOfRepairs } from '../../machine/new-parts.ts';
import { sheetDiffers } from '../../machine/sheet-differs.ts';
import { job } from '../state/job.ts';
import { machine } from '../state/machine.ts';
import { repairs } from '../state/proof.ts';
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
  const known = machine.value;
  const said = useMemo(
    () => (known ? sheetDiffers(known.machine, partsOfRepairs(repairs.value)) : []),
    [known, repairs.value],
  ).filter(({ of }) => of === 'charging');
  if (sheets[0] === null || sheets[1] === null) return null;
  return (
    <section class="stack tight" aria-labelledby="before-after">
      <h2 id="before-after">Before and after</h2>
      <figure class="curves only-wide">{pictureOf(sheets[0]!)}</figure>
      <figure class="curves only-narrow">{pictureOf(sheets[1]!)}</figure>
      {said.map(({ name, counts, from, others }) => (
        <p key={name}>
          ◇ The proof goes by the sheet of the new part, {from}: {name} {counts}. Otherwise{' '}
          {others.join('; ')}.
        </p>
      ))}
    </section>
  );
}
