import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { costOf } from '../../bike/cost.ts';
import type { Hours } from '../../bike/hours.ts';
import { REPAIRS } from '../../fault/repairs.ts';
import { AMOUNT_LIMIT } from '../../job/event-rule.ts';
import { readFigure } from '../../units/figure.ts';
import { toNumber } from '../../units/rational.ts';
import { countWords } from '../show.ts';
import { happened, happenedUndoably, job } from '../state/job.ts';
import { machine } from '../state/machine.ts';
import { Fold } from './fold.tsx';
import { Press } from './press-button.tsx';
import { Segments } from './segments.tsx';

/** Hours and minutes as a clock has them: `2 h 05`. */
function hoursWords(minutes: number): string {
  const whole = Math.round(minutes);
  return whole < 60
    ? `${whole}\u00a0min`
    : `${Math.floor(whole / 60)}\u00a0h\u00a0${String(whole % 60).padStart(2, '0')}`;
}

const money = (amount: number): string => amount.toFixed(2).replace(/\.00$/, '');

function Money(): JSX.Element {
  const cost = costOf(job.value, machine.value?.machine ?? null);
  return (
    <table class="cost">
      <caption>Money, in that of the garage; what was reckoned is the verdict’s guess</caption>
      <thead>
        <tr>
          <th scope="col">For</th>
          <th scope="col">Reckoned</th>
          <th scope="col">Paid</th>
        </tr>
      </thead>
      <tbody>
        {cost.lines.map(({ repair, reckoned, paid }) => (
          <tr key={repair}>
            <th scope="row">{REPAIRS[repair].title}</th>
            <td class="figure">{money(reckoned)}</td>
            <td class="figure">{paid === null ? '–' : money(paid)}</td>
          </tr>
        ))}
        <tr>
          <th scope="row">Besides</th>
          <td class="figure">–</td>
          <td class="figure">{money(cost.besides)}</td>
        </tr>
        <tr>
          <th scope="row">Together</th>
          <td class="figure">{money(cost.reckoned)}</td>
          <td class="figure">{money(cost.paid)}</td>
        </tr>
      </tbody>
    </table>
  );
}

function AddMoney(): JSX.Element {
  const { lines } = costOf(job.value, null);
  const [of, setOf] = useState('');
  const [words, setWords] = useState('');
  const [amount, setAmount] = useState('');
  const [why, setWhy] = useState<string | null>(null);
  const add = (): void => {
    const read = readFigure(amount.trim(), 0);
    const value = 'fault' in read || read.end < amount.trim().length ? null : toNumber(read.value);
    if (value === null || value < 0 || value > AMOUNT_LIMIT) {
      setWhy('The amount must be a figure from 0 up, in the money of your garage, as in 42.50.');
      return;
    }
    happened({
      type: 'costNoted',
      what: of === '' ? 'other' : 'part',
      of,
      words: words.trim().slice(0, 400),
      amount: value,
    });
    setWords('');
    setAmount('');
    setWhy(null);
  };
  return (
    <div class="stack tight">
      <Segments
        ask="What for"
        choices={[
          ...lines.map(({ repair }) => ({ value: repair as string, title: REPAIRS[repair].title })),
          { value: '', title: 'Something else' },
        ]}
        chosen={of}
        choose={setOf}
      />
      <label class="field">
        <span>What was bought (may be left empty)</span>
        <input
          value={words}
          maxLength={400}
          autocomplete="off"
          onInput={(event) => setWords(event.currentTarget.value)}
        />
      </label>
      <label class="field">
        <span>Amount</span>
        <input
          value={amount}
          inputMode="decimal"
          autocomplete="off"
          aria-invalid={why !== null}
          onInput={(event) => setAmount(event.currentTarget.value)}
        />
      </label>
      {why && (
        <p class="below off" role="alert">
          <b class="flag">▲</b> {why}
        </p>
      )}
      <Press class="main" act={add}>
        Note it
      </Press>
      {job.value.costs.length > 0 && (
        <ul class="learned">
          {job.value.costs.map(({ event, of: what, words: said, amount: paid }) => (
            <li key={event}>
              <b class="figure">{money(paid)}</b>{' '}
              {said || REPAIRS[what as keyof typeof REPAIRS]?.title || 'something else'}{' '}
              <Press
                label={`Take back: ${money(paid)} ${said}`}
                act={() => happenedUndoably({ type: 'entryStruck', event }, 'Taken back.')}
              >
                Take back
              </Press>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

function Learn(props: { readonly hours: Hours }): JSX.Element | null {
  const timed = props.hours.steps.flatMap(({ step, taken }) =>
    taken === null ? [] : [{ step, minutes: Number(taken.toPrecision(4)) }],
  );
  const { learned } = job.value;
  if (learned)
    return (
      <p class="row">
        <span>
          <b class="mark done">◆</b> Later plans for this bike go by the minutes of{' '}
          {countWords(learned.steps.length, 'step', 'steps')} of this job.
        </span>{' '}
        <Press act={() => happened({ type: 'entryStruck', event: learned.event })}>Take that back</Press>
      </p>
    );
  if (timed.length === 0) return null;
  return (
    <Press act={() => happened({ type: 'minutesLearned', steps: timed.slice(0, 400) })}>
      Let later plans for this bike learn from these minutes
    </Press>
  );
}

function Work(props: { readonly hours: Hours }): JSX.Element {
  const { steps, taken, plannedOfTaken, planned, untimed } = props.hours;
  return (
    <div class="stack tight">
      <p>
        {countWords(steps.length, 'hands-on step', 'hands-on steps')} done, planned at{' '}
        <b>{hoursWords(planned)}</b>.{' '}
        {steps.length > untimed && (
          <>
            The {countWords(steps.length - untimed, 'one', 'ones')} that were timed by their ticks took{' '}
            <b>{hoursWords(taken)}</b>, planned at {hoursWords(plannedOfTaken)}.{' '}
          </>
        )}
        {untimed > 0 &&
          `${countWords(untimed, 'step has', 'steps have')} no time of its own: a pause lay before it, or it was ticked with another.`}
      </p>
      <Learn hours={props.hours} />
      <Fold head="Step by step">
        {() => (
          <table class="cost">
            <caption>Minutes of each hands-on step, in the order in which they were done</caption>
            <thead>
              <tr>
                <th scope="col">Step</th>
                <th scope="col">Planned</th>
                <th scope="col">Took</th>
              </tr>
            </thead>
            <tbody>
              {steps.map(({ step, does, planned: { low, high }, taken: took }) => (
                <tr key={step}>
                  <th scope="row">{does}</th>
                  <td class="figure">
                    {Math.round(low)}–{Math.round(high)}
                  </td>
                  <td class="figure">{took === null ? '–' : Math.round(took)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        )}
      </Fold>
    </div>
  );
}

/** What the job cost, in money and hours, against what the plan said. */
export function HandoverCost(): JSX.Element {
  const known = machine.value?.machine ?? null;
  const { hours } = costOf(job.value, known);
  return (
    <section class="stack tight" aria-labelledby="cost">
      <h2 id="cost">What it cost</h2>
      {hours && hours.steps.length > 0 && <Work hours={hours} />}
      <Money />
      <Fold head="Note what was paid">{() => <AddMoney />}</Fold>
    </section>
  );
}
