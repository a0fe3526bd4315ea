/** The worker that plans the way in: exact searches take longer than a key press may. */
import { type WayAsk, type WayReply, wayReporter } from './way-report.ts';

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;
const report = wayReporter();

scope.addEventListener('message', (event: MessageEvent<WayAsk>) => {
  try {
    scope.postMessage(report(event.data));
  } catch (error) {
    const why = `This cannot be planned: ${error instanceof Error ? error.message : String(error)}`;
    scope.postMessage({ id: event.data.id, targets: [], plan: null, why, troubles: [] } satisfies WayReply);
  }
});
