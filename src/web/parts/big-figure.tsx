import type { JSX } from 'preact';
import { Fig } from './fig.tsx';

/** A figure as large as a screen bears, its unit in the face of the text: a fixed pitch tears "N·m" apart. */
export function BigFigure(props: { readonly text: string }): JSX.Element {
  const [, figure, unit] = /^(.*\d)\s+(\D+)$/.exec(props.text) ?? [];
  return (
    <p class="bench-figure">
      <Fig text={figure ?? props.text} /> {unit && <span class="bench-unit">{unit}</span>}
    </p>
  );
}
