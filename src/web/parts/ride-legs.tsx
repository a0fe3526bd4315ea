/** The day as legs and the loads that run in them, edited by touch. */
import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { readLegs, readLoad } from '../../circuit/read-ride.ts';
import {
  type Leg,
  LIGHTS,
  type Lights,
  type Load,
  minutesWords,
  RIDE_LIMITS,
  type RideLife,
} from '../../circuit/ride-legs.ts';
import { freeName, minutesLeft, withLeg, withLoad, withMore, withoutLeg } from '../ride-edit.ts';
import { Fold } from './fold.tsx';
import { Press } from './press-button.tsx';
import { Segments } from './segments.tsx';
import { Stepper } from './stepper.tsx';
import { TypeMore } from './type-more.tsx';

const LIGHT_WORDS: Readonly<Record<Lights, string>> = {
  off: 'lights off',
  park: 'parking lights',
  low: 'low beam',
  high: 'high beam',
};
const LIGHT_CHOICES = LIGHTS.map((value) => ({ value, title: LIGHT_WORDS[value].replace(/^lights /, '') }));
/** Speed of an engine that is started again, rpm. */
const STARTED = 1800;

interface Edit {
  readonly life: RideLife;
  readonly change: (life: RideLife) => void;
  /** The same, without a leg or load of that name: it can be brought back for a while. */
  readonly takeOut: (life: RideLife, name: string) => void;
}

