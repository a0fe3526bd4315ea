import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { type BenchClock, byPressure } from '../../bench/clocks.ts';
import { beep } from '../beep.ts';
import { later } from '../browser.ts';
import { sayLeft } from '../clock-words.ts';
import { writeRoute } from '../route.ts';
import { small } from '../show.ts';
import { clocks, now, TICK_MS } from '../state/clocks.ts';
import { jobId } from '../state/job.ts';
import { otherClocks, watchOthers } from '../state/other-clocks.ts';
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

/** How long a page of a job has the line to itself before the other jobs are looked at, ms. */
const OTHERS_MS = 4000;

interface Shown {
  readonly job: string;
  /** The job's name, where it is not the one on screen. */
  readonly title: string | null;
  readonly id: string;
  readonly clock: BenchClock;
}

/** The clocks of all open jobs, on every page: told by words, a mark, a flash and a sound when one turns. */
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
  const here = jobId.value;
  useEffect(() => {
    let stop: (() => void) | null = null;
    const wait = later(
      () => {
        stop = watchOthers();
      },
      jobId.peek() === null ? 0 : OTHERS_MS,
    );
    return () => {
      wait();
      stop?.();
    };
  }, []);
  const own = here === null ? [] : clocks.value.map((clock) => ({ job: here, title: null, clock }));
  const all: readonly Shown[] = [...own, ...otherClocks.value]
    .map((one) => ({ ...one, id: `${one.job} ${one.clock.id}` }))
    .sort((a, b) => byPressure(a.clock, b.clock));
  const states = all.map(({ id, clock }) => `${id} ${clock.state}`).join('|');
  useEffect(() => {
    const before = told.current;
    // What had turned before this page was opened is shown, not sounded again.
    const turned = all.some(
      ({ id, clock: { state } }) => before.has(id) && before.get(id) !== state && state !== 'runs',
    );
    told.current = new Map(all.map(({ id, clock }) => [id, clock.state]));
    if (!turned) return;
    beep();
    setFlash(true);
    const timer = setTimeout(() => setFlash(false), 4000);
    return () => clearTimeout(timer);
  }, [states]);
  const shown = all.filter(({ id, clock }) => !heard.has(`${id} ${clock.state}`));
  if (shown.length === 0) return null;
  return (
    <section class={flash ? 'clocks flash' : 'clocks'} aria-label="Clocks">
      <ul>
        {(whole ? shown : shown.slice(0, 1)).map(({ id, job, title, clock }, n) => (
          <li key={id} class={`clock ${clock.state}`}>
            <a class="link plain" href={writeRoute({ at: 'job', job, station: 'bench', take: clock.step })}>
              <span>
                <span aria-hidden="true">{MARKS[clock.state]}</span> {words(clock, now.value)}
                {title !== null && <span class="quiet"> · {title}</span>}
              </span>
            </a>
            {clock.state !== 'runs' && (
              <Press
                class="plain"
                label={`Seen: ${clock.says}`}
                act={() => hear(new Set([...heard, `${id} ${clock.state}`]))}
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
