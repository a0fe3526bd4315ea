/** The worker that infers, so that the screen never does. One bike at a time, the same seed at every start. */
import { type Assessor, openAssessor } from '../verdict/assess.ts';
import type { Ask, Reply } from './think.ts';

/** Any number does; always the same, so that a reload shows the same figures. */
const SEED = 1;

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;
let assessor: Assessor | null = null;
let opened = 0;

function say(reply: Reply): void {
  scope.postMessage(reply);
}

scope.addEventListener('message', (event: MessageEvent<Ask>) => {
  const ask = event.data;
  const id = ask.kind === 'open' ? null : ask.id;
  try {
    if (ask.kind === 'open') {
      opened = ask.bike;
      assessor = null;
      assessor = openAssessor(ask.spec, { seed: SEED });
    } else if (assessor === null || ask.bike !== opened) {
      say({
        kind: 'failed',
        bike: ask.bike,
        id,
        why: 'This bike could not be opened, so there is no verdict on it.',
      });
    } else if (ask.kind === 'assess') {
      say({ kind: 'answer', bike: ask.bike, id: ask.id, answer: assessor.assess(ask.evidence) });
    } else {
      say({ kind: 'shows', bike: ask.bike, id: ask.id, key: ask.key, shows: assessor.sound(ask.key) });
    }
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    say({ kind: 'failed', bike: ask.bike, id, why });
  }
});
