/**
 * The worker that infers, so that the screen never does. One bike at a time, the same seed at every start. While
 * nobody asks it works ahead in slices of a few milliseconds, between which any question comes first.
 */
import { ownWeights, priorChances } from '../job/priors.ts';
import { type Assessor, openAssessor } from '../verdict/assess.ts';
import type { Ask, Reply } from './think.ts';

/** Any number does; always the same, so that a reload shows the same figures. */
const SEED = 1;

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;
let assessor: Assessor | null = null;
let opened = 0;
let warming: ReturnType<typeof setTimeout> | null = null;

function say(reply: Reply): void {
  scope.postMessage(reply);
}

/** Works ahead a slice at a time; a slice is its own task, so that questions that came meanwhile run before the next. */
function warmLater(): void {
  if (warming !== null) clearTimeout(warming);
  warming = null;
  if (assessor === null) return;
  warming = setTimeout(() => {
    warming = null;
    try {
      if (assessor?.warm()) warmLater();
    } catch {
      // Nothing is lost: what was not done ahead is done when it is asked, and fails there where it can be said.
    }
  }, 0);
}

function open(ask: Extract<Ask, { kind: 'open' }>): void {
  opened = ask.bike;
  assessor = null;
  const build = { phases: ask.spec.alternator.phases, senses: ask.spec.regulator.senses };
  const weights = ownWeights(ask.own, build);
  say({
    kind: 'opened',
    bike: ask.bike,
    chances: priorChances(weights, build),
    catalogue: priorChances(ownWeights([], build), build),
  });
  assessor = openAssessor(ask.spec, { seed: SEED, weights });
}

function answer(ask: Exclude<Ask, { kind: 'open' }>): Reply {
  const { bike, id } = ask;
  if (assessor === null || bike !== opened)
    return {
      kind: 'failed',
      bike,
      id,
      why: 'This bike could not be opened, so there is no verdict on it.',
    };
  switch (ask.kind) {
    case 'assess':
      return { kind: 'answer', bike, id, answer: assessor.assess(ask.evidence) };
    case 'explain':
      return { kind: 'explained', bike, id, explanation: assessor.explain(ask.evidence) };
    case 'sound':
      return { kind: 'shows', bike, id, key: ask.key, shows: assessor.sound(ask.key) };
  }
}

scope.addEventListener('message', (event: MessageEvent<Ask>) => {
  const ask = event.data;
  try {
    if (ask.kind === 'open') open(ask);
    else say(answer(ask));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    say({ kind: 'failed', bike: ask.bike, id: ask.kind === 'open' ? null : ask.id, why });
  }
  warmLater();
});
