import type { JSX, TargetedKeyboardEvent } from 'preact';
import { useId } from 'preact/hooks';
import { Press } from './press-button.tsx';

export interface Choice {
  readonly value: string;
  readonly title: string;
}

/** One choice of a few as big segments: a radio group, so arrows move the choice and Tab passes it in one step. */
export function Segments(props: {
  readonly ask: string;
  readonly choices: readonly Choice[];
  readonly chosen: string;
  readonly choose: (value: string) => void;
  readonly quietAsk?: boolean;
  /** Takes the choice back where none need be made: touching what is chosen does it. */
  readonly clear?: () => void;
}): JSX.Element {
  const id = useId();
  const at = Math.max(
    0,
    props.choices.findIndex((choice) => choice.value === props.chosen),
  );
  const step = (event: TargetedKeyboardEvent<HTMLButtonElement>): void => {
    const forward = event.key === 'ArrowRight' || event.key === 'ArrowDown';
    if (!forward && event.key !== 'ArrowLeft' && event.key !== 'ArrowUp') return;
    const by = forward ? 1 : -1;
    event.preventDefault();
    const next = (at + by + props.choices.length) % props.choices.length;
    const choice = props.choices[next];
    if (!choice) return;
    props.choose(choice.value);
    const buttons = event.currentTarget.parentElement?.querySelectorAll('button');
    buttons?.[next]?.focus();
  };
  return (
    <div role="radiogroup" aria-labelledby={id}>
      <p id={id} class={props.quietAsk ? 'unseen' : 'ask'}>
        {props.ask}
      </p>
      <div class="segments">
        {props.choices.map((choice, index) => (
          <Press
            key={choice.value}
            checked={choice.value === props.chosen}
            tabIndex={index === at ? 0 : -1}
            onKeyDown={step}
            act={() =>
              props.clear && choice.value === props.chosen ? props.clear() : props.choose(choice.value)
            }
          >
            {choice.title}
          </Press>
        ))}
      </div>
    </div>
  );
}
