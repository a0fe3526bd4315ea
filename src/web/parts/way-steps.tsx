import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { PHASES } from '../../way/say-plan.ts';
import { countWords } from '../show.ts';
import { happened, job } from '../state/job.ts';
import { holdChoice } from '../state/way.ts';
import type { WayPlan, WayStep } from '../way-report.ts';
import { Fastener, HOLDS } from './fastener.tsx';
import { Fold } from './fold.tsx';
import { Press } from './press-button.tsx';
import { WayTroublePanel } from './way-trouble.tsx';

/** The phases of the plan, each folded; the first with work left is open, and so is the one of the step asked for. */
export function WaySteps(props: { readonly plan: WayPlan; readonly show: string | null }): JSX.Element {
  const { steps } = props.plan;
  const ticks = new Map(job.value.way.ticks.map((tick) => [tick.step, tick]));
  const isDone = (step: WayStep) => step.state === 'done' || ticks.get(step.id)?.done != null;
  const left = steps.find((step) => !isDone(step) && step.state !== 'runs');
  const phases = (['in', 'bottom', 'out', 'closing'] as const).filter((phase) =>
    steps.some((step) => step.phase === phase),
  );
  return (
    <section class="stack tight" aria-labelledby="way-order">
      <h2 id="way-order">The order of work</h2>
      {phases.map((phase) => {
        const own = steps.filter((step) => step.phase === phase);
        const done = own.filter(isDone).length;
        return (
          <Fold
            key={phase}
            open={left?.phase === phase || own.some(({ id }) => id === props.show)}
            head={
              <>
                <b>{PHASES[phase]}</b> · {countWords(own.length, 'step', 'steps')}
                {done > 0 && `, ${done} done`}
              </>
            }
          >
            {() => {
              const list = (of: readonly WayStep[]) => (
                <ol class="way-steps">
                  {of.map((step) => (
                    <Step
                      key={step.id}
                      step={step}
                      done={isDone(step)}
                      next={step.id === left?.id}
                      show={step.id === props.show}
                    />
                  ))}
                </ol>
              );
              const behind = own.filter(isDone);
              return (
                <>
                  {behind.length > 0 && (
                    <Fold
                      head={`${countWords(behind.length, 'step', 'steps')} done`}
                      open={behind.some(({ id }) => id === props.show)}
                    >
                      {() => list(behind)}
                    </Fold>
                  )}
                  {list(own.filter((step) => !isDone(step)))}
                </>
              );
            }}
          </Fold>
        );
      })}
    </section>
  );
}

function Step(props: {
  readonly step: WayStep;
  readonly done: boolean;
  readonly next: boolean;
  readonly show: boolean;
}): JSX.Element {
  const { step, done, show } = props;
  const [jam, setJam] = useState(false);
  const id = `step-${step.id}`;
  useEffect(() => {
    if (!show) return;
    const place = document.getElementById(id);
    place?.scrollIntoView({ block: 'center' });
    place?.focus({ preventScroll: true });
  }, [show, id]);
  const tick = (type: 'stepDone' | 'stepBegun' | 'stepUndone'): void => {
    holdChoice();
    const seen = job.peek().way.undone.get(step.id) ?? null;
    happened(type === 'stepUndone' ? { type, step: step.id } : { type, step: step.id, seen });
  };
  const marks = [
    ...(step.caution ? ['▲'] : []),
    ...(step.hold && step.hold !== 'wait' ? ['◎'] : []),
    ...(step.window || step.state === 'runs' ? ['◷'] : []),
  ].join(' ');
  return (
    <li id={id} tabIndex={-1} class={done ? 'done' : props.next ? 'next' : undefined}>
      <Fold
        open={props.next || show}
        head={
          <>
            <span class="way-time">{done ? '✓ done' : step.time}</span> {step.does}{' '}
            {!done && <span aria-hidden="true">{marks}</span>}
          </>
        }
      >
        {() => (
          <div class="stack tight">
            {step.caution && (
              <p class="warn">
                <b class="flag">▲ Caution</b> {step.caution}
              </p>
            )}
            {step.state === 'runs' && !done && (
              <p>
                <b class="mark">◷ It runs</b>, to the end at its usual time.
              </p>
            )}
            {!done && <Figures step={step} />}
            <div class="row way-acts">
              {!done && (
                <Press
                  class={props.next ? 'main' : ''}
                  label={`Done: ${step.does}`}
                  act={() => tick('stepDone')}
                >
                  Done
                </Press>
              )}
              {(done || step.state === 'runs') && (
                <Press label={`Not done after all: ${step.does}`} act={() => tick('stepUndone')}>
                  Not after all
                </Press>
              )}
              {!done && step.alone && step.state !== 'runs' && (
                <Press label={`It runs now: ${step.does}`} act={() => tick('stepBegun')}>
                  It runs now
                </Press>
              )}
              {!done && (step.canJam || step.uses.length > 0) && (
                <Press class="plain" expanded={jam} label={`Trouble: ${step.does}`} act={() => setJam(!jam)}>
                  Trouble
                </Press>
              )}
            </div>
            {jam && !done && <WayTroublePanel step={step} close={() => setJam(false)} />}
          </div>
        )}
      </Fold>
    </li>
  );
}

/** What the hand on the spanner needs: time, stop, window, tools, and the fastener's figures. */
function Figures(props: { readonly step: WayStep }): JSX.Element {
  const { step } = props;
  return (
    <>
      <p class="quiet">{step.notes}</p>
      {step.hold && step.hold !== 'wait' && (
        <p>
          <b class="mark">◎ Stop: {HOLDS[step.hold]}</b>
        </p>
      )}
      {step.window && (
        <p>
          <b class="mark">◷ {step.window}</b>
        </p>
      )}
      {step.fastener && <Fastener of={step.fastener} back={step.phase !== 'in'} />}
      {step.tools.length > 0 && <p class="quiet">With: {step.tools.join(', ')}</p>}
    </>
  );
}
