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

/** Readings in the order of the chain, with their index in the list as given. */
function inOrder(readings: readonly SlackReading[], known: boolean) {
  const all = readings.map(({ slack, turned }, index) => ({ slack, at: known ? turned! : index, index }));
  return known ? all.sort((a, b) => a.at - b.at) : all;
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/**
 * Readings far off the straight line between their neighbours: over 3.5 robust deviations (Iglewicz & Hoaglin 1993,
 * from memory) and over 2 mm, and farther off than either neighbour. Needs five readings.
 */
function oddOnes(readings: readonly SlackReading[], known: boolean): readonly OddReading[] {
  const row = inOrder(readings, known);
  if (row.length < 5) return [];
  const expected = row.map((_, i) => {
    // The ends of the row lean on their two nearest.
    const [a, b] = i === 0 ? [1, 2] : i === row.length - 1 ? [i - 1, i - 2] : [i - 1, i + 1];
    const [one, two] = [row[a]!, row[b]!];
    if (i === 0 || i === row.length - 1 || two.at === one.at) return (one.slack + two.slack) / 2;
    return one.slack + ((two.slack - one.slack) * (row[i]!.at - one.at)) / (two.at - one.at);
  });
  const off = row.map(({ slack }, i) => Math.abs(slack - expected[i]!));
  const scale = 1.4826 * median(off);
  return row.flatMap(({ slack, index }, i) => {
    const far = off[i]!;
    if (far <= Math.max(LEAST_ODD, 3.5 * scale)) return [];
    if (far < (off[i - 1] ?? 0) || far < (off[i + 1] ?? 0)) return [];
    const why =
      `Reading ${index + 1}, ${printLength(slack)}, is ${printLength(far)} off what its neighbours show; take it again ` +
      'at the same place. If it comes again, look there for a stiff or bent link.';
    return [{ index, expected: expected[i]!, why }];
  });
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
  const odd = oddOnes(readings, known);
  const says: string[] = odd.map(({ why }) => why);
  if (least === 0)
    says.push('The chain is taut at its tightest: loosen it before the engine is turned under power.');
  if (readings.length === 1)
    says.push('One reading is not a turn: read the slack at several places, once round the chain.');
  else if (!known)
    says.push(
      'Where the readings were taken is not recorded, so whether they cover a whole turn is not known: count the pitches between them.',
    );
  if (cover && loop) says.push(...coverSays(cover, loop, mayBeTighter ?? 0));
  return {
    tightest: slacks.indexOf(least),
    loosest: slacks.indexOf(most),
    least,
    most,
    mean: slacks.reduce((sum, slack) => sum + slack, 0) / slacks.length,
    cover,
    mayBeTighter,
    odd,
    says,
  };
}
