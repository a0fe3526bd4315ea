import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { WayTroubled } from '../../job/event.ts';
import { happened } from '../state/job.ts';
import { holdChoice } from '../state/way.ts';
import type { WayChange, WayStep } from '../way-report.ts';
import { Moment } from './moment.tsx';
import { Press } from './press-button.tsx';

const HOUR_MS = 3_600_000;
const LONGER = [
  { minutes: 15, title: '15 min longer' },
  { minutes: 30, title: '30 min longer' },
  { minutes: 60, title: '1 h longer' },
] as const;

/** Writes a trouble down; the plan follows it. */
export function troubled(trouble: Omit<WayTroubled, 'type'>): void {
  holdChoice();
  happened({ type: 'wayTroubled', ...trouble });
}

/** Tomorrow at noon. */
function tomorrow(): string {
  const at = new Date(Date.now() + 24 * HOUR_MS);
  at.setHours(12, 0, 0, 0);
  return at.toISOString();
}

/** What can be wrong at a step, each with what the plan is to make of it. */
export function WayTroublePanel(props: { readonly step: WayStep; readonly close: () => void }): JSX.Element {
  const { step } = props;
  const [until, setUntil] = useState(tomorrow);
  const say = (what: WayTroubled['what'], of: string, minutes: number | null): void => {
    props.close();
    troubled({ what, of, minutes, until: what === 'not-here' ? until : null });
  };
  return (
    <fieldset class="way-trouble stack tight">
      <legend>What is wrong here? The plan is made anew at once.</legend>
      <div class="row">
        {step.phase === 'in' && (
          <Press act={() => say('seized', step.id, null)}>It will not come at all</Press>
        )}
        {step.phase === 'in' &&
          LONGER.map(({ minutes, title }) => (
            <Press key={minutes} act={() => say('seized', step.id, minutes)}>
              {title}
            </Press>
          ))}
        {step.canJam && <Press act={() => say('stripped', step.id, null)}>A thread is stripped</Press>}
      </div>
      {step.uses.length > 0 && (
        <>
          <Moment ask="Not here before" at={until} set={setUntil} />
          <div class="row">
            {step.uses.map(({ supply, name }) => (
              <Press key={supply} act={() => say('not-here', supply, null)}>
                {name} is not here yet
              </Press>
            ))}
          </div>
        </>
      )}
    </fieldset>
  );
}

/** What jams now, each with the way to take it back. */
export function WayTroubles(props: {
  readonly troubles: readonly { readonly event: string; readonly says: string }[];
  readonly changed: WayChange | null;
}): JSX.Element | null {
  if (props.troubles.length === 0) return null;
  const { changed } = props;
  return (
    <section class="stack tight" aria-labelledby="way-jams">
      <h2 id="way-jams">Planned anew</h2>
      {changed && (
        <div role="status" class="stack tight">
          <p class="step">
            {changed.happened} {changed.says || 'The ride and the work stay as they were.'}
          </p>
          <Steps head="New in the plan" of={changed.added} />
          <Steps head="No longer in it" of={changed.dropped} />
        </div>
      )}
      <ul class="way-jams">
        {props.troubles.map(({ event, says }) => (
          <li key={event} class="row">
            <span>◆ {says}.</span>
            <Press
              class="plain"
              label={`No longer so: ${says}`}
              act={() => happened({ type: 'wayCleared', event })}
            >
              No longer so
            </Press>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Steps(props: { readonly head: string; readonly of: readonly string[] }): JSX.Element | null {
  if (props.of.length === 0) return null;
  return (
    <div>
      <p class="ask">{props.head}</p>
      <ul class="way-changes">
        {props.of.map((does) => (
          <li key={does}>{does}</li>
        ))}
      </ul>
    </div>
  );
}