export function RideLegs({ life, change, takeOut }: Edit): JSX.Element {
  // What is taken out closes all: else the next one would slide open under the finger.
  const [round, turn] = useState(0);
  return (
    <section class="stack" aria-label="The day">
      <h2>The day, leg by leg</h2>
      <ol class="ride-list">
        {life.legs.map((leg, n) => (
          // A leg is its place in the day: names come twice.
          <li key={`${round} ${n}`}>
            <Fold head={<LegHead leg={leg} />}>
              {() => <EditLeg {...{ life, change, takeOut }} at={n} out={() => turn(round + 1)} />}
            </Fold>
          </li>
        ))}
      </ol>
      {life.legs.length < RIDE_LIMITS.legs[1] && minutesLeft(life, null) >= RIDE_LIMITS.minutes[0] ? (
        <TypeMore
          ask="One leg more"
          example="ferry queue engine off 30 min parking lights"
          add={(text) => {
            const read = readLegs(text);
            if (!read.ok) return read.whys[0]!.replace(/^Leg 1, ("[^"]*"|'[^']*'): /, '');
            change(read.legs.reduce(withMore, life));
            return null;
          }}
        />
      ) : (
        <p>The day is full: make a leg shorter before you add one.</p>
      )}
    </section>
  );
}

function LegHead({ leg }: { readonly leg: Leg }): JSX.Element {
  return (
    <span>
      {leg.name}
      <span class="under">
        {leg.rpm === 0 ? 'engine off' : `${leg.rpm} rpm`} · {minutesWords(leg.minutes)} ·{' '}
        {LIGHT_WORDS[leg.lights]}
      </span>
    </span>
  );
}

interface EditOne extends Edit {
  readonly at: number;
  /** Told when it was taken out. */
  readonly out: () => void;
}

function EditLeg({ life, change, takeOut, at, out }: EditOne): JSX.Element {
  const leg = life.legs[at]!;
  const set = (what: Partial<Leg>) => change(withLeg(life, at, what));
  return (
    <div class="stack">
      <Name value={leg.name} set={(name) => set({ name })} refuse={() => null} />
      <Segments
        ask="Engine"
        choices={[
          { value: 'on', title: 'running' },
          { value: 'off', title: 'off' },
        ]}
        chosen={leg.rpm > 0 ? 'on' : 'off'}
        choose={(value) =>
          set(
            value === 'off'
              ? { rpm: 0, lights: 'off' }
              : { rpm: leg.rpm || STARTED, lights: leg.lights === 'off' ? 'low' : leg.lights },
          )
        }
      />
      {leg.rpm > 0 && (
        <Stepper
          ask="Engine speed"
          unit="rpm"
          value={leg.rpm}
          step={100}
          limits={RIDE_LIMITS.rpm}
          set={(rpm) => set({ rpm })}
        />
      )}
      <Stepper
        ask="Time"
        unit="min"
        value={leg.minutes}
        step={5}
        limits={[RIDE_LIMITS.minutes[0], minutesLeft(life, at)]}
        set={(minutes) => set({ minutes })}
      />
      <Segments
        ask="Lights"
        choices={LIGHT_CHOICES}
        chosen={leg.lights}
        choose={(value) => set({ lights: LIGHTS.find((one) => one === value) ?? leg.lights })}
      />
      {life.legs.length > 1 && (
        <div class="row">
          <Press
            act={() => {
              out();
              takeOut(withoutLeg(life, at), leg.name);
            }}
          >
            Take “{leg.name}” out
          </Press>
        </div>
      )}
    </div>
  );
}

/** A name: an empty one, or one that is taken, is not taken over. */
function Name(props: {
  readonly value: string;
  readonly set: (name: string) => void;
  readonly refuse: (name: string) => string | null;
}): JSX.Element {
  const [typed, type] = useState<string | null>(null);
  const name = (typed ?? props.value).trim();
  const why = name === '' ? `It needs a name; “${props.value}” still counts.` : props.refuse(name);
  return (
    <label class="field">
      <span>Name</span>
      <input
        value={typed ?? props.value}
        maxLength={RIDE_LIMITS.name}
        autocomplete="off"
        aria-invalid={why !== null}
        onInput={(event) => {
          const text = event.currentTarget.value;
          type(text);
          const next = text.trim();
          if (next !== '' && props.refuse(next) === null) props.set(next);
        }}
        onBlur={() => why === null && type(null)}
      />
      {why !== null && (
        <p class="below">
          <b class="flag">▲</b> {why}
        </p>
      )}
    </label>
  );
}

export function RideLoads({ life, change, takeOut }: Edit): JSX.Element {
  const [round, turn] = useState(0);
  return (
    <section class="stack" aria-label="What draws current">
      <h2>What draws current besides</h2>
      <p>Ignition and lamps are counted with the legs.</p>
      <ul class="ride-list">
        {life.loads.map((load, n) => (
          <li key={`${round} ${n}`}>
            <Fold head={<LoadHead load={load} />}>
              {() => <EditLoad {...{ life, change, takeOut }} at={n} out={() => turn(round + 1)} />}
            </Fold>
          </li>
        ))}
      </ul>
      {life.loads.length < RIDE_LIMITS.loads[1] && (
        <TypeMore
          ask="One load more"
          example="heated jacket 65 W"
          add={(text) => {
            const read = readLoad(text, life.legs);
            if (!read.ok) return read.why.replace(/^Load ("[^"]*"|'[^']*'): /, '');
            const load = { ...read.load, name: freeName(life, read.load.name) };
            change({ ...life, loads: [...life.loads, load] });
            return null;
          }}
        />
      )}
    </section>
  );
}

function LoadHead({ load }: { readonly load: Load }): JSX.Element {
  const runs =
    load.when === 'riding'
      ? 'while riding'
      : load.when === 'always'
        ? 'day and night'
        : `in ${load.when.join(', ')}`;
  return (
    <span>
      {load.name}
      <span class="under">
        {load.watts} W · {runs}
      </span>
    </span>
  );
}

function EditLoad({ life, change, takeOut, at, out }: EditOne): JSX.Element {
  const load = life.loads[at]!;
  const names = [...new Set(life.legs.map((leg) => leg.name))];
  const chosen = typeof load.when === 'string' ? load.when : 'legs';
  const set = (what: Partial<Load>) => change(withLoad(life, at, what));
  return (
    <div class="stack">
      <Name
        value={load.name}
        set={(name) => set({ name })}
        refuse={(name) =>
          life.loads.some((other, n) => n !== at && other.name === name)
            ? `Another load is called “${name}”; “${load.name}” still counts.`
            : null
        }
      />
      <Stepper
        ask="It draws"
        unit="W"
        value={load.watts}
        step={load.watts < 5 ? 0.5 : 5}
        limits={RIDE_LIMITS.watts}
        set={(watts) => set({ watts: Number(watts.toFixed(3)) })}
        also={`${(load.watts / 13.5).toFixed(load.watts < 5 ? 3 : 1)} A`}
      />
      <Segments
        ask="It runs"
        choices={[
          { value: 'riding', title: 'riding' },
          { value: 'legs', title: 'in some legs' },
          { value: 'always', title: 'always' },
        ]}
        chosen={chosen}
        choose={(value) =>
          set({ when: value === 'legs' ? names.slice(0, 1) : value === 'always' ? 'always' : 'riding' })
        }
      />
      {typeof load.when !== 'string' && (
        <div class="toggles">
          {names.map((name) => {
            const on = load.when.includes(name);
            const rest = names.filter((one) => (one === name ? !on : load.when.includes(one)));
            return (
              // The last leg cannot be taken away: a load that never runs is taken out instead.
              <Press key={name} pressed={on} disabled={rest.length === 0} act={() => set({ when: rest })}>
                {name}
              </Press>
            );
          })}
        </div>
      )}
      <div class="row">
        <Press
          act={() => {
            out();
            takeOut({ ...life, loads: life.loads.filter((_, n) => n !== at) }, load.name);
          }}
        >
          Take “{load.name}” out
        </Press>
      </div>
    </div>
  );
}
