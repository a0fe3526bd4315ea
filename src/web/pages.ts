/** The code of the pages, each fetched by who opens it: the first one does not wait for the others. */
import { afterFirstScreen } from './first-screen.ts';
import type { MachinePart, Place, Route } from './route.ts';

export const PAGES = {
  complaint: () => import('./stations/complaint.tsx'),
  readings: () => import('./stations/readings.tsx'),
  readingsWork: () => import('./parts/readings-work.tsx'),
  verdict: () => import('./stations/verdict.tsx'),
  odds: () => import('./stations/odds.tsx'),
  way: () => import('./stations/way.tsx'),
  wayWork: () => import('./parts/way-work.tsx'),
  clocks: () => import('./parts/bench-clocks.tsx'),
  bench: () => import('./stations/bench.tsx'),
  proof: () => import('./stations/proof.tsx'),
  handover: () => import('./stations/handover.tsx'),
  record: () => import('./stations/record.tsx'),
  paper: () => import('./parts/job-paper.tsx'),
  sums: () => import('./stations/sums.tsx'),
  devices: () => import('./stations/devices.tsx'),
  machines: () => import('./stations/machines.tsx'),
  machine: () => import('./stations/machine.tsx'),
  begin: () => import('./stations/begin.tsx'),
  ride: () => import('./stations/ride.tsx'),
};

/** The pages of a job. */
export const STATION_PAGES: Readonly<Record<Place, () => Promise<unknown>>> = {
  complaint: PAGES.complaint,
  readings: PAGES.readings,
  verdict: PAGES.verdict,
  odds: PAGES.odds,
  way: PAGES.way,
  bench: PAGES.bench,
  proof: PAGES.proof,
  handover: PAGES.handover,
  record: PAGES.record,
  owner: PAGES.record,
};

/** What these pages show below what is read first. */
export const BELOW_PAGES: Readonly<Partial<Record<Place, () => Promise<unknown>>>> = {
  readings: PAGES.readingsWork,
  way: PAGES.wayWork,
  record: PAGES.paper,
  owner: PAGES.paper,
};

/** Pages of a machine file that most never open: each is fetched when it is. */
export const FILE_PAGES = {
  compare: () => import('./parts/machine-compare.tsx'),
  sharpen: () => import('./parts/machine-sharpen.tsx'),
  estimate: () => import('./parts/machine-estimate.tsx'),
  learned: () => import('./parts/machine-learned.tsx'),
  sheet: () => import('./parts/machine-sheet.tsx'),
  share: () => import('./parts/machine-share.tsx'),
  parts: () => import('./parts/strip-editor.tsx'),
};

function filePage(part: MachinePart | null): readonly (() => Promise<unknown>)[] {
  const pages: Partial<Record<MachinePart, () => Promise<unknown>>> = FILE_PAGES;
  const own = part === null ? undefined : pages[part];
  return own ? [own] : [];
}

/** Code that was fetched, by what fetches it: a page that is opened again is there at once. */
export const fetched = new WeakMap<() => Promise<unknown>, { readonly is: unknown }>();

/** Asks for the code of a page, so that it may be there when the page is drawn; for what comes after it once that stands. */
export function fetchPage(here: Route): void {
  void fetchAll(openersOf(here));
  afterFirstScreen(() => void fetchAll(laterOf(here)));
}

function ask(open: () => Promise<unknown>): Promise<unknown> {
  return open().then(
    (is) => fetched.set(open, { is }),
    () => undefined,
  );
}

/** Settles once each has come or cannot be had. */
export async function fetchAll(opens: readonly (() => Promise<unknown>)[]): Promise<void> {
  await Promise.all(opens.map(ask));
}

/** What a page of a job needs below what is read first, and beside it. */
function laterOf(here: Route): readonly (() => Promise<unknown>)[] {
  if (here.at !== 'job') return [];
  const below = BELOW_PAGES[here.station];
  return below ? [below, PAGES.clocks] : [PAGES.clocks];
}

function openersOf(here: Route): readonly (() => Promise<unknown>)[] {
  switch (here.at) {
    case 'job':
      return [STATION_PAGES[here.station]];
    case 'machines':
      return [PAGES.machines];
    case 'machine':
      // With what the page stands in: fetched after it, it would push the rest of the page down.
      return [PAGES.machine, ...filePage(here.part)];
    case 'begin':
      return [PAGES.begin];
    case 'ride':
      return [PAGES.ride];
    case 'devices':
    case 'pair':
    case 'self-test':
      return [PAGES.devices];
    case 'sums':
    case 'sum':
      return [PAGES.sums];
    case 'jobs':
    case 'new':
    case 'nowhere':
      return [];
  }
}
