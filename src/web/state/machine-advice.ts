/** Asks the worker that reckons with the machine file on screen; one question at a time, the newest counts. */
import { useEffect, useState } from 'preact/hooks';
import type { JobEvent } from '../../job/event.ts';
import { later } from '../browser.ts';
import type { Advice, AdviceAsk } from '../machine-advice-worker.ts';
import { looked } from './machine-draft.ts';

/** How long the file must be left alone before it is asked, ms: the answer takes some tenths of a second. */
const QUIET_MS = 400;

/** The answer for the file as it stands; null until it is there. `jobs` null asks for the figures worth finding. */
export function useAdvice(jobs: readonly (readonly JobEvent[])[] | null, wait = false): Advice | null {
  const [advice, setAdvice] = useState<Advice | null>(null);
  const [worker, setWorker] = useState<Worker | null>(null);
  const text = looked.value?.text ?? null;
  useEffect(() => {
    const made = new Worker(new URL('../machine-advice-worker.ts', import.meta.url), {
      type: 'module',
      name: 'advice',
    });
    setWorker(made);
    return () => made.terminate();
  }, []);
  useEffect(() => {
    if (worker === null || text === null || wait) return undefined;
    const id = Math.round(performance.now());
    const take = ({ data }: MessageEvent<Advice>): void => {
      if (data.id === id) setAdvice(data);
    };
    worker.addEventListener('message', take);
    const stop = later(() => worker.postMessage({ id, text, jobs } satisfies AdviceAsk), QUIET_MS);
    return () => {
      stop();
      worker.removeEventListener('message', take);
    };
  }, [worker, text, jobs, wait]);
  return advice;
}
