import type { JSX } from 'preact';

/** A figure in the fixed-pitch face, the point drawn in: a full cell of air after it reads like two figures. */
export function Fig(props: { readonly text: string; readonly class?: string }): JSX.Element {
  const [first = '', ...rest] = props.text.split('.');
  return (
    <span class={`figure ${props.class ?? ''}`}>
      {first}
      {rest.map((part, index) => (
        <span key={index}>
          <span class="dot">.</span>
          {part}
        </span>
      ))}
    </span>
  );
}
