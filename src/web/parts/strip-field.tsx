import type { JSX } from 'preact';
import { useEffect, useId, useState } from 'preact/hooks';
import { Press } from './press-button.tsx';

/**
 * One field of the strip-down's editor. A key changes nothing but the field: the file gets what was written when one leaves
 * the field or presses Enter, and what was refused stays there to be put right.
 */
export function StripField(props: {
  readonly ask: string;
  readonly value: string;
  readonly enter: (text: string) => void;
  readonly figure?: boolean;
  readonly most?: number;
}): JSX.Element {
  const id = useId();
  const [typed, type] = useState<string | null>(null);
  // What the file says now, also after taking back, stands in the field again.
  useEffect(() => type(null), [props.value]);
  const enter = (): void => {
    if (typed !== null && typed.trim() !== props.value) props.enter(typed.trim());
  };
  return (
    <label class="field" for={id}>
      <span>{props.ask}</span>
      <input
        id={id}
        value={typed ?? props.value}
        maxLength={props.most ?? 80}
        inputMode={props.figure ? 'decimal' : 'text'}
        autocomplete="off"
        onInput={(event) => type(event.currentTarget.value)}
        onBlur={enter}
        onKeyDown={(event) => {
          if (event.key !== 'Enter') return;
          event.preventDefault();
          enter();
        }}
      />
    </label>
  );
}

/** A field with a button beside it that adds what was written; it is empty again once that was taken. */
export function StripAdd(props: {
  readonly ask: string;
  readonly words: string;
  readonly most?: number;
  /** Whether it was taken. */
  readonly add: (text: string) => boolean;
}): JSX.Element {
  const id = useId();
  const [text, type] = useState('');
  const add = (): void => {
    if (props.add(text)) type('');
  };
  return (
    <div class="strip-add">
      <label class="field" for={id}>
        <span>{props.ask}</span>
        <input
          id={id}
          value={text}
          maxLength={props.most ?? 80}
          autocomplete="off"
          onInput={(event) => type(event.currentTarget.value)}
          onKeyDown={(event) => {
            if (event.key !== 'Enter') return;
            event.preventDefault();
            add();
          }}
        />
      </label>
      <Press act={add}>{props.words}</Press>
    </div>
  );
}
