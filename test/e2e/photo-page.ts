/** A page with nothing on it but the photographs of a job: built into the tests, it speaks to the laptop as the app does. */
import { h, render } from 'preact';
import { PhotoStrip } from '../../src/web/parts/photo-strip.tsx';
import { PhotoTake } from '../../src/web/parts/photo-take.tsx';
import { Refused, Saved } from '../../src/web/parts/saved.tsx';
import { job, startSending } from '../../src/web/state/job.ts';
import { startPhotoSending } from '../../src/web/state/photos.ts';
import '../../src/web/state/theme.ts';
import '../../src/web/style/base.css';
import '../../src/web/style/controls.css';
import '../../src/web/style/theme.css';

function Page() {
  return h(
    'main',
    null,
    h(Saved, null),
    h(Refused, null),
    h(PhotoTake, { step: 'cover', about: 'Where the wire ran' }),
    h(PhotoStrip, { photos: job.value.bench.photos }),
  );
}

render(h(Page, null), document.body);
startSending();
startPhotoSending();
