/** Will it stay charged: the owner's day by touch, the charge over day and month, and what would help. All an estimate. */
import type { JSX } from 'preact';
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { RIDE_LIMITS, type RideLife } from '../../circuit/ride-legs.ts';
import { chargingSpec } from '../../machine/charging-spec.ts';
import type { Machine, Part } from '../../machine/definition.ts';
import type { RideAsk, RideReply } from '../ride-worker.ts';
import { hideUndo, showUndo } from '../state/undo.ts';
import { pictureOf } from './picture.tsx';
import { Press } from './press-button.tsx';
import { RideLegs, RideLoads } from './ride-legs.tsx';
import { Stepper } from './stepper.tsx';

type Balance = Extract<RideReply, { is: 'balance' }>;
type Advice = Extract<RideReply, { is: 'advice' }>;

interface Shown {
  readonly balance: Balance | null;
  /** Of the same ask as the balance; null while it is still ridden. */
  readonly advice: Advice | null;
  readonly failure: string | null;
}

/** Changes told; the others help less. */
const MOST_ADVICE = 6;
const VERDICTS = {
  holds: { mark: '●', words: 'It stays charged', class: 'proven' },
  doubtful: { mark: '◐', words: 'It may not stay charged', class: 'doubt' },
  fails: { mark: '▲', words: 'It does not stay charged', class: 'fails' },
} as const;

/** Asks the worker for the newest life; what belongs to an older one is dropped. */
function useRidden(machine: Machine, fresh: readonly Part[], life: RideLife): Shown {
  const [shown, show] = useState<Shown>({ balance: null, advice: null, failure: null });
  const worker = useRef<Worker | null>(null);
  const asked = useRef(0);
  const key = fresh.join();
  const spec = useMemo(() => chargingSpec(machine, fresh), [machine, key]);
  useEffect(() => {
    const made = new Worker(new URL('../ride-worker.ts', import.meta.url), { type: 'module', name: 'ride' });
    made.addEventListener('message', ({ data }: MessageEvent<RideReply>) => {
      if (data.id !== asked.current) return;
      if (data.is === 'balance') show({ balance: data, advice: null, failure: null });
      else if (data.is === 'advice') show((now) => ({ ...now, advice: data }));
      else show({ balance: null, advice: null, failure: data.why });
    });
    made.addEventListener('error', () => {
      const failure =
        'This browser cannot reckon in the background; reload the page. What is entered is kept.';
      show({ balance: null, advice: null, failure });
    });
    worker.current = made;
    return () => made.terminate();
  }, []);
  useEffect(() => {
    const shape = matchMedia('(min-width: 62rem)').matches ? 'wide' : 'narrow';
    asked.current += 1;
    worker.current?.postMessage({ id: asked.current, spec, life, shape } satisfies RideAsk);
  }, [spec, life]);
  return shown;
}

export function RideBalance(props: {
  readonly machine: Machine;
  /** Parts taken as fitted new: their own sheets count. */
  readonly newParts?: readonly Part[];
  readonly value: RideLife;
  readonly onChange: (life: RideLife) => void;
}): JSX.Element {
  const { value: life, onChange } = props;
  const shown = useRidden(props.machine, props.newParts ?? [], life);
  const found = useRef<HTMLElement>(null);
  // Taking back brings the whole ride back as it was: not after something else was entered.
  const change = (now: RideLife): void => {
    hideUndo();
    onChange(now);
  };
  const takeOut = (now: RideLife, name: string): void => {
    onChange(now);
    showUndo(`“${name}” is out.`, () => onChange(life));
  };
  return (
    <div class="ride-halves">
      <div class="stack wide ride">
        <RideLegs life={life} change={change} takeOut={takeOut} />
        <RideLoads life={life} change={change} takeOut={takeOut} />
        <Around life={life} change={change} />
      </div>
      <section ref={found} class="stack ride ride-found" aria-label="What comes of it" tabIndex={-1}>
        {shown.failure !== null && (
          <p class="warn">
            <b class="flag">▲</b> {shown.failure}
          </p>
        )}
        {shown.balance === null && shown.failure === null && <p class="step">Riding the month…</p>}
        {shown.balance && <Found balance={shown.balance} advice={shown.advice} />}
      </section>
      {/* On a phone what comes of it lies screens below what is pressed: its name stays in sight. */}
      {shown.balance && (
        <Press
          class="ride-bar"
          act={() => {
            found.current?.focus({ preventScroll: true });
            // A touch gives the button the focus again, which would undo a scroll that focus alone had brought.
            found.current?.scrollIntoView();
          }}
        >
          <span aria-hidden="true">{VERDICTS[shown.balance.verdict].mark}</span>{' '}
          {VERDICTS[shown.balance.verdict].words}
        </Press>
      )}
    </div>
  );
}

