import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Value } from '../../reading/key.ts';
import { typeKey } from '../entry.ts';
import { type Chosen, valuesOf, withState } from '../keys.ts';
import { capital, showValue } from '../show.ts';
import { machine, offer } from '../state/machine.ts';
import { draft, enter, type Trouble, takeReading, tryEntry, type } from '../state/taking.ts';
import { askSound, bands, soundShows } from '../state/verdict.ts';
import { answerOf, askOf } from '../words/states.ts';
import { BandFigure } from './band-figure.tsx';
import { Fig } from './fig.tsx';
import { Keypad } from './keypad.tsx';
import { Press } from './press-button.tsx';
import { Segments } from './segments.tsx';

/** A state with more answers than this is a list to choose from, not segments. */
const SEGMENTS_AT_MOST = 6;

/** State words that are seldom other than usual: they fold away into a line of words. */
const SELDOM: ReadonlySet<string> = new Set(['temp', 'charged', 'acc', 'wiggle']);
/** Answers in the order of their size, not of the catalogue. */
const ORDER: Readonly<Record<string, readonly string[]>> = { lights: ['off', 'low', 'high'] };

function answersOf(chosen: Chosen, name: string, phases: 1 | 3): readonly string[] {
  const values = valuesOf(chosen.kind, name, phases);
  const said = chosen.state[name] ?? '';
  const shown = values.includes(said) ? values : [said, ...values];
  const order = ORDER[name];
  const rank = (value: string): number =>
    name === 'rpm' ? (value === 'idle' ? 0 : Number(value)) : (order?.indexOf(value) ?? shown.indexOf(value));
  return [...shown].sort((a, b) => rank(a) - rank(b));
}

function States(props: { readonly chosen: Chosen }): JSX.Element | null {
  const { chosen } = props;
  const [unfolded, unfold] = useState(false);
  const known = machine.value;
  const offered = offer.value;
  if (!known || !offered) return null;
  const asked = Object.keys(chosen.kind.states)
    .map((name) => ({ name, answers: answersOf(chosen, name, known.spec.alternator.phases) }))
    .filter(({ answers }) => answers.length > 1 && answers.length <= SEGMENTS_AT_MOST);
  const segments = ({ name, answers }: (typeof asked)[number]): JSX.Element => (
    <Segments
      key={name}
      ask={askOf(name)}
      choices={answers.map((value) => ({ value, title: answerOf(name, value) }))}
      chosen={chosen.state[name] ?? ''}
      choose={(value) => takeReading(withState(chosen, name, value, offered))}
    />
  );
  const seldom = asked.filter(({ name }) => SELDOM.has(name));
  return (
    <>
      {asked.filter(({ name }) => !SELDOM.has(name)).map(segments)}
      {seldom.length > 0 && (
        <Press class="fold" expanded={unfolded} act={() => unfold(!unfolded)}>
          <span aria-hidden="true">{unfolded ? '▾' : '▸'}</span>
          <span>
            {capital(
              seldom
                .map(({ name }) => `${askOf(name)} ${answerOf(name, chosen.state[name] ?? '')}`.toLowerCase())
                .join(', '),
            )}
          </span>
        </Press>
      )}
      {unfolded && seldom.map(segments)}
    </>
  );
}

function TroubleLine(props: {
  readonly trouble: Trouble;
  readonly use: (text: string) => void;
  readonly insist: () => void;
}): JSX.Element {
  const { why, instead, mayInsist } = props.trouble;
  return (
    <div class="trouble" role="alert">
      <p>
        <b class="flag">▲ Look again</b> {why}
      </p>
      <div class="row">
        {instead.map((text) => (
          <Press key={text} act={() => props.use(text)}>
            Use <Fig text={text} />
          </Press>
        ))}
        {mayInsist && <Press act={props.insist}>It really shows that: enter it</Press>}
      </div>
    </div>
  );
}

