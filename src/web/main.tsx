/**
 * Room `web`: the app in the browser. It shows one job as stations (Complaint, Readings, Verdict, Way in), keeps every
 * entry as an event, first in the browser's own outbox and then on the laptop, opens without the laptop, and infers and
 * plans in workers so that the screen never waits. All sums come from the pure rooms; this room only asks, shows and remembers.
 *
 * `state/` holds signals, `stations/` the pages, `parts/` what they are made of, `words/` what is said, and the
 * files beside this one are the pure pieces that tests reach without a browser.
 */
import { render } from 'preact';
import { App } from './app.tsx';
import { startSending } from './state/job.ts';
import { keepApp } from './state/shell.ts';
import './state/theme.ts';

function sendPhotos(): void {
  import('./state/photos.ts').then(
    ({ startPhotoSending }) => startPhotoSending(),
    // Without the laptop and without the kept app: the next page sends them.
    () => undefined,
  );
}

/** Does it when the page is loaded; the page may be so already when this file comes. */
function onceLoaded(act: () => void): void {
  if (document.readyState === 'complete') act();
  else addEventListener('load', act, { once: true });
}

const place = document.getElementById('app');
if (place) {
  place.replaceChildren();
  render(<App />, place);
  startSending();
  // When the first screen stands: keeping the app is for next time.
  onceLoaded(() => setTimeout(() => void keepApp(), 1000));
  // Photographs of an earlier visit go out after the entries, and their code does not hold up the first screen.
  onceLoaded(() => setTimeout(sendPhotos, 500));
}
