/** What the station Way in shows below its first words: where to get to, how, the plan and its steps. */
import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { job } from '../state/job.ts';
import { machine } from '../state/machine.ts';
import { answer, failure } from '../state/verdict.ts';
import { choice, choose, lookAtWay, planning, reply } from '../state/way.ts';
import type { WayPlan, WayReply } from '../way-report.ts';
import { Fetched } from './fetched-page.tsx';
import { Later } from './later.tsx';
import { Press } from './press-button.tsx';
import { WayChoices, WayTargets } from './way-choices.tsx';
import { WayDip } from './way-dip.tsx';
import { WayList } from './way-list.tsx';
import { WayOpen } from './way-open.tsx';
import { WayPaper } from './way-paper.tsx';
import { WaySteps } from './way-steps.tsx';
import { troubled, WayTroubles } from './way-trouble.tsx';

const openEarlier = () => import('./way-earlier.tsx');
const openStart = () => import('./way-start.tsx');

interface Standing {
  readonly got: WayReply | null;
  readonly plan: WayPlan | null;
  readonly nothing: boolean;
  /** True until there is something to show below the choice of where to get to. */
  readonly early: boolean;
}

function useStanding(): Standing {
  const got = reply.value;
  const plan = got?.plan ?? null;
  const nothing = choice.value.targets.length === 0;
  // The verdict proposes targets a moment later, and the plan comes after them: until then "nothing chosen" is a word too
  // early, and what stands below would jump.
  const proposed = job.value.accepted !== null || answer.value !== null || failure.value !== null;
  const waiting = nothing ? job.value.way.chosen === null && !proposed : plan === null && !got?.why;
  const once = useRef(false);
  once.current ||= got !== null && !waiting;
  return { got, plan, nothing, early: got === null || (waiting && !once.current) };
}

/** Said beside the heading. */
export function WayPlanning(): JSX.Element | null {
  const { plan, early } = useStanding();
  return planning.value && (plan || early) ? <span class="quiet"> · planning…</span> : null;
}

export function WayWork(): JSX.Element {
  useEffect(lookAtWay, []);
  const { got, plan, nothing, early } = useStanding();
  return (
    <>
      <Fetched of={openEarlier} quiet>
        {({ WayEarlier }) => <WayEarlier />}
      </Fetched>
      {machine.value && <WayTargets />}
      {machine.value && got && !early && (
        // A turn further: the choice above may open itself in this very turn, and its content comes first.
        <Later>
          {() => (
            <Later>
              {() => <Below plan={plan} why={got.why} troubles={got.troubles} nothing={nothing} />}
            </Later>
          )}
        </Later>
      )}
    </>
  );
}

/** The same for paper. */
export function WaySheet(): JSX.Element | null {
  const plan = reply.value?.plan;
  return plan ? <Later>{() => <WayPaper plan={plan} />}</Later> : null;
}

/** What stands below the choice of where to get to. */
function Below(props: {
  readonly plan: WayPlan | null;
  readonly why: string | null;
  readonly troubles: WayReply['troubles'];
  readonly nothing: boolean;
}): JSX.Element {
  const { plan, why, nothing } = props;
  return (
    <>
      <WayChoices plan={plan} />
      {!nothing && why === null && (
        <Fetched of={openStart} quiet>
          {({ WayStart }) => <WayStart ticked={plan?.ticked ?? false} />}
        </Fetched>
      )}
      {why !== null && (
        <p class="warn" role="alert">
          <b class="flag">▲</b> {why}
        </p>
      )}
      <WayTroubles troubles={props.troubles} changed={plan?.changed ?? null} />
      {plan && <Shown plan={plan} />}
      {!plan && why === null && <p class="step">{nothing ? 'Choose what to get to.' : 'Planning…'}</p>}
    </>
  );
}

function Shown(props: { readonly plan: WayPlan }): JSX.Element {
  const { plan } = props;
  const [shown, show] = useState<string | null>(null);
  const { aim, people } = choice.value;
  return (
    <>
      <section class="stack tight" aria-label="When it can be ridden" aria-live="polite">
        <p class="step">
          Ride from <b>{plan.p50}</b> one time in two, <b>{plan.p90}</b> nine times in ten.
        </p>
        {plan.says.map((words) => (
          <p key={words}>{words}</p>
        ))}
        {plan.late.map((words) => (
          <p key={words} class="warn">
            <b class="flag">▲</b> {words}
          </p>
        ))}
        {plan.strays.length > 0 && (
          <p class="warn">
            <b class="flag">▲</b> This machine file no longer knows what was chosen or ticked before:{' '}
            {plan.strays.join(', ')}. It is left out here and kept in the log.
          </p>
        )}
        <div class="row">
          {plan.differ !== null && (
            <Press act={() => choose({ aim: aim === 'least' ? 'earliest' : 'least' })}>
              {aim === 'least' ? 'Follow the earliest ride' : 'Follow the least work'}
            </Press>
          )}
          {people === 2 && !job.value.way.troubles.some(({ what }) => what === 'helper-gone') && (
            <Press
              act={() =>
                troubled({ what: 'helper-gone', of: '', minutes: null, until: new Date().toISOString() })
              }
            >
              The helper is gone
            </Press>
          )}
          <Press act={() => print()}>Print the plan</Press>
        </div>
      </section>
      <WayDip plan={plan} open={show} />
      <WayList plan={plan} />
      <WayOpen plan={plan} />
      <WaySteps plan={plan} show={shown} />
    </>
  );
}
