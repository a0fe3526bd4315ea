/**
 * The service worker: the app's own files out of this browser, so that it opens with the laptop switched off. What is
 * asked of /api always goes to the laptop; the pages themselves know what to do when it does not answer.
 *
 * A build is fetched whole before it counts. The new one then waits: it takes over when no page of the old one is
 * open, or when the mechanic says so on the list of jobs, never in the middle of a job. The build writes its name and
 * its files in here (vite.config.ts).
 */
const BUILD = '__BUILD__';
const FILES = JSON.parse('__FILES__') as readonly string[];
/** Names of caches begin with this; others at this address are not ours. */
const PREFIX = 'chargewright-app-';
const CACHE = PREFIX + BUILD;

const scope = globalThis as unknown as ServiceWorkerGlobalScope;

/** A browser keeps six connections to one server: the others are for what is entered meanwhile, count. */
const AT_ONCE = 3;
/**
 * How long one file may take, ms. On a network that fell silent a connection would else be held for many minutes, and with it
 * the entries that wait behind.
 */
const PATIENCE_MS = 20_000;

scope.addEventListener('install', (event) => {
  event.waitUntil(caches.open(CACHE).then(fetchAll));
});

/** All files or an error: then this build does not count, and is tried again at the next visit. */
async function fetchAll(cache: Cache): Promise<void> {
  const left = [...FILES];
  const some = async (): Promise<void> => {
    for (let path = left.shift(); path !== undefined; path = left.shift()) {
      // Past the browser's own cache: a file of an older build under the same name must not come in.
      const answer = await fetch(path, { cache: 'reload', signal: AbortSignal.timeout(PATIENCE_MS) });
      if (!answer.ok) throw new TypeError(`${path} was answered with ${answer.status}`);
      await cache.put(path, answer);
    }
  };
  try {
    await Promise.all(Array.from({ length: AT_ONCE }, some));
  } catch (error) {
    left.length = 0;
    throw error;
  }
}

scope.addEventListener('activate', (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) =>
        Promise.all(
          names
            .filter((name) => name.startsWith(PREFIX) && name !== CACHE)
            .map((name) => caches.delete(name)),
        ),
      )
      .then(() => scope.clients.claim()),
  );
});

scope.addEventListener('message', (event) => {
  if (event.data === 'take over') void scope.skipWaiting();
});

scope.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== scope.location.origin || url.pathname.startsWith('/api'))
    return;
  const path = request.mode === 'navigate' ? '/' : url.pathname;
  event.respondWith(
    caches
      .open(CACHE)
      .then((cache) => cache.match(path))
      .then((found) => found ?? fetch(request)),
  );
});
