/** The worker that proves: the same inference as the verdict's, on the repaired bike. One bike at a time. */
import { voltsBand } from '../proof/prove-job.ts';
import { openProver, type Prover } from '../verdict/prove.ts';
import type { Question, Reply, Told } from './prove.ts';

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

let prover: Prover | null = null;
let opened = '';

function open({ spec, after, must }: Question): Prover {
  const now = JSON.stringify([spec, after, must]);
  if (prover === null || now !== opened) {
    prover = openProver(spec, after, { must });
    opened = now;
  }
  return prover;
}

function answer(question: Question): Told {
  const from = open(question);
  const { evidence, wanted } = question;
  const proof = from.prove(evidence);
  const planned = proof.plan.find(({ key }) => key === wanted);
  const band = wanted === null ? null : (planned?.band ?? from.band(wanted, evidence));
  return {
    proof,
    volts: voltsBand(from, evidence),
    shows: wanted === null ? null : { band, openShare: band ? 0 : 1 },
  };
}

scope.addEventListener('message', (event: MessageEvent<{ id: number; question: Question }>) => {
  const { id, question } = event.data;
  let reply: Reply;
  try {
    reply = { id, ok: true, told: answer(question) };
  } catch (error) {
    reply = { id, ok: false, why: error instanceof Error ? error.message : String(error) };
  }
  scope.postMessage(reply);
});
