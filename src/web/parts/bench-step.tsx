import type { JSX } from 'preact';
import type { Asking } from '../../bench/ask.ts';
import { foundFor } from '../../bench/found.ts';
import type { Standing } from '../../bench/standing.ts';
import { stageOf } from '../../bench/torque-ask.ts';
import { showTime, unbroken } from '../show.ts';
import { askingOf } from '../state/bench.ts';
import { job } from '../state/job.ts';
import type { WayStep } from '../way-report.ts';
import { BenchAsk, openForm, Warning } from './bench-ask.tsx';
import { BigFigure } from './big-figure.tsx';
import { Fastener, HOLDS } from './fastener.tsx';
import { Fetched } from './fetched-page.tsx';

/** One step: the caution first, then what, the figure, with what, where; what was found; what it wants written down. */
export function BenchStep(props: {
  readonly step: WayStep;
  readonly stands: Standing;
  readonly done: boolean;
  /** Whether the drawings and the forms are here: what they would push down waits for them. */
  readonly beside: boolean;
}): JSX.Element {
  const { step, stands, done, beside } = props;
  const asking = askingOf(step.id);
  const stage = asking && stageOf(asking);
  const left = step.fastener?.mind.find((words) => words.startsWith('LEFT'));
  return (
    <div class="bench-sides">
      <div class="stack tight">
        {step.caution && (
          <p class="warn bench-caution">
            <b class="flag">▲ Caution</b> {step.caution}
          </p>
        )}
        {left && (
          <p class="warn bench-caution">
            <b class="flag">▲ {left}</b>
          </p>
        )}
        <h1 tabIndex={-1} id="bench-step" class="bench-does">
          {done && <span class="mark">✓ </span>}
          {step.does}
        </h1>
        {step.fastener && step.phase !== 'in' && stage && (
          <Torque words={stageWords(step, stage.number, stage.of)} number={stage.number} of={stage.of} />
        )}
        {step.fastener && <Fastener of={step.fastener} back={step.phase !== 'in'} plain={stage !== null} />}
        <p class="bench-with">
          {step.tools.length > 0 && `With: ${step.tools.join(', ')}. `}
          {step.notes}
        </p>
        {step.window && (
          <p>
            <b class="mark">◷ {step.window}</b>
          </p>
        )}
        {step.hold && step.hold !== 'wait' && !done && (
          <p>
            <b class="mark">◎ Stop: {HOLDS[step.hold]}</b>
          </p>
        )}
        {beside && asking && (
          <Fetched of={openWhere} quiet>
            {({ BenchWhere }) => <BenchWhere asking={asking} />}
          </Fetched>
        )}
      </div>
      {beside && <Wants step={step} stands={stands} done={done} asking={asking} />}
    </div>
  );
}

/** What was found on the way in, what comes first, and what is to be written down. */
function Wants(props: {
  readonly step: WayStep;
  readonly stands: Standing;
  readonly done: boolean;
  readonly asking: Asking | null;
}): JSX.Element {
  const { step, stands, done, asking } = props;
  return (
    <div class="stack">
      <Found step={step.id} />
      {!done && stands.waits.length > 0 && (
        <section class="stack tight" aria-label="What comes first">
          {stands.waits.map(({ says, untilMs }) => (
            <Warning
              key={says}
              says={
                untilMs === null
                  ? says
                  : `${says} Until ${showTime(new Date(untilMs).toISOString(), new Date())}.`
              }
            />
          ))}
          {stands.overridden ? (
            <p>Not waited for: {stands.overridden.why}</p>
          ) : (
            <Fetched of={openForm} quiet>
              {({ GoWithout }) => <GoWithout step={step.id} ask="wait" words="Go on without waiting" />}
            </Fetched>
          )}
        </section>
      )}
      {asking &&
        stands.asks.map((here) => <BenchAsk key={`${step.id} ${here.ask.id}`} here={here} asking={asking} />)}
    </div>
  );
}

/** The drawings: the bench asks for them when it comes, and they are there before its plan is. */
export const openWhere = () => import('./bench-where.tsx');
/** The torque of this stage, or of the last one, in both systems: "12.2 N·m (9 lbf·ft)". */
function stageWords(step: WayStep, number: number, of: number): string {
  const { torque, stages } = step.fastener!;
  return (of > 1 && number < of ? (stages[number - 1] ?? torque) : torque) ?? '';
}

/** The figure as large as the screen bears, the other system below it. */
function Torque(props: {
  readonly words: string;
  readonly number: number;
  readonly of: number;
}): JSX.Element {
  const [, metric, inch] = /^(.*?)\s*(?:\((.*)\))?$/.exec(props.words) ?? [];
  return (
    <div>
      <BigFigure text={metric ?? props.words} />
      {inch && <p class="bench-other">{inch}</p>}
      {props.of > 1 && (
        <p class="step">
          <b>
            Stage {props.number} of {props.of}
          </b>
        </p>
      )}
    </div>
  );
}

const openStrip = () => import('./photo-strip.tsx');

/** What was written down when it came off, with notes and photographs made there and here. */
function Found(props: { readonly step: string }): JSX.Element | null {
  const asking = askingOf(props.step);
  if (!asking) return null;
  const records = foundFor(asking, askingOf);
  const move = asking.place.phase === 'out' ? asking.place.action?.id : undefined;
  const notes = job.value.notes.filter(({ step }) => step !== null && (step === props.step || step === move));
  const photos = job.value.bench.photos.filter(
    ({ step }) => step !== '' && (step === props.step || step === move),
  );
  if (records.length === 0 && notes.length === 0 && photos.length === 0) return null;
  return (
    <section class="bench-found stack tight" aria-labelledby="bench-found">
      <h2 id="bench-found">As it was found</h2>
      {records.map(({ event, title, lines, at, who }) => (
        <div key={event}>
          <p class="ask">{title.replace(/^As found: /, '')}</p>
          <ul>
            {lines.map((line) => (
              <li key={line}>{unbroken(line)}</li>
            ))}
          </ul>
          <p class="quiet">
            {showTime(at, new Date())}
            {who && `, ${who}`}
          </p>
        </div>
      ))}
      {notes.map(({ event, text }) => (
        <p key={event}>✎ {text}</p>
      ))}
      {photos.length > 0 && (
        <Fetched of={openStrip} quiet>
          {({ PhotoStrip }) => <PhotoStrip photos={photos} />}
        </Fetched>
      )}
    </section>
  );
}
