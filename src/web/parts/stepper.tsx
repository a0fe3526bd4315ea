import type { JSX } from 'preact';
import { useId, useState } from 'preact/hooks';
import { Press } from './press-button.tsx';

/** Two touches sooner than this are one: a stepper is pressed quickly on purpose, ms. */
const BOUNCE_MS = 60;

/**
 * A figure between two big buttons. It can be typed too: what cannot be read stays in the field with a sentence below, and
 * the figure stays as it was.
 */
export function Stepper(props: {
  readonly ask: string;
  readonly value: number;
  readonly unit: string;
  readonly step: number;
  readonly limits: readonly [number, number];
  readonly set: (value: number) => void;
  /** The same figure in another unit, said below. */
  readonly also?: string;
}): JSX.Element {
  const { ask, value, unit, step, set } = props;
  const [least, most] = props.limits;
  const id = useId();
  const [typed, type] = useState<string | null>(null);
  const read = typed === null ? value : readFigure(typed);
  const bad = read === null || read < least || read > most;
  const to = (next: number): void => {
    type(null);
    set(Math.min(most, Math.max(least, next)));
  };
  // To the next whole step, so that 1830 goes to 1900 and not to 1930.
  const up = (Math.floor(value / step + 1e-9) + 1) * step;
  const down = (Math.ceil(value / step - 1e-9) - 1) * step;
  return (
    <div class="stepper">
      <label for={id}>
        {ask}, {unit}
      </label>
      <div class="stepper-row">
        <Press label={`${ask}: less`} bounceMs={BOUNCE_MS} disabled={value <= least} act={() => to(down)}>
          −
        </Press>
        <input
          id={id}
          class={bad ? 'off' : undefined}
          value={typed ?? String(value).replace('-', '−')}
          inputMode={least < 0 ? 'text' : 'decimal'}
          autocomplete="off"
          aria-invalid={bad}
          aria-describedby={`${id}-below`}
          onInput={(event) => {
            const text = event.currentTarget.value.slice(0, 12);
            const next = readFigure(text);
            type(text);
            if (next !== null && next >= least && next <= most) set(next);
          }}
          onBlur={() => !bad && type(null)}
        />
        <Press label={`${ask}: more`} bounceMs={BOUNCE_MS} disabled={value >= most} act={() => to(up)}>
          +
        </Press>
      </div>
      <p id={`${id}-below`} class="below">
        {bad ? (
          <>
            <b class="flag">▲</b> Write a figure from {String(least).replace('-', '−')} to {most}; {value}{' '}
            {unit} still counts.
          </>
        ) : (
          (props.also ?? '')
        )}
      </p>
    </div>
  );
}

/** A plain figure; null for anything else. A comma as the point is meant as one. */
function readFigure(text: string): number | null {
  const plain = text.trim().replace('−', '-').replace(',', '.');
  return /^-?\d+(\.\d+)?$/.test(plain) ? Number(plain) : null;
}
