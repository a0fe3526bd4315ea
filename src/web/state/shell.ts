/**
 * The app kept in this browser: the service worker is registered where the browser has one and the laptop wants it, and a
 * newer build is offered on the list of jobs, never put in place in the middle of a job.
 */
import { signal } from '@preact/signals';
import { fetchHealth } from '../server.ts';

/** A newer build that waits to be used; null while there is none. */
const waiting = signal<ServiceWorker | null>(null);
export const newerBuild = waiting;

/** Puts the newer build in place and opens the page anew with it. */
export function useNewer(): void {
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
  waiting.value?.postMessage('take over');
}

function watch(registration: ServiceWorkerRegistration): void {
  const look = (): void => {
    // Without a controller it is the first one: there is no older build on screen.
    if (registration.waiting && navigator.serviceWorker.controller) waiting.value = registration.waiting;
  };
  look();
  registration.addEventListener('updatefound', () => {
    registration.installing?.addEventListener('statechange', look);
  });
}

/** Tells the browser that this is an app; with the page itself it would fetch the icons before the first screen stands. */
function tellInstallable(): void {
  const link = document.createElement('link');
  link.rel = 'manifest';
  link.href = '/app.webmanifest';
  document.head.append(link);
}

/** Registers the worker. A laptop that was told to hand the app out itself is heard, and its absence changes nothing. */
export async function keepApp(): Promise<void> {
  tellInstallable();
  if (!('serviceWorker' in navigator)) return;
  const got = await fetchHealth();
  if (!got.ok) return;
  if (!got.body.offline) {
    for (const registration of await navigator.serviceWorker.getRegistrations())
      await registration.unregister();
    for (const name of await caches.keys())
      if (name.startsWith('chargewright-app-')) await caches.delete(name);
    return;
  }
  try {
    watch(await navigator.serviceWorker.register('/sw.js', { updateViaCache: 'none' }));
  } catch {
    // An address that the browser does not trust: the app works, but opens only with the laptop.
  }
}
