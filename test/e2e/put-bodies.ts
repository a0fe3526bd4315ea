import type { EventBody } from '../../src/job/event.ts';
import { writeEvent } from '../../src/job/stamp.ts';

const STEP_MS = 4 * 60_000;

/** Puts a story on the laptop as one device wrote it, an entry every four minutes, the last some minutes before `nowMs`. */
export async function putBodies(
  address: string,
  by: { readonly job: string; readonly who: string; readonly device: string },
  bodies: readonly EventBody[],
  nowMs: number,
): Promise<void> {
  const events: ReturnType<typeof writeEvent>[] = [];
  for (const [n, body] of bodies.entries())
    events.push(writeEvent(by, body, events.at(-1)?.id ?? null, nowMs - (bodies.length - n) * STEP_MS));
  const answer = await fetch(`${address}/api/jobs`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(events),
  });
  if (!answer.ok) throw new Error(`${answer.status} ${await answer.text()}`);
}
