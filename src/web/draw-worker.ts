/** The worker that draws the loop: hundreds of marks as text, in pieces that the page takes in one after another. */
import { drawLoop } from '../draw/loop.ts';
import type { LoopInput } from '../draw/loop-plan.ts';
import { type SvgNode, svgText } from '../draw/svg.ts';

export interface DrawAsk {
  readonly id: number;
  readonly input: LoopInput;
}

/** One child of the outermost node as text, with the number of elements in it. */
export interface Piece {
  readonly text: string;
  readonly size: number;
}

export interface Drawn {
  readonly id: number;
  readonly attrs: SvgNode['attrs'];
  readonly pieces: readonly Piece[];
}

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

function sizeOf(node: SvgNode): number {
  return node.children.reduce((sum, child) => sum + (typeof child === 'string' ? 0 : sizeOf(child)), 1);
}

scope.addEventListener('message', (event: MessageEvent<DrawAsk>) => {
  const { id, input } = event.data;
  const { attrs, children } = drawLoop(input);
  const pieces = children.flatMap((child) =>
    typeof child === 'string' ? [] : [{ text: svgText(child), size: sizeOf(child) }],
  );
  scope.postMessage({ id, attrs, pieces } satisfies Drawn);
});
