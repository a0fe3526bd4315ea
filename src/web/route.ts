/**
 * Where the mechanic is, as the part of the address after `#`: it survives a reload and a restart, and it asks
 * nothing of the server.
 */

export type Station = 'complaint' | 'readings' | 'verdict' | 'way' | 'bench' | 'proof' | 'handover';
export const STATIONS: readonly Station[] = [
  'complaint',
  'readings',
  'verdict',
  'way',
  'bench',
  'proof',
  'handover',
];

/** A page of a job: a station, or one that is reached from a station. */
export type Place = Station | 'odds' | 'record' | 'owner';

/** Pages that are reached from a station. */
const BESIDE = ['odds', 'record', 'owner'] as const;

/** The station under which a page is found. */
export function stationOf(place: Place): Station {
  if (place === 'odds') return 'verdict';
  return place === 'record' || place === 'owner' ? 'handover' : place;
}

/** Pages of a machine file: sections of it, and what is done with it as a whole. */
export const MACHINE_PARTS = [
  'about',
  'sources',
  'charging',
  'parts',
  'fasteners',
  'work',
  'chains',
  'shims',
  'fluids',
  'sharpen',
  'estimate',
  'learned',
  'sheet',
  'compare',
  'text',
  'share',
] as const;
export type MachinePart = (typeof MACHINE_PARTS)[number];

/** A page's name as people read it. */
export const PLACE_NAMES: Readonly<Record<Place, string>> = {
  complaint: 'Complaint',
  readings: 'Readings',
  verdict: 'Verdict',
  odds: 'Odds',
  way: 'Way in',
  bench: 'Bench',
  proof: 'Proof',
  handover: 'Handover',
  record: 'Record',
  owner: 'For the owner',
};

export type Route =
  | { readonly at: 'jobs' }
  | { readonly at: 'new' }
  | { readonly at: 'machines' }
  | { readonly at: 'begin' }
  /** `part` null is the file as a whole; `field` the place of the file to be shown first, as the check writes paths. */
  | {
      readonly at: 'machine';
      readonly machine: string;
      readonly part: MachinePart | null;
      readonly field: string | null;
    }
  | { readonly at: 'ride'; readonly machine: string }
  | { readonly at: 'devices' }
  | { readonly at: 'pair'; readonly secret: string }
  | { readonly at: 'self-test' }
  | { readonly at: 'sums' }
  | { readonly at: 'sum'; readonly sum: string }
  | { readonly at: 'job'; readonly job: string; readonly station: Place; readonly take: string | null }
  | { readonly at: 'nowhere'; readonly path: string };

/** Places that can be opened at one thing: a reading to take, a step to do. */
const TAKES: ReadonlySet<Place> = new Set<Place>(['readings', 'bench', 'proof']);

/** Reads `#/job/<id>/readings?take=<key>`. A path that means nothing gives `nowhere`, never an error. */
export function readRoute(hash: string): Route {
  const text = hash.replace(/^#/, '');
  const [path = '', query = ''] = text.split('?', 2);
  let parts: string[];
  try {
    parts = path.split('/').filter(Boolean).map(decodeURIComponent);
  } catch {
    return { at: 'nowhere', path };
  }
  const [first, job, station] = parts;
  if (first === undefined || (first === 'jobs' && parts.length === 1)) return { at: 'jobs' };
  if (first === 'new' && parts.length === 1) return { at: 'new' };
  if (first === 'machines' && parts.length === 1) return { at: 'machines' };
  if (first === 'begin' && parts.length === 1) return { at: 'begin' };
  if (first === 'machines' && job !== undefined && parts.length <= 3) {
    const part = station === undefined ? null : MACHINE_PARTS.find((name) => name === station);
    if (part !== undefined)
      return { at: 'machine', machine: job, part, field: new URLSearchParams(query).get('field') || null };
  }
  if (first === 'ride' && job !== undefined && parts.length === 2) return { at: 'ride', machine: job };
  if ((first === 'devices' || first === 'self-test') && parts.length === 1) return { at: first };
  if (first === 'pair' && job !== undefined && parts.length === 2) return { at: 'pair', secret: job };
  if (first === 'sums' && parts.length === 1) return { at: 'sums' };
  if (first === 'sums' && job !== undefined && parts.length === 2) return { at: 'sum', sum: job };
  if (first === 'job' && job !== undefined && parts.length <= 3) {
    const known = [...STATIONS, ...BESIDE].find((name) => name === (station ?? 'readings'));
    if (known) {
      const take = TAKES.has(known) ? new URLSearchParams(query).get('take') : null;
      return { at: 'job', job, station: known, take: take || null };
    }
  }
  return { at: 'nowhere', path };
}

/** Writes a route as a hash; `readRoute` of it gives the route back. */
export function writeRoute(route: Route): string {
  switch (route.at) {
    case 'jobs':
      return '#/';
    case 'new':
      return '#/new';
    case 'machines':
      return '#/machines';
    case 'machine': {
      const part = route.part === null ? '' : `/${route.part}`;
      const query = route.field === null ? '' : `?field=${encodeURIComponent(route.field)}`;
      return `#/machines/${encodeURIComponent(route.machine)}${part}${query}`;
    }
    case 'ride':
      return `#/ride/${encodeURIComponent(route.machine)}`;
    case 'begin':
    case 'devices':
    case 'self-test':
      return `#/${route.at}`;
    case 'pair':
      return `#/pair/${encodeURIComponent(route.secret)}`;
    case 'sums':
      return '#/sums';
    case 'sum':
      return `#/sums/${encodeURIComponent(route.sum)}`;
    case 'nowhere':
      return `#${route.path}`;
    case 'job': {
      const query = route.take === null ? '' : `?take=${encodeURIComponent(route.take)}`;
      return `#/job/${encodeURIComponent(route.job)}/${route.station}${query}`;
    }
  }
}
