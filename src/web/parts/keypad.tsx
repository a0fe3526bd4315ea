import type { JSX } from 'preact';
import type { EntryKey } from '../entry.ts';
import { FIGURE_BOUNCE_MS } from '../press.ts';
import { Press } from './press-button.tsx';

const KEYS: readonly {
  readonly key: EntryKey;
  readonly face: string;
  readonly say: string;
  readonly at: string;
}[] = [
  ...(['7', '8', '9', '4', '5', '6', '1', '2', '3', '0'] as const).map((digit) => ({
    key: digit,
    face: digit,
    say: digit,
    at: `k${digit}`,
  })),
  { key: 'point', face: '.', say: 'point', at: 'kpoint' },
  { key: 'sign', face: '±', say: 'change the sign', at: 'ksign' },
  { key: 'rub', face: '', say: 'rub out the last figure', at: 'krub' },
];

/** Drawn, because few faces have the sign. */
function RubSign(): JSX.Element {
  return (
    <svg class="rub" viewBox="0 0 40 28" aria-hidden="true">
      <path d="M13 3H37V25H13L3 14ZM20 9L30 19M30 9L20 19" />
    </svg>
  );
}

/**
 * The big keys. They type into the field and never take the focus away from a keyboard's user. Without `open` they
 * are for plain numbers: no sign, no reading that shows nothing.
 */
export function Keypad(props: {
  readonly type: (key: EntryKey) => void;
  readonly openWord?: string;
  readonly open?: () => void;
  readonly take: () => void;
  readonly takeWord: string;
}): JSX.Element {
  const { open, openWord = '' } = props;
  const keys = open ? KEYS : KEYS.filter(({ key }) => key !== 'sign');
  return (
    <fieldset class={open ? 'keypad' : 'keypad plain'} aria-label="Entry keys">
      {keys.map(({ key, face, say, at }) => (
        <Press
          key={key}
          class={`key figure ${at}`}
          label={say}
          bounceMs={FIGURE_BOUNCE_MS}
          act={() => props.type(key)}
        >
          {key === 'rub' ? <RubSign /> : face}
        </Press>
      ))}
      {open && (
        <Press class={openWord.length > 3 ? 'key kopen' : 'key kopen short'} act={open}>
          {openWord}
        </Press>
      )}
      <Press class="key main ktake" act={props.take}>
        {props.takeWord}
      </Press>
    </fieldset>
  );
}