function Around(props: { readonly life: RideLife; readonly change: (life: RideLife) => void }): JSX.Element {
  const { life, change } = props;
  const fahrenheit = Math.round(life.celsius * 1.8 + 32);
  return (
    <section class="stack" aria-label="How often and how cold">
      <h2>How often and how cold</h2>
      <Stepper
        ask="Air"
        unit="°C"
        value={life.celsius}
        step={5}
        limits={RIDE_LIMITS.celsius}
        set={(celsius) => change({ ...life, celsius })}
        also={`${String(fahrenheit).replace('-', '−')} °F`}
      />
      <Stepper
        ask="Ridden once in"
        unit={life.everyDays === 1 ? 'day' : 'days'}
        value={life.everyDays}
        step={1}
        limits={RIDE_LIMITS.everyDays}
        set={(everyDays) => change({ ...life, everyDays: Math.round(everyDays) })}
      />
      <Stepper
        ask="Looked at for"
        unit="days"
        value={life.days}
        step={10}
        limits={RIDE_LIMITS.days}
        set={(days) => change({ ...life, days: Math.round(days) })}
      />
      <Stepper
        ask="Battery full at first"
        unit="%"
        value={Math.round(100 * life.startCharge)}
        step={5}
        limits={[100 * RIDE_LIMITS.startCharge[0], 100]}
        set={(percent) => change({ ...life, startCharge: percent / 100 })}
      />
    </section>
  );
}

function Found(props: { readonly balance: Balance; readonly advice: Advice | null }): JSX.Element {
  const { balance, advice } = props;
  const verdict = VERDICTS[balance.verdict];
  const short = balance.legs.filter((leg, n, all) => {
    const first = all.findIndex(({ name }) => name === leg.name);
    return leg.needs > leg.gives && leg.gives > 0 && first === n;
  });
  return (
    <>
      <div role="status">
        <h2 class={`ride-verdict ${verdict.class}`}>
          <span aria-hidden="true">{verdict.mark}</span> {verdict.words}
        </h2>
      </div>
      {balance.reasons.map((reason) => (
        <p key={reason} class="step">
          {reason}
        </p>
      ))}
      <ul class="ride-levels">
        {balance.levels.map((line) => (
          <li key={line}>{line}</li>
        ))}
        {balance.even !== null && <li>{balance.even}</li>}
        {short.map(({ name, needs, gives }) => (
          <li key={name}>
            “{name}” lives on the battery: {needs.toFixed(1)} A on, {gives.toFixed(1)} A given.
          </li>
        ))}
      </ul>
      <figure class="ride-picture">
        <figcaption>Morning by morning</figcaption>
        {pictureOf(balance.month)}
      </figure>
      <figure class="ride-picture">
        <figcaption>The last day that is ridden</figcaption>
        {pictureOf(balance.day)}
      </figure>
      <Help verdict={balance.verdict} advice={advice} />
      <p>
        <b class="flag">▲</b> An estimate: the battery’s age, its acceptance in the cold and the exact loads
        are not known. A reading of the rest volts after a week of such riding is worth more.
      </p>
    </>
  );
}

function Help(props: { readonly verdict: Balance['verdict']; readonly advice: Advice | null }): JSX.Element {
  const { verdict, advice } = props;
  return (
    <section class="stack" aria-label="What would help">
      <h2>{verdict === 'holds' ? 'It would be fuller still' : 'What helps, the most first'}</h2>
      {advice === null && <p>Riding every change…</p>}
      {advice?.single.length === 0 && <p>Nothing that can be changed here does much.</p>}
      {advice && (
        <ol class="ride-advice">
          {advice.single.slice(0, MOST_ADVICE).map(({ does, brings }) => (
            <li key={does}>
              <strong>{does}</strong>: {brings}.
            </li>
          ))}
        </ol>
      )}
      {advice?.together && (
        <>
          <h3>{advice.together.holds ? 'Together it stays charged' : 'Together, still in doubt'}</h3>
          <ul class="ride-levels">
            {advice.together.does.map((does) => (
              <li key={does}>{does}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
