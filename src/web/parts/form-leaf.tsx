import { useComputed } from '@preact/signals';
import type { JSX, TargetedInputEvent } from 'preact';
import { useId } from 'preact/hooks';
import type { Form } from '../../machine/form.ts';
import { getAt, isObject, type Json, type Path, pathText } from '../../machine/json-value.ts';
import type { Shape } from '../../machine/shape.ts';
import { draft, put } from '../state/machine-draft.ts';
import { idsOf, SOURCE_WORDS } from '../words/fields.ts';
import { Found } from './form-found.tsx';
import { Segments } from './segments.tsx';

/** What stands at a place of the file; a field is drawn anew only when that changes. */
export function useAt(path: Path): Json | undefined {
  return useComputed(() => getAt(draft.value?.value, path)).value;
}

/**
 * Something told of a place as text: who asks for this is drawn anew only when it says something else, and not at every key
 * that is typed somewhere inside the place.
 */
export function useToldOf(path: Path, tell: (is: Json | undefined) => string | null): string | null {
  return useComputed(() => tell(getAt(draft.value?.value, path))).value;
}

/** What stands at a place now, without being drawn anew when it changes. */
export function standsAt(path: Path): Json | undefined {
  return getAt(draft.peek()?.value, path);
}

/** Ids of the file's own entries that a member may name. */
function useIds(key: string | number | undefined): readonly string[] {
  const section = typeof key === 'string' ? idsOf(key) : null;
  const text = useComputed(() => {
    const entries = section === null ? undefined : getAt(draft.value?.value, section);
    return isObject(entries) ? Object.keys(entries).join('\n') : '';
  }).value;
  return text === '' ? [] : text.split('\n');
}

/** The text of a value in a field; a figure that was written without quotes keeps its digits. */
function textOf(value: Json | undefined): string {
  if (value === undefined || value === null) return '';
  return typeof value === 'object' ? JSON.stringify(value) : String(value);
}

/** What a text becomes in the file: a count without quotes, nothing where nothing is written. */
function enteredAs(form: Form, text: string): Json | undefined {
  if (text.trim() === '') return undefined;
  if ((form.kind === 'count' || form.kind === 'numbers') && /^\s*-?\d{1,9}(\.\d+)?\s*$/.test(text))
    return Number(text);
  return text;
}

/** What may be written, below the field. */
function hintOf(shape: Shape<unknown>, about: string, wanted: boolean): string {
  const measured = shape.form.kind === 'quantity' || shape.form.kind === 'gauge';
  const example = measured ? `such as ${shape.example.replace(/^"|"$/g, '')}` : '';
  const said = [about, example].filter((part) => part !== '').join(', ');
  if (wanted || said === '') return said;
  return `${said}; may be left out`;
}

/** Most choices that stand side by side, count; more are a list to choose from. */
const SIDE_BY_SIDE = 6;

/** One entry that is not made of others: a quantity, a text, a count, a choice. */
export function Leaf(props: {
  readonly shape: Shape<unknown>;
  readonly path: Path;
  readonly words: string;
  readonly about: string;
  readonly needed: boolean;
  /** Puts what was entered, where more than this place changes with it. */
  readonly enter?: (is: Json | undefined, typing: boolean) => void;
}): JSX.Element {
  const { shape, path, words, about } = props;
  const { form } = shape;
  const id = useId();
  const value = useAt(path);
  const key = path.findLast((one) => typeof one === 'string' && one !== 'is');
  const ids = useIds(key);
  const enter = props.enter ?? ((is, typing) => put([{ path, is }], typing));
  const place = pathText(path);
  const hint = hintOf(shape, about, props.needed);
  const choices = choicesOf(form);
  if (choices !== null && choices.length <= SIDE_BY_SIDE)
    return (
      <div data-place={place}>
        <Segments
          ask={words}
          choices={choices}
          chosen={value === undefined ? '' : String(value)}
          choose={(chosen) => enter(chosenValue(form, chosen), false)}
          {...(props.needed ? {} : { clear: () => enter(undefined, false) })}
        />
        <Found place={place} id={id} hint={hint} />
      </div>
    );
  const entry = {
    id,
    class: 'typed',
    value: textOf(value),
    maxLength: form.kind === 'text' ? form.longest : 400,
    autocomplete: 'off',
    autocapitalize: 'off' as const,
    spellcheck: false,
    'aria-describedby': `${id}-below`,
    onInput: (event: TargetedInputEvent<HTMLInputElement | HTMLTextAreaElement>) =>
      enter(enteredAs(form, event.currentTarget.value), true),
  };
  const long = form.kind === 'text' && form.longest > 160;
  return (
    <div data-place={place}>
      <label class="field" for={id}>
        <span>{words}</span>
        {choices !== null ? (
          <select
            id={id}
            class="typed"
            value={textOf(value)}
            onChange={(event) => enter(event.currentTarget.value || undefined, false)}
          >
            <option value="">–</option>
            {choices.map((one) => (
              <option key={one.value} value={one.value}>
                {one.title}
              </option>
            ))}
          </select>
        ) : long ? (
          <textarea rows={2} {...entry} />
        ) : (
          <input list={ids.length > 0 ? `${id}-ids` : undefined} {...entry} />
        )}
      </label>
      {ids.length > 0 && (
        <datalist id={`${id}-ids`}>
          {ids.map((one) => (
            <option key={one} value={one} />
          ))}
        </datalist>
      )}
      <Found place={place} id={`${id}-below`} hint={hint} />
    </div>
  );
}

function choicesOf(form: Form): readonly { readonly value: string; readonly title: string }[] | null {
  if (form.kind === 'choice')
    return form.words.map((value) => ({ value, title: value.replaceAll('-', ' ') }));
  if (form.kind === 'numbers') return form.numbers.map((one) => ({ value: String(one), title: String(one) }));
  if (form.kind === 'flag')
    return [
      { value: 'true', title: 'yes' },
      { value: 'false', title: 'no' },
    ];
  return null;
}

function chosenValue(form: Form, chosen: string): Json {
  if (form.kind === 'flag') return chosen === 'true';
  return form.kind === 'numbers' ? Number(chosen) : chosen;
}

/** Who says a figure: the sources of the file, to choose from. */
export function SourceLeaf(props: { readonly path: Path; readonly words: string }): JSX.Element {
  const id = useId();
  const value = useAt(props.path);
  const text = useComputed(() => {
    const sources = getAt(draft.value?.value, ['sources']);
    return JSON.stringify(
      isObject(sources)
        ? Object.entries(sources).map(([key, one]) => [key, isObject(one) ? [one.kind, one.title] : []])
        : [],
    );
  }).value;
  const sources = JSON.parse(text) as readonly (readonly [string, readonly [string?, string?]])[];
  const known = sources.some(([key]) => key === value);
  return (
    <div data-place={pathText(props.path)}>
      <label class="field" for={id}>
        <span>{props.words}</span>
        <select
          id={id}
          class="typed"
          value={textOf(value)}
          onChange={(event) => put([{ path: props.path, is: event.currentTarget.value || undefined }])}
        >
          {!known && <option value={textOf(value)}>{textOf(value) || '–'}</option>}
          {sources.map(([key, [kind, title]]) => (
            <option key={key} value={key}>
              {title ?? key} ({SOURCE_WORDS[kind ?? ''] ?? kind})
            </option>
          ))}
        </select>
      </label>
      <Found
        place={pathText(props.path)}
        id={`${id}-below`}
        hint="a new one is entered on the page Sources"
      />
    </div>
  );
}
