import type { JSX } from 'preact';
import type { Answer } from '../../verdict/answer.ts';
import { machineTitle } from '../nameplate.ts';
import { writeRoute } from '../route.ts';
import { jobId } from '../state/job.ts';
import { machine } from '../state/machine.ts';

/** The readings contradict machine file or set-up, and no single slip puts that right: what to look at. */
export function Misfit(props: { readonly got: Answer }): JSX.Element | null {
  if (!props.got.misfit) return null;
  const known = machine.value;
  return (
    <section class="warn misfit" role="alert" aria-label="Readings that fit no bike of this kind">
      <p>
        <b class="flag">▲ The machine file or the set-up does not fit.</b> No fault known here, and no single
        slip, explains these readings together. Do not buy parts on them. Look at:
      </p>
      <ul class="looks">
        <li>
          <b>The machine:</b> is it really {known ? `a ${machineTitle(known.machine)}` : 'this machine'}, with
          the alternator, regulator and battery it left the works with?
        </li>
        <li>
          <b>The engine:</b> speed, lights, cold or at heat, plug mated or apart, as each reading says.
        </li>
        <li>
          <b>The units:</b> mV or V, mA or A, AC or DC, the range the meter stood on.
        </li>
      </ul>
      <p>
        <a
          class="link"
          href={writeRoute({ at: 'job', job: jobId.value ?? '', station: 'complaint', take: null })}
        >
          See what the file says of this machine
        </a>
      </p>
    </section>
  );
}
