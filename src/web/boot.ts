/**
 * The first script, small enough to come in one piece: it looks at the address and asks at once for all that this page will
 * need, its code and its data, so that none of it waits for another.
 */
import './style/fonts.css';
import './style/theme.css';
import './style/base.css';
import './style/controls.css';
import './style/job.css';
import './style/readings.css';
import './style/verdict.css';
import './style/print.css';
// The pages' own, with what all share: on a slow line one file comes sooner than six, however small they are.
import './style/clocks.css';
import './style/bench.css';
import './style/way.css';
import './style/proof.css';
import './style/handover.css';
import './style/paper.css';
import './style/photos.css';
import './style/sums.css';
import './style/machines.css';
import './style/ride.css';
import './style/devices.css';
import { readSetting } from './browser.ts';
import { askEarly, jobPath } from './early.ts';
import { fetchPage } from './pages.ts';
import { type Route, readRoute } from './route.ts';

/** What a page asks the laptop for first. */
function questionsOf(here: Route): readonly string[] {
  switch (here.at) {
    case 'jobs':
      return ['/api/jobs'];
    case 'new':
    case 'machines':
      return ['/api/machines'];
    case 'machine':
      // With the list: it says whether the file is one that was shipped.
      return [`/api/machines/${encodeURIComponent(here.machine)}`, '/api/machines'];
    case 'ride':
      return [`/api/machines/${encodeURIComponent(here.machine)}/read`];
    case 'job': {
      const machine = jobPath(here.job, 'machine');
      // A browser that was here before keeps the entries and asks only for what is new.
      return readSetting('device') === null ? [jobPath(here.job, '?since=0'), machine] : [machine];
    }
    default:
      return [];
  }
}

const here = readRoute(location.hash);
for (const path of questionsOf(here)) askEarly(path);
void import('./main.tsx');
fetchPage(here);
// Its letters come with the file and not after it: they are wider than those that stand in for them.
if (here.at === 'machine' && here.part === 'text')
  void document.fonts.load('1rem "B612 Mono"').catch(() => undefined);
