import type { JSX } from 'preact';

/** A figure in the fixed-pitch face, the point drawn in: a full cell of air after it reads like two figures. */
export function Fig(props: { readonly text: string; readonly class?: string }): JSX.Element {
  // Words in the fixed pitch would only look torn apart.
  if (!/\d|^OL$/.test(props.text)) return <span class={props.class}>{props.text}</span>;
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
