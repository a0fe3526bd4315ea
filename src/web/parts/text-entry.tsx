import type { JSX, TargetedInputEvent } from 'preact';
import { useId } from 'preact/hooks';
import type { Field } from '../../sum/sum.ts';
import { Segments } from './segments.tsx';

/** One field of a sum or a record: a choice as segments, all else as text, with what is wrong or how to write it below. */
export function TextEntry(props: {
  readonly field: Field;
  readonly text: string;
  readonly why: string | null;
  readonly enter: (text: string) => void;
}): JSX.Element {
  const { field, text, why } = props;
  const id = useId();
  if (field.choices)
    return (
      <div>
        <Segments
          ask={field.words}
          choices={field.choices.map(({ id: value, words }) => ({ value, title: words }))}
          chosen={text}
          choose={props.enter}
        />
        {why && (
          <p class="below off">
            <b class="flag">▲</b> {why}
          </p>
        )}
      </div>
    );
  return (
    <div>
      <label class="field" for={id}>
        <span>{field.words}</span>
        <input
          id={id}
          class={why ? 'off' : undefined}
          value={text}
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          aria-invalid={why !== null}
          aria-describedby={`${id}-below`}
          onInput={(event: TargetedInputEvent<HTMLInputElement>) => props.enter(event.currentTarget.value)}
        />
      </label>
      <p id={`${id}-below`} class={why ? 'below off' : 'below'}>
        {why ? (
          <>
            <b class="flag">▲</b> {why}
          </>
        ) : (
          `such as ${field.example}${field.need === 'must' ? '' : '; may be left empty'}`
        )}
      </p>
    </div>
  );
}
