/** The worker that looks a machine file over while it is typed: the page never waits for it. */
import { type FileJudged, judgeFile } from '../machine/judge-file.ts';

export interface CheckAsk {
  readonly id: number;
  readonly text: string;
  readonly name: string;
  readonly year: number;
}

export interface CheckReply {
  readonly id: number;
  readonly judged: Omit<FileJudged, 'machine'>;
}

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;

scope.addEventListener('message', (event: MessageEvent<CheckAsk>) => {
  const { id, text, name, year } = event.data;
  const { machine: _machine, ...judged } = judgeFile(text, name, year);
  scope.postMessage({ id, judged } satisfies CheckReply);
});
