import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { Press } from './press-button.tsx';

/** A line to write and a button that adds it; what cannot be read stays with a sentence. */
export function TypeMore(props: {
  readonly ask: string;
  readonly example: string;
  /** Adds it and gives null, or says why it cannot be read. */
  readonly add: (text: string) => string | null;
}): JSX.Element {
  const [text, type] = useState('');
  const [why, blame] = useState<string | null>(null);
  const add = (): void => {
    // An empty line adds nothing: a stray touch would put something into the ride that nobody meant.
    const refused = text.trim() === '' ? `Write it first, as in “${props.example}”.` : props.add(text);
    blame(refused);
    if (refused === null) type('');
  };
  return (
    <form
      class="type-more"
      onSubmit={(event) => {
        event.preventDefault();
        add();
      }}
    >
      <label class="field">
        <span>{props.ask}</span>
        <input
          value={text}
          maxLength={160}
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          aria-invalid={why !== null}
          onInput={(event) => {
            type(event.currentTarget.value);
            blame(null);
          }}
        />
      </label>
      <Press act={add}>Add</Press>
      <p class="below" role="status">
        {why === null ? (
          `such as ${props.example}`
        ) : (
          <>
            <b class="flag">▲</b> {why}
          </>
        )}
      </p>
    </form>
  );
}
