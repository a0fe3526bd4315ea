/** Drawings of the loop, made in a worker of their own, so that neither the page nor the verdict waits for them. */
import type { LoopInput } from '../../draw/loop-plan.ts';
import type { DrawAsk, Drawn } from '../draw-worker.ts';

const asked = new Map<number, (drawn: Drawn) => void>();
let lastId = 0;

/** Started by the first drawing: a page may have this file and draw nothing. */
let worker: Worker | null = null;
function drawer(): Worker {
  if (worker) return worker;
  worker = new Worker(new URL('../draw-worker.ts', import.meta.url), { type: 'module', name: 'drawing' });
  worker.addEventListener('message', (event: MessageEvent<Drawn>) => {
    asked.get(event.data.id)?.(event.data);
    asked.delete(event.data.id);
  });
  return worker;
}

/** Asks for a drawing; gives the way to want it no more. */
export function askDrawing(input: LoopInput, take: (drawn: Drawn) => void): () => void {
  lastId += 1;
  const id = lastId;
  asked.set(id, take);
  drawer().postMessage({ id, input } satisfies DrawAsk);
  return () => {
    asked.delete(id);
  };
}
