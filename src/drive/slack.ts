/**
 * Slack: the whole up-plus-down movement at mid-span of one strand with the other strand taut. Pulled by a finger the
 * strand is a V, so a loop that is `excess` longer than taut moves s/2 each way with
 *
 *   e = s²/(2a)   (a: free span)
 *
 * the first term of √(a² + s²) − a; too long by s²/4a² of itself: 0.1 % at 22 mm on 330 mm, 1.5 % at the limit of a
 * quarter of the span. All lengths in metres.
 */
import { bisect } from './bisect.ts';
import { type Drive, freeSpan, leastCentre, requireDrive, tangentLength } from './chain.ts';
import { printLength } from './print-length.ts';
import {
  type Interval,
  type Refusal,
  refuse,
  requireNotNegative,
  requirePositive,
  requireWhole,
} from './require.ts';

/** Largest slack the formulas are used for, as a share of the span, dimensionless. */
export const MOST_SLACK_SHARE = 0.25;

/** Throws RangeError for a slack outside 0 to a quarter of the span. */
export function requireSlack(name: string, slack: number, span: number): void {
  requirePositive('span', span);
  requireNotNegative(name, slack);
  if (slack > span * MOST_SLACK_SHARE)
    throw new RangeError(`${name} must be at most a quarter of the span, ${span * 0.25} m, got ${slack}`);
}

/** Loop excess that a slack comes from, m: e = s²/(2a). Slack from 0 to a quarter of the span, else RangeError. */
export function excessFromSlack(slack: number, span: number): number {
  requireSlack('slack', slack, span);
  return excessOf(slack, span);
}

/**
 * Slack that a loop excess gives, m: s = √(2ae); past a quarter of the span (e > a/32) the true slack is a little
 * more. Excess from 0, span above 0, else RangeError.
 */
export function slackFromExcess(excess: number, span: number): number {
  requirePositive('span', span);
  requireNotNegative('excess', excess);
  return Math.sqrt(2 * span * excess);
}

/** Span on which an excess shows as a slack, m: a = s²/(2e). Both above 0, else RangeError. */
export function spanFromSlack(slack: number, excess: number): number {
  requirePositive('slack', slack);
  requirePositive('excess', excess);
  return (slack * slack) / (2 * excess);
}

/** Slack of a chain of known links on a drive without a tensioner; refuses a chain that does not go on. */
export function slackOfChain(
  drive: Drive,
  links: number,
): { readonly ok: true; readonly excess: number; readonly slack: number } | Refusal {
  requireWhole('links', links, 1, 10_000);
  const excess = (links - tangentLength(drive)) * drive.pitch;
  if (excess < 0)
    return refuse(
      `A chain of ${links} pitches is ${printLength(-excess)} too short for this centre distance; use a longer chain or bring the sprockets nearer.`,
    );
  const slack = slackFromExcess(excess, freeSpan(drive));
  return tooSlack(slack, freeSpan(drive)) ?? { ok: true, excess, slack };
}

function tooSlack(slack: number, span: number): Refusal | null {
  if (slack <= span * MOST_SLACK_SHARE) return null;
  return refuse(
    `The chain would hang by over a quarter of its free span of ${printLength(span)}, with a loop ${printLength(excessOf(slack, span))} too long; take out links or use a tensioner.`,
  );
}

function excessOf(slack: number, span: number): number {
  return (slack * slack) / (2 * span);
}

/** Loop length of the chain on a drive that shows a slack, m. */
function loop(drive: Drive, slack: number): number {
  return tangentLength(drive) * drive.pitch + excessFromSlack(slack, freeSpan(drive));
}

/**
 * Centre distance that turns the slack of now into the wanted slack, with the same chain; `move` is how far to set
 * the shafts apart (below 0: nearer). Refuses where the sprockets would overlap. Throws RangeError for a drive or
 * slack that cannot be.
 */
export function centreForSlack(
  drive: Drive,
  now: number,
  wanted: number,
): { readonly ok: true; readonly centre: number; readonly move: number } | Refusal {
  requireDrive(drive);
  const span = freeSpan(drive);
  requireSlack('now', now, span);
  requireNotNegative('wanted', wanted);
  const length = loop(drive, now);
  // The wanted slack may sit on a span a little shorter or longer than this one.
  const rising = (centre: number) => {
    const at = { ...drive, centre };
    return tangentLength(at) * drive.pitch + excessOf(wanted, freeSpan(at)) - length;
  };
  const low = Math.max(leastCentre(drive.pitch, drive.teeth) * (1 + 1e-12), drive.centre - span / 4);
  if (wanted > span * MOST_SLACK_SHARE || rising(low) > 0)
    return refuse(
      `A slack of ${printLength(wanted)} is out of reach: it is over a quarter of the free span of ${printLength(span)}, or the sprockets would meet. Check the wanted slack.`,
    );
  const centre = bisect(rising, low, drive.centre + span / 4);
  return { ok: true, centre, move: centre - drive.centre };
}

/**
 * Slack after the centre distance is set to another, with the same chain. Inverse of `centreForSlack`. Refuses a
 * centre distance that the chain does not reach.
 */
export function slackAtCentre(
  drive: Drive,
  now: number,
  centre: number,
): { readonly ok: true; readonly slack: number } | Refusal {
  const moved = { ...drive, centre };
  requireDrive(moved);
  const excess = loop(drive, now) - tangentLength(moved) * drive.pitch;
  if (excess < 0)
    return refuse(
      `At ${printLength(centre)} the chain is ${printLength(-excess)} too short: it goes taut before. Set the shafts less far apart.`,
    );
  const slack = slackFromExcess(excess, freeSpan(moved));
  return tooSlack(slack, freeSpan(moved)) ?? { ok: true, slack };
}

/**
 * Slack at the tightest and loosest place of a turn, m, when the sprockets run out by ± the given eccentricities
 * (half the total indicator reading each). Each shifts its shaft's effective place and so takes or gives twice its
 * eccentricity of loop; worst phases together. Taut is 0. Throws RangeError for input below 0.
 */
export function slackSwing(slack: number, span: number, eccentricities: readonly number[]): Interval {
  eccentricities.forEach((each, i) => {
    requireNotNegative(`eccentricities[${i}]`, each);
  });
  const excess = excessFromSlack(slack, span);
  const shift = 2 * eccentricities.reduce((sum, each) => sum + each, 0);
  return {
    low: slackFromExcess(Math.max(0, excess - shift), span),
    high: slackFromExcess(excess + shift, span),
  };
}

/**
 * Eccentricity (of both sprockets together) that explains a swing of slack, m: ε = (s²max − s²min)/(8a). Inverse of
 * `slackSwing` while nothing goes taut. An estimate: a chain worn unevenly swings the slack as well.
 */
export function eccentricityFromSwing(swing: Interval, span: number): number {
  requireSlack('swing.low', swing.low, span);
  requireSlack('swing.high', swing.high, span);
  if (swing.low > swing.high)
    throw new RangeError(`swing.low must not be above swing.high, got ${swing.low} and ${swing.high}`);
  return (excessFromSlack(swing.high, span) - excessFromSlack(swing.low, span)) / 4;
}
