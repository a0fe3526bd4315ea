import type { JSX } from 'preact';
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { Value } from '../../reading/key.ts';
import { showValue } from '../../reading/say-value.ts';
import { typeKey } from '../entry.ts';
import type { Chosen } from '../keys.ts';
import { draft, enter, type Trouble, tryEntry, type } from '../state/taking.ts';
import { askSound, shownBands, soundShows } from '../state/verdict.ts';
import { BandFigure } from './band-figure.tsx';
import { Fig } from './fig.tsx';
import { Keypad } from './keypad.tsx';
import { Later } from './later.tsx';
import { Press } from './press-button.tsx';

function TroubleLine(props: {
  readonly trouble: Trouble;
  readonly use: (text: string) => void;
  readonly insist: () => void;
}): JSX.Element {
  const { why, instead, mayInsist } = props.trouble;
  const line = useRef<HTMLDivElement>(null);
  useEffect(() => line.current?.scrollIntoView({ block: 'nearest' }), [why]);
  return (
    <div class="trouble" role="alert" ref={line}>
      <p>
        {/* A figure stays with its unit. */}
        <b class="flag">▲ Look again</b> {why.replace(/(\d) (?=(?:V|mV|A|mA|Ω|min)\b)/g, '$1\u00a0')}
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
  // With the field, not a frame after it: the first key typed must not be lost (13.4 would become 3.4).
  useLayoutEffect(() => {
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
          placeholder="what the meter shows"
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
      <BandFigure chosen={chosen} shows={soundShows(chosen.key)} typed={draft.value} />
      <Later>
        {() => (
          <Keypad
            type={(key) => set(typeKey(draft.peek(), key))}
            openWord={openWord}
            open={() => put(null, openWord)}
            take={() => take(false)}
            takeWord="Enter"
          />
        )}
      </Later>
      {/* Below the keys, beside the finger that pressed Enter, so that no key moves under it. */}
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
    </>
  );
}

/** The field, the band of a sound bike, the keys. */
export function EntryPad(props: { readonly chosen: Chosen }): JSX.Element {
  const { chosen } = props;
  // Another bike, or a bike opened anew, clears the bands: ask again.
  void shownBands.value;
  useEffect(() => askSound(chosen.key), [chosen.key, shownBands.value]);
  return (
    <section id="pad" class="pad stack" aria-label={`Entry in ${showUnit(chosen)}`}>
      {chosen.kind.unit === 'seen' ? <Seen chosen={chosen} /> : <Figures chosen={chosen} />}
    </section>
  );
}

function showUnit(chosen: Chosen): string {
  return chosen.kind.unit === 'seen' ? showValue(true, 'seen') : chosen.kind.unit;
}
