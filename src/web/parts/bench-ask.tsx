import type { JSX } from 'preact';
import { useId, useState } from 'preact/hooks';
import type { Asking } from '../../bench/ask.ts';
import { sayRecord } from '../../bench/found.ts';
import type { AskHere } from '../../bench/standing.ts';
import { showTime, unbroken } from '../show.ts';
import { Fetched } from './fetched-page.tsx';
import { Later } from './later.tsx';
import { Press } from './press-button.tsx';

/** The forms are fetched beside the page: its words and figures stand first. The station asks for them as it opens. */
export const openForm = () => import('./bench-form.tsx');

/** One record that the step asks for: made, or to be made. */
export function BenchAsk(props: { readonly here: AskHere; readonly asking: Asking }): JSX.Element {
  const { here, asking } = props;
  const [anew, setAnew] = useState(false);
  const id = useId();
  const { ask, record, override } = here;
  return (
    <section class={`bench-ask ${here.met ? 'met' : 'open'}`} aria-labelledby={id}>
      <h2 id={id} tabIndex={-1}>
        <span class={here.met ? 'mark' : 'flag'} aria-hidden="true">
          {here.met ? '✓' : '◎'}
        </span>{' '}
        {unbroken(ask.title)}
      </h2>
      {/* The head stands at once, so that the bar can lead there; a slow phone builds the form after the step is read. */}
      <Later>
        {() => (
          <>
            {record && !anew && <Made here={here} asking={asking} />}
            {override && !record && (
              <p>
                <b class="flag">▲</b> Left out: {override.why}
              </p>
            )}
            {here.met && !anew ? (
              <Press class="plain" label={`Sign anew: ${ask.title}`} act={() => setAnew(true)}>
                Sign anew
              </Press>
            ) : (
              <Fetched of={openForm} quiet>
                {({ BenchForm }) => <BenchForm here={here} asking={asking} signed={() => setAnew(false)} />}
              </Fetched>
            )}
          </>
        )}
      </Later>
    </section>
  );
}

function Made(props: { readonly here: AskHere; readonly asking: Asking }): JSX.Element {
  const { record, judged, stale } = props.here;
  const { lines, at, who } = sayRecord(props.asking, record!);
  return (
    <div class="bench-made">
      <p class="quiet">
        {showTime(at, new Date())}
        {who && `, ${who}`}
      </p>
      <ul>
        {lines.map((line) => (
          <li key={line}>{unbroken(line)}</li>
        ))}
      </ul>
      {judged?.ok && judged.says.map((says) => <p key={says}>{says}</p>)}
      {judged?.ok && judged.stops.map((says) => <Warning key={says} says={says} />)}
      {stale && <Warning says={stale} />}
    </div>
  );
}

export function Warning(props: { readonly says: string }): JSX.Element {
  return (
    <p class="warn">
      <b class="flag">▲</b> {props.says}
    </p>
  );
}
