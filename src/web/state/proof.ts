/** The proof of the job on screen, worked out in a worker of its own: started when somebody looks at it. */
import { batch, computed, effect } from '@preact/signals';
import type { EventBody } from '../../job/event.ts';
import { looksFor } from '../../proof/looks.ts';
import type { JobProof } from '../../proof/prove-job.ts';
import { allRepairs, leftAfter, repairedOf } from '../../proof/repaired.ts';
import { standingOf } from '../../proof/standing.ts';
import type { FaultSet } from '../../verdict/answer.ts';
import type { Question, Reply } from '../prove.ts';
import { openSlot } from '../think.ts';
import { happened, happenedUndoably, job, jobId } from './job.ts';
import { machine } from './machine.ts';
import { bandWanted, proof, proofBands, proofFailure, proofThinking, proofVolts } from './side.ts';

/** Repairs of all rounds, each once. */
export const repairs = computed(() => allRepairs(job.value));

/** What is to be looked at; empty while the machine file or the repairs are not known. */
export const looks = computed(() =>
  machine.value && job.value.proof.made ? looksFor(machine.value.machine, job.value, repairs.value) : [],
);

/** How the proof stands; null while it is not worked out. */
export const standing = computed(() =>
  proof.value === null ? null : standingOf(proof.value, looks.value, job.value.proof, repairs.value),
);

/** All of it, for the papers; null while it is not worked out. */
export const jobProof = computed<JobProof | null>(() =>
  proof.value && standing.value
    ? { proof: proof.value, volts: proofVolts.value, looks: looks.value, standing: standing.value }
    : null,
);

const question = computed<Question | null>(() => {
  const repaired = machine.value && repairedOf(job.value, machine.value.machine);
  return repaired && { ...repaired, wanted: bandWanted.value };
});
/** As text: other entries must not start it thinking again. */
const asked = computed(() => (question.value === null ? '' : JSON.stringify(question.value)));

let lastId = 0;
const slot = openSlot<Question>(
  (id, now) => openWorker().postMessage({ id, question: now }),
  () => {
    lastId += 1;
    return lastId;
  },
);
/** What belongs to one bike: its bands and its answer are no other's. */
let bike = '';

let worker: Worker | null = null;

function openWorker(): Worker {
  if (worker) return worker;
  worker = new Worker(new URL('../prove-worker.ts', import.meta.url), { type: 'module', name: 'proof' });
  worker.addEventListener('error', () => {
    proofFailure.value =
      'The proof could not be worked out: its worker did not start. Reload the page; entries are kept.';
  });
  worker.addEventListener('message', ({ data }: MessageEvent<Reply>) => took(data));
  return worker;
}

function took(reply: Reply): void {
  const settled = slot.settle(reply.id);
  if (!settled) return;
  batch(() => {
    proofThinking.value = slot.busy();
    if (!reply.ok) {
      proofFailure.value = reply.why;
      return;
    }
    const { told } = reply;
    const { wanted } = settled.question;
    if (wanted !== null && told.shows) proofBands.value = new Map(proofBands.peek()).set(wanted, told.shows);
    if (settled.stale || bikeOf(settled.question) !== bike) return;
    proof.value = told.proof;
    proofVolts.value = told.volts;
    proofFailure.value = null;
  });
}

function bikeOf({ spec, after, must }: Question): string {
  return `${jobId.peek()} ${JSON.stringify([spec, after, must])}`;
}

/** Works it out while somebody looks; gives the way to stop. */
export function lookAtProof(): () => void {
  return effect(() => {
    if (asked.value === '') {
      batch(() => {
        bike = '';
        proof.value = null;
        proofVolts.value = [];
      });
      return;
    }
    const now = question.peek();
    if (now === null) return;
    batch(() => {
      if (bikeOf(now) !== bike) {
        bike = bikeOf(now);
        proof.value = null;
        proofVolts.value = [];
        proofBands.value = new Map();
      }
      slot.ask(now);
      proofThinking.value = true;
    });
  });
}

/** What is believed of the bike before a round of repairs; null where nobody has said anything of it. */
function believed(): { readonly sets: readonly FaultSet[]; readonly noneOfThese: number } | null {
  return proof.peek() ?? job.peek().accepted;
}

/** Whether a round of repairs can be written down: what it leaves in doubt must be known. */
export const mayRepair = computed(
  () => machine.value !== null && (proof.value ?? job.value.accepted) !== null,
);

/** A round of repairs was made. */
export function sayRepaired(made: readonly string[]): void {
  const now = believed();
  const known = machine.peek();
  if (now === null || known === null) return;
  const { left, noneOfThese } = leftAfter(now, made, known.spec);
  const list = Object.entries(left).map(([fault, chance]) => ({
    fault,
    chance: Number(chance.toPrecision(6)),
  }));
  happenedUndoably(
    { type: 'repairsMade', repairs: made, left: list, noneOfThese },
    'Repaired: what is read from here on is the repaired bike.',
  );
}

/** A look was taken. */
export function sayLooked(check: string, ok: boolean, words: string): void {
  const { made } = job.peek().proof;
  if (made) happened({ type: 'proofLooked', after: made.event, check, ok, words });
}

const SETS_KEPT = 50;
const WORTH_KEEPING = 0.001;

/** What the mechanic says of the bike in the end. */
export function sayProof(proven: boolean, why: string): void {
  const { made } = job.peek().proof;
  const now = proof.peek();
  if (made === null || now === null) return;
  const sets = now.sets.filter(({ probability }) => probability >= WORTH_KEEPING).slice(0, SETS_KEPT);
  const body: EventBody = {
    type: 'proofSaid',
    after: made.event,
    proven,
    faultLeft: now.faultLeft,
    sets,
    why,
  };
  happenedUndoably(body, proven ? 'Written down: proven.' : 'Written down: not proven.');
}
