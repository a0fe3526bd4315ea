import type { JSX } from 'preact';
import { chosen, pickAbout } from '../state/taking.ts';
import { LoopFigure } from './loop-figure.tsx';
import { Press } from './press-button.tsx';
import { scrollTo } from './reading-task.tsx';

/** Where the tips go. */
export function Picture(): JSX.Element {
  const now = chosen.value;
  return (
    <>
      <LoopFigure chosen={now} pick={pickAbout} />
      {now && (
        <p class="jumps">
          <Press act={() => scrollTo('pad')}>Back to the keys</Press>
        </p>
      )}
    </>
  );
}
