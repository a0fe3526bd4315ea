import type { JSX } from 'preact';
import { tick, turnTo } from '../state/bench.ts';
import { clocks, places } from '../state/clocks.ts';
import { Warning } from './bench-ask.tsx';
import { Press } from './press-button.tsx';

/** Windows that have closed: what opened each is done again, one touch for each. */
export function BenchLate(): JSX.Element | null {
  const late = clocks.value.filter(({ state, after }) => state === 'late' && after !== null);
  if (late.length === 0) return null;
  const does = (id: string) => places.value.get(id)?.step?.does ?? id;
  return (
    <section class="stack tight" aria-label="Too late">
      {late.map(({ id, says, after }) => (
        <div key={id} class="stack tight">
          <Warning says={`“${says}” was not begun in time. What came before it no longer holds.`} />
          <Press
            act={() => {
              tick(after!, 'stepUndone');
              turnTo(after);
            }}
          >
            Do it again: {does(after!)}
          </Press>
        </div>
      ))}
    </section>
  );
}
