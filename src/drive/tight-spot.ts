/**
 * Readings of slack at several places of the chain: the tight spot, how uneven the turn is, whether a whole turn is
 * covered, and which reading fits so badly between its neighbours that it wants taking again. No reading is ever
 * dropped: the odd one out may be the tight spot itself.
 */
import { type Cover, coverOf, type Loop, requireLoop } from './cover.ts';
import { printLength } from './print-length.ts';
import { requireNotNegative } from './require.ts';

export interface SlackReading {
  /** Slack, whole up-plus-down movement, m, from 0. */
  readonly slack: number;
  /** Pitches of chain pulled past since the first reading; left out when nobody counted. */
  readonly turned?: number;
}

/** A reading that wants taking again. */
export interface OddReading {
  /** Place in the list as given. */
  readonly index: number;
  /** What its neighbours lead one to expect, m. */
  readonly expected: number;
  readonly why: string;
}

export interface SlackSurvey {
  /** Place in the list of the tightest and of the loosest reading. */
  readonly tightest: number;
  readonly loosest: number;
  /** Least and most slack read, m. */
  readonly least: number;
  readonly most: number;
  /** Mean of all readings, m: for comparing evenings, never for setting. */
  readonly mean: number;
  /** How far the turn is covered; null when the places are not known or the drive is not. */
  readonly cover: Cover | null;
  /**
   * How much tighter than the tightest reading the chain may be somewhere between readings, m: an estimate from the
   * swing that was seen; null when the places are not known.
   */
  readonly mayBeTighter: number | null;
  readonly odd: readonly OddReading[];
  /** What to do before trusting this, one sentence each; empty when nothing stands in the way. */
  readonly says: readonly string[];
}

/** Least distance from the neighbours' line that counts as odd, m: twice a ruler's half millimetre, both sides. */
const LEAST_ODD = 0.002;

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** Over so many robust deviations (1.4826 × the median one) of the others, and over 2 mm. */
function isOdd(far: number, others: readonly number[], deviations: number): boolean {
  return others.length >= 2 && far > LEAST_ODD && far > deviations * 1.4826 * median(others);
}

function odd(index: number, slack: number, expected: number, whose: string): OddReading {
  const off = printLength(Math.abs(slack - expected));
  const why =
    `Reading ${index + 1}, ${printLength(slack)}, is ${off} off what ${whose} show; take it again at the same place. ` +
    'If it comes again, look there for a stiff or bent link.';
  return { index, expected, why };
}

/**
 * Readings far off the straight line between their neighbours, and farther off than either. For places close enough
 * that a sprocket's swing is nearly straight between them; 3.5 deviations (Iglewicz & Hoaglin 1993, from memory). The
 * first and the last are not judged: once round the chain the sprockets stand otherwise than at the start, so those
 * two are no neighbours.
 */
function oddAmongNeighbours(readings: readonly SlackReading[]): readonly OddReading[] {
  const row = readings
    .map(({ slack, turned }, index) => ({ slack, at: turned!, index }))
    .sort((a, b) => a.at - b.at);
  const inner = row.slice(1, -1).map((reading, i) => {
    const [one, two] = [row[i]!, row[i + 2]!];
    const share = two.at > one.at ? (reading.at - one.at) / (two.at - one.at) : 0.5;
    const expected = one.slack + (two.slack - one.slack) * share;
    return { ...reading, expected, off: Math.abs(reading.slack - expected) };
  });
  return inner
    .filter(({ off }, i) => {
      // A reading also spoils what its neighbours are held against: the scale comes from the others alone.
      const others = inner.filter((_, n) => Math.abs(n - i) > 1).map((other) => other.off);
      return off >= (inner[i - 1]?.off ?? 0) && off >= (inner[i + 1]?.off ?? 0) && isOdd(off, others, 3.5);
    })
    .map(({ index, slack, expected }) => odd(index, slack, expected, 'its neighbours'));
}

/**
 * Readings far off the middle of all: for places too far apart, or not known. Five deviations, since here the swing
 * of a sprocket counts as scatter and few readings tell it badly (3.5 called one sound turn of eight readings in
 * eight odd).
 */
function oddAmongAll(readings: readonly SlackReading[]): readonly OddReading[] {
  const middle = median(readings.map(({ slack }) => slack));
  const off = readings.map(({ slack }) => Math.abs(slack - middle));
  return readings.flatMap(({ slack }, i) =>
    isOdd(off[i]!, off, 5) ? [odd(i, slack, middle, 'the others')] : [],
  );
}

function coverSays(cover: Cover, loop: Loop, mayBeTighter: number): readonly string[] {
  const says: string[] = [];
  if (!cover.loop)
    says.push(
      `The readings cover ${Math.min(loop.links, Math.round(cover.turned + cover.step))} of ${loop.links} pitches: turn the chain on until it has been round once.`,
    );
  // More than a ruler can tell.
  if (!cover.stepFineEnough && mayBeTighter > 0.0005)
    says.push(
      `The readings are up to ${Number(cover.step.toFixed(1))} pitches apart: the chain may be some ${printLength(mayBeTighter)} tighter in between. Read every ${cover.stepNeeded} pitches near the tight spot.`,
    );
  if (cover.loop && !cover.pattern)
    says.push(
      `The same teeth meet the same links only every ${cover.repeat.pitches} pitches (${cover.repeat.loops} times round): if the turn is uneven, go round again.`,
    );
  return says;
}

/**
 * Surveys readings of slack. `loop` may be left out when the links are not known; then nothing is said of cover.
 * Throws RangeError for no readings, a slack or place below 0, or a loop that cannot be.
 */
export function surveySlack(readings: readonly SlackReading[], loop?: Loop): SlackSurvey {
  if (readings.length === 0) throw new RangeError('readings must hold at least 1 reading, got 0');
  readings.forEach(({ slack, turned }, i) => {
    requireNotNegative(`readings[${i}].slack`, slack);
    if (turned !== undefined) requireNotNegative(`readings[${i}].turned`, turned);
  });
  if (loop) requireLoop(loop);
  const slacks = readings.map(({ slack }) => slack);
  const least = Math.min(...slacks);
  const most = Math.max(...slacks);
  const known = readings.every(({ turned }) => turned !== undefined);
  const cover =
    loop && known && readings.length >= 2
      ? coverOf(
          readings.map(({ turned }) => turned!),
          loop,
        )
      : null;
  const mayBeTighter = cover && Math.min(least, ((most - least) / 2) * cover.mayMiss);
  const close = cover && loop && cover.step <= Math.min(...loop.teeth) / 4;
  const oddOnes = readings.length < 5 ? [] : close ? oddAmongNeighbours(readings) : oddAmongAll(readings);
  const says: string[] = oddOnes.map(({ why }) => why);
  if (least === 0)
    says.push('The chain is taut at its tightest: loosen it before the engine is turned under power.');
  if (readings.length === 1)
    says.push('One reading is not a turn: read the slack at several places, once round the chain.');
  else if (!known)
    says.push(
      'Where the readings were taken is not recorded, so whether they cover a whole turn is not known: count the pitches between them.',
    );
  else if (!loop)
    says.push('Teeth and links are not recorded, so whether the readings cover a whole turn is not known.');
  if (cover && loop) says.push(...coverSays(cover, loop, mayBeTighter ?? 0));
  return {
    tightest: slacks.indexOf(least),
    loosest: slacks.indexOf(most),
    least,
    most,
    mean: slacks.reduce((sum, slack) => sum + slack, 0) / slacks.length,
    cover,
    mayBeTighter,
    odd: oddOnes,
    says,
  };
}
