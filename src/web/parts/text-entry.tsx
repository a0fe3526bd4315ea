import type { JSX, TargetedInputEvent } from 'preact';
import { useId } from 'preact/hooks';
import type { Field } from '../../sum/sum.ts';
import { MOST_TEXT } from '../sum-texts.ts';
import { Segments } from './segments.tsx';

/** One field of a sum or a record: a choice as segments, all else as text, with what is wrong or how to write it below. */
export function TextEntry(props: {
  readonly field: Field;
  readonly text: string;
  readonly why: string | null;
  readonly enter: (text: string) => void;
  /** Whether it was left empty and worked out from the others. */
  readonly worked?: boolean;
  /** Longest text, characters: what is kept in the log may be shorter than what a sum bears. */
  readonly most?: number;
}): JSX.Element {
  const { field, text, why, most = MOST_TEXT } = props;
  const id = useId();
  if (field.choices)
    return (
      <div>
        <Segments
          ask={field.words}
          choices={field.choices.map(({ id: value, words }) => ({ value, title: words }))}
          chosen={text || field.initial}
          choose={props.enter}
        />
        {why && <Wrong why={why} />}
      </div>
    );
  const below = `${id}-below`;
  const entry = {
    id,
    class: why ? 'typed off' : 'typed',
    value: text,
    maxLength: most,
    autocomplete: 'off',
    autocapitalize: 'off' as const,
    spellcheck: false,
    'aria-invalid': why !== null,
    'aria-describedby': below,
    onInput: (event: TargetedInputEvent<HTMLInputElement | HTMLTextAreaElement>) =>
      props.enter(event.currentTarget.value.slice(0, most)),
  };
  return (
    <div>
      <label class="field" for={id}>
        <span>{field.words}</span>
        {field.kind === 'list' ? <textarea rows={rowsOf(text)} {...entry} /> : <input {...entry} />}
      </label>
      {/* Always there, so that nothing moves under the finger while one types. */}
      {why ? (
        <Wrong id={below} why={why} />
      ) : (
        <p id={below} class="below">
          {props.worked ? 'left empty: worked out' : hintOf(field)}
        </p>
      )}
    </div>
  );
}

function Wrong(props: { readonly id?: string; readonly why: string }): JSX.Element {
  return (
    <p id={props.id} class="below off">
      <b class="flag">▲</b> {props.why}
    </p>
  );
}

/** Lines a list takes: two at least, so that it is seen to take several; the browser wraps and scrolls beyond. */
function rowsOf(text: string): number {
  return Math.max(2, Math.min(8, text.split('\n').length));
}

function hintOf({ need, example }: Field): string {
  if (need === 'solve') return `such as ${example}; left empty, it is worked out`;
  return need === 'may' ? `such as ${example}; may be left empty` : `such as ${example}`;
}
