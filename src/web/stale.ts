/**
 * Connections that a silent network has left dumb. A browser keeps up to six to one server and uses them again; after a walk
 * out of reach each of them may be dead without anybody having said so, and a request over one waits until it is given
 * up. So as many small questions as there may be connections are asked at once: the dead ones are used up together and
 * closed, and the next request gets a new one.
 */

/** Most connections that browsers keep to one server over HTTP/1.1, count. */
const CONNECTIONS = 6;
/** How long a small question may take before its connection counts as dead, ms. */
const PATIENCE_MS = 4000;

let asking: Promise<boolean> | null = null;

/** Uses the dead connections up; whether the laptop answers over one of the others. Once at a time. */
export function dropStale(): Promise<boolean> {
  asking ??= askAll().finally(() => {
    asking = null;
  });
  return asking;
}

async function askAll(): Promise<boolean> {
  const asks = Array.from({ length: CONNECTIONS }, () =>
    fetch('/api/health', { cache: 'no-store', signal: AbortSignal.timeout(PATIENCE_MS) }).then((answer) =>
      answer.body?.cancel(),
    ),
  );
  return (await Promise.allSettled(asks)).some(({ status }) => status === 'fulfilled');
}
