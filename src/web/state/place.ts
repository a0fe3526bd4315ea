/** Where the mechanic is: the address bar as a signal. */
import { signal } from '@preact/signals';
import { type Route, readRoute, writeRoute } from '../route.ts';

export const route = signal<Route>(readRoute(location.hash));

addEventListener('hashchange', () => {
  route.value = readRoute(location.hash);
});

export function go(to: Route): void {
  const hash = writeRoute(to);
  if (location.hash !== hash) location.hash = hash;
}

/** Changes the address without a step in the history: for choices inside a station. */
export function slide(to: Route): void {
  history.replaceState(null, '', writeRoute(to));
  route.value = to;
}