function Seen(props: { readonly chosen: Chosen }): JSX.Element {
  const put = (value: boolean): void => enter(props.chosen, value, value ? 'yes' : 'no');
  return (
    <div class="seen">
      <Press class="key" act={() => put(true)}>
        Yes, seen
      </Press>
      <Press class="key" act={() => put(false)}>
        No
      </Press>
    </div>
  );
}

/** Keys that go to the field wherever the focus is, so that a keyboard works at once. */
function isTyping(event: KeyboardEvent): boolean {
  if (event.ctrlKey || event.metaKey || event.altKey) return false;
  return /^[\d.,\-−]$/.test(event.key) || event.key === 'Backspace';
}

function Figures(props: { readonly chosen: Chosen }): JSX.Element {
  const { chosen } = props;
  const { unit } = chosen.kind;
  const field = useRef<HTMLInputElement>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  useEffect(() => setTrouble(null), [chosen.key]);
  const set = (text: string): void => {
    type(text);
    setTrouble(null);
  };
  const put = (value: Value, text: string): void => {
    setTrouble(null);
    enter(chosen, value, text);
  };
  const take = (insist: boolean): void => {
    const tried = tryEntry(chosen, draft.peek(), insist);
    if (tried.ok) put(tried.value, draft.peek());
    else setTrouble(tried.trouble);
  };
  const takeRef = useRef(take);
  takeRef.current = take;
  useEffect(() => {
    const listen = (event: KeyboardEvent): void => {
      const target = event.target;
      if (target === field.current) return;
      if (target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement) return;
      if (event.key === 'Enter' && target === document.body && draft.peek() !== '') takeRef.current(false);
      if (!isTyping(event)) return;
      field.current?.focus({ preventScroll: true });
    };
    addEventListener('keydown', listen);
    return () => removeEventListener('keydown', listen);
  }, []);
  const openWord = unit === 'Ω' || chosen.kind.id === 'diode' ? 'OL' : 'No reading';
  return (
    <>
      <label class="entry">
        <span class="unseen">What the meter shows, in {unit === 'SG' ? 'specific gravity' : unit}</span>
        <input
          ref={field}
          class="figure"
          inputMode="none"
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          enterkeyhint="done"
          value={draft.value}
          aria-invalid={trouble !== null}
          onInput={(event) => set(event.currentTarget.value)}
          onKeyDown={(event) => {
            if (event.key === 'Enter') {
              event.preventDefault();
              take(false);
            } else if (event.key === 'Escape') set('');
          }}
        />
        <span class="unit figure" aria-hidden="true">
          {unit === 'SG' ? '' : unit}
        </span>
      </label>
      {trouble && (
        <TroubleLine
          trouble={trouble}
          use={(text) => {
            set(text);
            field.current?.focus({ preventScroll: true });
          }}
          insist={() => take(true)}
        />
      )}
      <BandFigure chosen={chosen} shows={soundShows(chosen.key)} typed={draft.value} />
      <Keypad
        type={(key) => set(typeKey(draft.peek(), key))}
        openWord={openWord}
        open={() => put(null, openWord)}
        take={() => take(false)}
        takeWord="Enter"
      />
    </>
  );
}

/** State of the engine, the field, the band of a sound bike, the keys. */
export function EntryPad(props: { readonly chosen: Chosen }): JSX.Element {
  const { chosen } = props;
  // Another bike, or a bike opened anew, clears the bands: ask again.
  void bands.value;
  useEffect(() => askSound(chosen.key), [chosen.key, bands.value]);
  return (
    <section id="pad" class="pad stack" aria-label={`Entry in ${showUnit(chosen)}`}>
      <States chosen={chosen} />
      {chosen.kind.unit === 'seen' ? <Seen chosen={chosen} /> : <Figures chosen={chosen} />}
    </section>
  );
}

function showUnit(chosen: Chosen): string {
  return chosen.kind.unit === 'seen' ? showValue(true, 'seen') : chosen.kind.unit;
}
