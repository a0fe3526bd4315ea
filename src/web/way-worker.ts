/** The worker that plans the way in: exact searches take longer than a key press may. */
import { planMemory, type WayAsk, type WayReply, wayReporter } from './way-report.ts';
import { type StartQuestion, type StartReply, tellStart } from './way-start.ts';

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;
const planned = planMemory();
const report = wayReporter(planned);

scope.addEventListener('message', ({ data }: MessageEvent<WayAsk | StartQuestion>) => {
  try {
    scope.postMessage('rideByMs' in data ? tellStart(data, planned) : report(data));
  } catch (error) {
    const why = `This cannot be planned: ${error instanceof Error ? error.message : String(error)}`;
    scope.postMessage(
      'rideByMs' in data
        ? ({ id: data.id, people: data.people, says: why, start: null } satisfies StartReply)
        : ({ id: data.id, targets: [], plan: null, why, troubles: [] } satisfies WayReply),
    );
  }
});
