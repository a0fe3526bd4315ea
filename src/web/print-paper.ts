/** The browser's own print of a paper, once it holds what it is to hold. */
import { effect } from '@preact/signals';
import { LOOKING } from './parts/paper-document.tsx';
import { job } from './state/job.ts';
import { machine } from './state/machine.ts';
import { jobProof } from './state/proof.ts';
import { proofFailure } from './state/side.ts';

/** How long the print waits, ms: what has not come by then is printed as missing. */
const WAIT_MS = 8000;

/** Whether the paper still lacks its proof, which is worked out beside the page: it would say that there is none. */
const proofToCome = (): boolean =>
  machine.value !== null &&
  job.value.proof.made !== null &&
  jobProof.value === null &&
  proofFailure.value === null;

function proved(): Promise<void> {
  return new Promise((done) => {
    const stop = effect(() => {
      if (proofToCome()) return;
      done();
      queueMicrotask(() => stop());
    });
    setTimeout(() => {
      stop();
      done();
    }, WAIT_MS);
  });
}

const frame = (): Promise<unknown> => new Promise((done) => requestAnimationFrame(done));

export async function printPaper(): Promise<void> {
  await proved();
  const end = performance.now() + WAIT_MS;
  // The first frame draws the paper with what has come; on a slow line the button may be there before the paper is.
  do await frame();
  while (
    (document.querySelector('.paper') === null || document.querySelector(`.${LOOKING}`) !== null) &&
    performance.now() < end
  );
  const pictures = [...document.querySelectorAll<HTMLImageElement>('.paper img')];
  await Promise.all(pictures.map((picture) => picture.decode().catch(() => undefined)));
  print();
}
