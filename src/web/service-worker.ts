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

scope.addEventListener('install', (event) => {
  event.waitUntil(
    caches.open(CACHE).then((cache) =>
      // Past the browser's own cache: a file of an older build under the same name must not come in.
      cache.addAll(FILES.map((path) => new Request(path, { cache: 'reload' }))),
    ),
  );
});

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
