/** A figure of the charging circuit from little: an interval with what makes it wide, to be taken into the file or not. */
import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { sourceFor, takeOffer } from '../../draft/take-offer.ts';
import { readPath } from '../../machine/json-value.ts';
import {
  ESTIMATE_KINDS,
  type EstimateField,
  type EstimateKind,
  type Reckoned,
} from '../../start/estimate-kinds.ts';
import { draft, hasForms, put, unreadable } from '../state/machine-draft.ts';
import { Press } from './press-button.tsx';
import { Segments } from './segments.tsx';

type Texts = Readonly<Record<string, string>>;

export function MachineEstimate(): JSX.Element {
  const [id, choose] = useState(ESTIMATE_KINDS[0]!.id);
  const kind = ESTIMATE_KINDS.find((one) => one.id === id) ?? ESTIMATE_KINDS[0]!;
  return (
    <div class="stack form">
      <p>
        What is measured on a bike that does not charge tells how that bike is, not how it should be: it
        belongs among its readings. Into the file it goes only from a day on which it still charged well.
      </p>
      <p>
        <b class="flag">▲ Caution</b> Engine running with the stator unplugged: up to 90 V AC at the pins.
        Touch no pin, hold the tips by the plastic, stay outdoors.
      </p>
      <label class="field">
        <span>Which figure?</span>
        <select value={id} onChange={(event) => choose(event.currentTarget.value)}>
          {ESTIMATE_KINDS.map((one) => (
            <option key={one.id} value={one.id}>
              {one.words}
            </option>
          ))}
        </select>
      </label>
      <One key={kind.id} kind={kind} />
    </div>
  );
}

/** Whether everything that must be given is. */
function isGiven(kind: EstimateKind, texts: Texts): boolean {
  return kind.fields.every(({ id, otherwise }) => otherwise !== undefined || (texts[id] ?? '').trim() !== '');
}

function One({ kind }: { readonly kind: EstimateKind }): JSX.Element {
  const [texts, setTexts] = useState<Texts>({});
  const [taken, setTaken] = useState(false);
  const found = isGiven(kind, texts) ? kind.reckon(texts) : null;
  const wrong = found !== null && !found.ok ? found.problems : [];
  return (
    <>
      {kind.fields.map((field) => (
        <Asked
          key={field.id}
          field={field}
          text={texts[field.id] ?? ''}
          why={wrong.find((problem) => problem.field === field.id)?.why ?? null}
          enter={(text) => {
            setTexts({ ...texts, [field.id]: text });
            setTaken(false);
          }}
        />
      ))}
      {found?.ok && (
        <Answer
          kind={kind}
          found={found}
          taken={taken}
          take={() => {
            take(kind, found.text);
            setTaken(true);
          }}
        />
      )}
    </>
  );
}

/** Whether it rests on a rule of thumb alone and on no reading of the figure itself. */
const isRule = (goes: string | null): boolean => goes?.endsWith('.ratedAmps') === true;

/** Today, as the file dates a figure. */
const today = (): string => new Date().toLocaleDateString('sv');

/** Speeds at which figures of the file hold that an estimate gives, by the last word of their place. */
const SPEEDS: Readonly<Record<string, string>> = { openVolts: '1000 rpm', ratedAmps: '5000 rpm' };

function take({ goes }: EstimateKind, text: string): void {
  const value = draft.value?.value;
  const path = goes === null ? null : readPath(goes);
  if (value === undefined || path === null) return;
  const at = SPEEDS[String(path.at(-1))];
  const is = at === undefined ? { is: text } : { is: text, at };
  if (!isRule(goes)) {
    put(takeOffer(value, { path, is, puts: [], date: today() }));
    return;
  }
  // A rule of thumb stays a guess in the file, and comes from no meter.
  const source = sourceFor(value, 'guess', { kind: 'guess', title: 'Guess, worked out by a rule of thumb' });
  put([...source.puts, { path, is: { ...is, from: source.id, date: today() } }]);
}

function Answer(props: {
  readonly kind: EstimateKind;
  readonly found: Extract<Reckoned, { ok: true }>;
  readonly taken: boolean;
  readonly take: () => void;
}): JSX.Element {
  const { kind, found } = props;
  const { reasons, formula, source, holds, middle } = found.estimate;
  const share = (value: number): string =>
    `${value < middle ? '−' : '+'}${Math.abs(Number(((value / middle - 1) * 100).toPrecision(2)))} %`;
  return (
    <section class="stack" aria-live="polite" aria-label={kind.words}>
      <p class="big-answer figure">{found.text}</p>
      {reasons.length > 0 && (
        <div>
          <p class="ask">What makes it wide, each alone</p>
          <ul class="learned">
            {reasons.map(({ what, low, high }) => (
              <li key={what}>
                {what}: {share(low)} to {share(high)}
              </li>
            ))}
          </ul>
        </div>
      )}
      <p class="quiet">
        By {formula}: {source}. Holds while {holds}.
      </p>
      {kind.goes !== null && (
        <p class="row">
          <Press disabled={props.taken || !hasForms.value} act={props.take}>
            {props.taken
              ? 'It is in the file'
              : isRule(kind.goes)
                ? 'Take it into the file, as a guess'
                : 'Take it into the file, as measured'}
          </Press>
        </p>
      )}
      {kind.goes !== null && unreadable.value && (
        <p>The text of this file does not read, so nothing can be taken into it: mend it as text first.</p>
      )}
    </section>
  );
}

/** Choices as one would say them, where the word alone does not. */
const TITLES: Readonly<Record<string, string>> = {
  ear: 'by ear',
  tachometer: 'rev counter',
  clamp: 'clamp meter',
  said: 'added up from labels',
};

function Asked(props: {
  readonly field: EstimateField;
  readonly text: string;
  readonly why: string | null;
  readonly enter: (text: string) => void;
}): JSX.Element {
  const { field, text, why, enter } = props;
  const id = `estimate-${field.id}`;
  const words = field.words.charAt(0).toUpperCase() + field.words.slice(1);
  if (field.choices)
    return (
      <Segments
        ask={words}
        choices={field.choices.map((value) => ({ value, title: TITLES[value] ?? value }))}
        chosen={text || (field.otherwise ?? '')}
        choose={enter}
      />
    );
  return (
    <div>
      <label class="field" for={id}>
        <span>{words}</span>
        <input
          id={id}
          class={why ? 'typed off' : 'typed'}
          value={text}
          maxLength={80}
          autocomplete="off"
          spellcheck={false}
          placeholder={`such as ${field.example}`}
          aria-invalid={why !== null}
          aria-describedby={`${id}-below`}
          onInput={(event) => enter(event.currentTarget.value)}
        />
      </label>
      <p id={`${id}-below`} class={why ? 'below off' : 'below'}>
        {why !== null ? (
          <>
            <b class="flag">▲</b> {why}
          </>
        ) : field.otherwise === undefined ? (
          ''
        ) : (
          `left open: ${field.otherwise}`
        )}
      </p>
    </div>
  );
}
