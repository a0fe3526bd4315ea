/** The worker that reckons sums and draws them: a tightening order of eighteen screws takes longer than a key press may. */
import { drawSumPicture, type PictureShape } from '../draw/sum-picture.ts';
import type { SvgNode } from '../draw/svg.ts';
import { SUMS } from '../sum/catalogue.ts';
import type { Reckoned, Refused, Texts } from '../sum/sum.ts';

export interface SumAsk {
  readonly id: number;
  readonly sum: string;
  readonly texts: Texts;
  readonly shape: PictureShape;
}

export interface SumReply {
  readonly id: number;
  readonly found: Reckoned | Refused;
  readonly picture: SvgNode | null;
}

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

scope.addEventListener('message', (event: MessageEvent<SumAsk>) => {
  const { id, sum, texts, shape } = event.data;
  try {
    const found: Reckoned | Refused = SUMS.find((one) => one.id === sum)!.reckon(texts);
    const picture = found.ok && found.picture ? drawSumPicture(found.picture, shape) : null;
    scope.postMessage({ id, found, picture } satisfies SumReply);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    const found: Refused = { ok: false, faults: [{ field: null, why: `This cannot be worked out: ${why}` }] };
    scope.postMessage({ id, found, picture: null } satisfies SumReply);
  }
});
