import type { JSX } from 'preact';
import { inHundred } from '../../verdict/say-chance.ts';

/** A probability as a bar with its figure. The bar is decoration: the figure says it. */
export function Chance(props: { readonly probability: number; readonly done?: boolean }): JSX.Element {
  const width = `${Math.max(0.5, Math.min(100, props.probability * 100)).toFixed(1)}%`;
  return (
    <span class={props.done ? 'chance done' : 'chance'}>
      <span class="bar" aria-hidden="true">
        <span style={{ width }} />
      </span>
      <span class="share">{inHundred(props.probability)}</span>
    </span>
  );
}
