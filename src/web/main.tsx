/**
 * Room `web`: the app in the browser. It shows one job as stations (Complaint, Readings, Verdict, Way in), keeps every
 * entry as an event, first in the browser's own outbox and then on the laptop, opens without the laptop, and infers and
 * plans in workers so that the screen never waits. All sums come from the pure rooms; this room only asks, shows and remembers.
 *
 * `state/` holds signals, `stations/` the pages, `parts/` what they are made of, `words/` what is said, and the
 * files beside this one are the pure pieces that tests reach without a browser.
 */
import '@fontsource/atkinson-hyperlegible-next/latin-400.css';
import '@fontsource/atkinson-hyperlegible-next/latin-600.css';
import '@fontsource/atkinson-hyperlegible-next/latin-700.css';
import '@fontsource/atkinson-hyperlegible-next/latin-ext-400.css';
import '@fontsource/b612-mono/latin-400.css';
import '@fontsource/b612-mono/latin-700.css';
import './style/theme.css';
import './style/base.css';
import './style/controls.css';
import './style/job.css';
import './style/readings.css';
import './style/verdict.css';
import './style/print.css';
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

const place = document.getElementById('app');
if (place) {
  place.replaceChildren();
  render(<App />, place);
  startSending();
  // When the first screen stands: keeping the app is for next time.
  addEventListener('load', () => setTimeout(() => void keepApp(), 1000), { once: true });
  // Photographs of an earlier visit go out after the entries, and their code does not hold up the first screen.
  addEventListener('load', () => setTimeout(sendPhotos, 500), { once: true });
}
