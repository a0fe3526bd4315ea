import type { JSX } from 'preact';
import { countWords } from '../show.ts';
import { happened } from '../state/job.ts';
import type { WayPlan } from '../way-report.ts';
import { Fold } from './fold.tsx';
import { Press } from './press-button.tsx';

/** Everything to have on the bench before the first screw; what is at hand is ticked. */
export function WayList(props: { readonly plan: WayPlan }): JSX.Element {
  const { list, tools } = props.plan;
  const missing = list.filter(({ here }) => !here).length;
  const head =
    list.length === 0
      ? 'nothing to get'
      : missing === 0
        ? 'all at hand'
        : `${countWords(missing, 'thing', 'things')} to get`;
  return (
    <section aria-labelledby="before">
      <h2 id="before">Before you open it</h2>
      <Fold head={<b>{head}</b>}>
        {() => (
          <div class="stack tight">
            <div class="toggles way-list">
              {list.map(({ supply, says, here }) => (
                <Press
                  key={supply}
                  pressed={here}
                  act={() => happened({ type: 'stockNoted', supply, here: !here })}
                >
                  {says}
                </Press>
              ))}
            </div>
            <p>Tools: {tools.join(', ')}.</p>
          </div>
        )}
      </Fold>
    </section>
  );
}
