import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { BenchClock } from '../../bench/clocks.ts';
import { beep } from '../beep.ts';
import { sayLeft } from '../clock-words.ts';
import { writeRoute } from '../route.ts';
import { small } from '../show.ts';
import { clocks, now, TICK_MS } from '../state/clocks.ts';
import { jobId } from '../state/job.ts';
import { Press } from './press-button.tsx';

const MARKS = { late: '▲', hurry: '▲', over: '✓', runs: '◷' } as const;

function words(clock: BenchClock, nowMs: number): string {
  const left = sayLeft((clock.endMs - nowMs) / 1000);
  switch (clock.state) {
    case 'runs':
      return clock.what === 'window'
        ? `${left} to begin: ${small(clock.says)}`
        : `${left} left: ${small(clock.says)}`;
    case 'hurry':
      return `${left} to begin: ${small(clock.says)}`;
    case 'late':
      return `Too late to begin: ${small(clock.says)}. Do what came before it again.`;
    case 'over':
      return `Over: ${small(clock.says)}`;
  }
}

/** The clocks of the job, on every page of it: told by words, a mark, a flash and a sound when one turns. */
export function BenchClocks(): JSX.Element | null {
  const [heard, hear] = useState<ReadonlySet<string>>(new Set());
  const told = useRef<Map<string, BenchClock['state']>>(new Map());
  const [flash, setFlash] = useState(false);
  const [whole, setWhole] = useState(false);
  useEffect(() => {
    const move = (): void => {
      now.value = Date.now();
    };
    const timer = setInterval(move, TICK_MS);
    // A device that slept is told at once.
    document.addEventListener('visibilitychange', move);
    return () => {
      clearInterval(timer);
      document.removeEventListener('visibilitychange', move);
    };
  }, []);
  const all = clocks.value;
  const states = all.map(({ id, state }) => `${id} ${state}`).join('|');
  useEffect(() => {
    const before = told.current;
    // What had turned before this page was opened is shown, not sounded again.
    const turned = all.some(
      ({ id, state }) => before.has(id) && before.get(id) !== state && state !== 'runs',
    );
    told.current = new Map(all.map(({ id, state }) => [id, state]));
    if (!turned) return;
    beep();
    setFlash(true);
    const timer = setTimeout(() => setFlash(false), 4000);
    return () => clearTimeout(timer);
  }, [states]);
  const id = jobId.value;
  const shown = all.filter((clock) => !heard.has(`${clock.id} ${clock.state}`));
  if (id === null || shown.length === 0) return null;
  return (
    <section class={flash ? 'clocks flash' : 'clocks'} aria-label="Clocks">
      <ul>
        {(whole ? shown : shown.slice(0, 1)).map((clock, n) => (
          <li key={clock.id} class={`clock ${clock.state}`}>
            <a
              class="link plain"
              href={writeRoute({ at: 'job', job: id, station: 'bench', take: clock.step })}
            >
              <span>
                <span aria-hidden="true">{MARKS[clock.state]}</span> {words(clock, now.value)}
              </span>
            </a>
            {clock.state !== 'runs' && (
              <Press
                class="plain"
                label={`Seen: ${clock.says}`}
                act={() => hear(new Set([...heard, `${clock.id} ${clock.state}`]))}
              >
                Seen
              </Press>
            )}
            {n === 0 && shown.length > 1 && (
              <Press
                class="plain"
                expanded={whole}
                label={whole ? 'Only the first clock' : `All ${shown.length} clocks`}
                act={() => setWhole(!whole)}
              >
                {whole ? '▴' : `+${shown.length - 1}`}
              </Press>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
