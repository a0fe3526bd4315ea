/**
 * How many links to fit. Inner and outer links alternate, so a chain without a half link (cranked, offset link) has
 * an even number of pitches. A half link is the weak one of its chain, so an even number is taken wherever one fits.
 */
import {
  centreDistance,
  type Drive,
  leastCentre,
  requireDrive,
  requirePitch,
  requireTeeth,
  type Teeth,
  tangentLength,
} from './chain.ts';
import { printLength } from './print-length.ts';
import { type Interval, type Refusal, refuse, requireInterval } from './require.ts';

export interface LengthChoice {
  /** Pitches of chain. */
  readonly links: number;
  /** Whether this number of pitches needs a half link. */
  readonly halfLink: boolean;
  /** Centre distance at which this chain is taut, m. */
  readonly centre: number;
}

export interface CentreWish {
  readonly pitch: number;
  readonly teeth: Teeth;
  /** Centre distances that the adjuster can reach, m. */
  readonly reach: Interval;
  /** Centre distance one would like, m; the middle of the reach when not given. */
  readonly wanted?: number;
  /** Whether a half link may be used. */
  readonly halfLink: boolean;
}

function choice(pitch: number, teeth: Teeth, links: number): LengthChoice | null {
  const solved = centreDistance(pitch, teeth, links);
  return solved.ok ? { links, halfLink: links % 2 !== 0, centre: solved.centre } : null;
}

/**
 * Every chain that fits an adjustable centre distance, best first: even before half link, then nearest to the wanted
 * centre distance. Refuses with the nearest two when none fits. Throws RangeError for input that cannot be.
 */
export function chooseLength(
  wish: CentreWish,
): { readonly ok: true; readonly best: LengthChoice; readonly all: readonly LengthChoice[] } | Refusal {
  const { pitch, teeth, reach, halfLink } = wish;
  requirePitch(pitch);
  requireTeeth(teeth);
  requireInterval('reach', reach);
  requireDrive({ pitch, teeth, centre: reach.low });
  const wanted = wish.wanted ?? (reach.low + reach.high) / 2;
  if (!(wanted >= reach.low && wanted <= reach.high))
    throw new RangeError(`wanted must be within reach, ${reach.low} to ${reach.high}, got ${wanted}`);
  // A hair's tolerance: a reach of one point taken from `centreDistance` must find its own chain again.
  const hair = 1e-9;
  const first = Math.ceil(tangentLength({ pitch, teeth, centre: reach.low }) - hair);
  const last = Math.floor(tangentLength({ pitch, teeth, centre: reach.high }) + hair);
  if (last - first > 1000)
    throw new RangeError(
      `reach must be less than 1000 pitches of chain wide, got ${reach.low} to ${reach.high}`,
    );
  const all: LengthChoice[] = [];
  for (let links = first; links <= last; links++) {
    if (links % 2 !== 0 && !halfLink) continue;
    const fits = choice(pitch, teeth, links);
    if (fits) all.push(fits);
  }
  all.sort(
    (a, b) =>
      Number(a.halfLink) - Number(b.halfLink) ||
      Math.abs(a.centre - wanted) - Math.abs(b.centre - wanted) ||
      a.links - b.links,
  );
  const best = all[0];
  if (best) return { ok: true, best, all };
  const step = halfLink ? 1 : 2;
  const below = step * Math.floor((first - 1) / step);
  const near = [below, below + step]
    .map((links) => choice(pitch, teeth, links))
    .filter((each) => each !== null)
    .map((each) => `${each.links} pitches are taut at ${printLength(each.centre)}`);
  const kind = halfLink ? 'No chain' : 'No chain without a half link';
  return refuse(
    `${kind} is taut within ${printLength(reach.low)} to ${printLength(reach.high)}: ${near.join(', ')}. ` +
      `Move the adjuster's range, change a sprocket${halfLink ? '' : ', or use a half link'}.`,
  );
}

export interface FixedChoice extends LengthChoice {
  /** Chain that is over when the loop lies taut on the sprockets, m: for slack and tensioner. */
  readonly excess: number;
}

/**
 * The shortest chain that goes on at a fixed centre distance, with what is left over. Throws RangeError for a drive
 * that cannot be.
 */
export function lengthForFixedCentre(drive: Drive, halfLink: boolean): FixedChoice {
  const taut = tangentLength(drive);
  const step = halfLink ? 1 : 2;
  const links = step * Math.ceil((taut - 1e-9) / step);
  const solved = choice(drive.pitch, drive.teeth, links);
  // The chain is at least as long as a loop that goes round, so it always has a centre distance.
  const centre = solved?.centre ?? leastCentre(drive.pitch, drive.teeth);
  return { links, halfLink: links % 2 !== 0, centre, excess: Math.max(0, (links - taut) * drive.pitch) };
}
