import type { JSX } from 'preact';
import { DEFERENCE } from '../../paper/deference.ts';
import { PHASES } from '../../way/say-plan.ts';
import { job } from '../state/job.ts';
import type { WayPlan } from '../way-report.ts';
import { Fastener, HOLDS } from './fastener.tsx';
import { pictureOf } from './picture.tsx';
import { choiceWords } from './way-choices.tsx';

/** The plan for paper: never on screen, always ready, so that the browser's own print finds all of it. */
export function WayPaper(props: { readonly plan: WayPlan }): JSX.Element {
  const { plan } = props;
  const { opened } = job.value;
  return (
    <div class="paper-only" aria-hidden="true">
      <h1>The way in: {opened?.title}</h1>
      {opened?.invented && <p>A demo: bike, owner and figures are invented.</p>}
      <p>{choiceWords()}.</p>
      <p>
        Ride from <b>{plan.p50}</b> one time in two, <b>{plan.p90}</b> nine times in ten.
      </p>
      {plan.says.map((words) => (
        <p key={words}>{words}</p>
      ))}
      {pictureOf(plan.sheet)}
      <h2>Before you open it</h2>
      <ul class="paper-list">
        {plan.list.map(({ supply, says, here }) => (
          <li key={supply}>
            {here ? '☑' : '□'} {says}
          </li>
        ))}
      </ul>
      <p>Tools: {plan.tools.join(', ')}.</p>
      {plan.open && (
        <>
          <h2>While it is open</h2>
          {plan.open.lines.map(({ id, replace, says }) => (
            <p key={id}>
              {replace ? '■' : '□'} {says}
            </p>
          ))}
          <p>{plan.open.sum}</p>
        </>
      )}
      {(['in', 'bottom', 'out', 'closing'] as const).map((phase) => {
        const steps = plan.steps.filter((step) => step.phase === phase);
        if (steps.length === 0) return null;
        return (
          <section key={phase}>
            <h2>{PHASES[phase]}</h2>
            <ol class="paper-steps">
              {steps.map((step) => (
                <li key={step.id}>
                  <p>
                    {step.state === 'done' ? '☑' : '□'} <b>{step.time}</b> {step.does}{' '}
                    <span>
                      ({step.notes}
                      {step.hold && step.hold !== 'wait' && ` · stop: ${HOLDS[step.hold]}`}
                      {step.window && ` · ${step.window}`})
                    </span>
                  </p>
                  {step.caution && (
                    <p>
                      <b>▲ Caution</b> {step.caution}
                    </p>
                  )}
                  {step.fastener && <Fastener of={step.fastener} back={phase !== 'in'} />}
                </li>
              ))}
            </ol>
          </section>
        );
      })}
      <p>{DEFERENCE}</p>
    </div>
  );
}
