import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import { choose } from '../state/way.ts';
import { lookAtStarts, rideBy, setRideBy, starts } from '../state/way-start.ts';
import { Fold } from './fold.tsx';
import { Moment } from './moment.tsx';
import { Press } from './press-button.tsx';

/** "It must be ridden on Saturday at nine": when to begin, alone and with a helper. Asked for only once it is opened. */
export function WayStart(props: { readonly ticked: boolean }): JSX.Element {
  return (
    <Fold head={<b>Must it be ridden by an hour? When to start</b>}>
      {() => <Asked ticked={props.ticked} />}
    </Fold>
  );
}

function Asked(props: { readonly ticked: boolean }): JSX.Element {
  useEffect(lookAtStarts, []);
  return (
    <div class="stack way-start">
      <Moment ask="It must be ridden by" at={rideBy.value} set={setRideBy} />
      <ul class="stack" aria-live="polite">
        {starts.value.map((found, i) => (
          <li key={i === 0 ? 'one' : 'two'} class="stack tight">
            <p>{found?.says ?? `With ${i === 0 ? 'one person' : 'two people'}: reckoning…`}</p>
            {found?.start && !props.ticked && (
              <Press
                act={() => {
                  if (found.start) choose({ startsAt: found.start, people: found.people });
                }}
              >
                {i === 0 ? 'Plan for that start, alone' : 'Plan for that start, with two'}
              </Press>
            )}
          </li>
        ))}
      </ul>
    </div>
  );
}
