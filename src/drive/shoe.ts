/**
 * A tensioner shoe (or the adjuster that carries it) that pushes one strand out of line and so takes up loop excess;
 * slack is felt on the other strand. Pushed out by h at a distance u from one end of the span a the strand takes
 *
 *   h²/(2u) + h²/(2(a − u)), at mid-span 2h²/a
 *
 * more chain than straight: first terms of the two slanted lengths, 2 % high at h = a/7 (3.3 % at a third of the span). A shoe of some length takes
 * a little less than this knife-edge; the last setting is by measuring, not by sums. All lengths in metres.
 */
import { printLength } from './print-length.ts';
import { type Refusal, refuse, requireNotNegative, requirePositive } from './require.ts';
import { excessFromSlack, requireSlack, slackFromExcess } from './slack.ts';

export interface Shoe {
  /** How far the shoe holds its strand out of line now, m, from 0. */
  readonly offset: number;
  /** Free span of the strand, m. */
  readonly span: number;
  /** Where along the span the shoe pushes, m from one end; mid-span when not given. */
  readonly at?: number;
  /** Travel left before the adjuster ends, m. */
  readonly left?: number;
}

export interface ShoeMove {
  readonly ok: true;
  /** Travel of the shoe, m; below 0 it backs off. */
  readonly travel: number;
  /** Offset after it, m. */
  readonly offset: number;
}

/** Twice the harmonic share of the two parts of the span, m: excess = h²·2/this. */
function halfParts({ span, at }: Shoe): number {
  const u = at ?? span / 2;
  return (4 * u * (span - u)) / span;
}

function requireShoe(shoe: Shoe): void {
  requirePositive('shoe.span', shoe.span);
  requireNotNegative('shoe.offset', shoe.offset);
  if (shoe.offset > shoe.span / 4)
    throw new RangeError(
      `shoe.offset must be at most a quarter of the span, ${shoe.span / 4} m, got ${shoe.offset}`,
    );
  if (shoe.at !== undefined && !(shoe.at > 0 && shoe.at < shoe.span))
    throw new RangeError(`shoe.at must be inside the span, 0 to ${shoe.span} m, got ${shoe.at}`);
  if (shoe.left !== undefined) requireNotNegative('shoe.left', shoe.left);
}

/** Loop excess that the shoe takes up where it stands, m. */
export function excessHeld(shoe: Shoe): number {
  requireShoe(shoe);
  return (2 * shoe.offset * shoe.offset) / halfParts(shoe);
}

/**
 * Travel of the shoe that turns the slack of now into the wanted slack: √(h0² + a·Δe/2) − h0 at mid-span. Refuses a
 * travel that the adjuster has not left, or that would need the shoe behind the straight chain. Throws RangeError for
 * a shoe or slack that cannot be.
 */
export function shoeTravel(shoe: Shoe, now: number, wanted: number): ShoeMove | Refusal {
  requireShoe(shoe);
  requireSlack('now', now, shoe.span);
  requireSlack('wanted', wanted, shoe.span);
  const change = excessFromSlack(now, shoe.span) - excessFromSlack(wanted, shoe.span);
  const square = shoe.offset * shoe.offset + (change * halfParts(shoe)) / 2;
  if (square < 0) {
    const most = slackFromExcess(excessFromSlack(now, shoe.span) + excessHeld(shoe), shoe.span);
    return refuse(
      `Backing the shoe off all the way gives ${printLength(most)} of slack, not ${printLength(wanted)}: the chain is too short for more. Check the wanted slack and the number of links.`,
    );
  }
  const offset = Math.sqrt(square);
  const travel = offset - shoe.offset;
  if (shoe.left !== undefined && travel > shoe.left)
    return refuse(
      `The shoe would have to travel ${printLength(travel)} and has ${printLength(shoe.left)} left: measure the chain and the shoe for wear.`,
    );
  return { ok: true, travel, offset };
}

/**
 * Slack after the shoe travels by `travel` (below 0: backs off). Inverse of `shoeTravel`. Refuses a travel past the
 * point where the chain is taut, or behind the straight chain.
 */
export function slackAfterTravel(
  shoe: Shoe,
  now: number,
  travel: number,
): { readonly ok: true; readonly slack: number } | Refusal {
  requireShoe(shoe);
  requireSlack('now', now, shoe.span);
  const offset = shoe.offset + travel;
  if (!Number.isFinite(travel)) throw new RangeError(`travel must be a finite number, got ${travel}`);
  if (offset < 0)
    return refuse(
      `The shoe is only ${printLength(shoe.offset)} off the straight chain and cannot back off ${printLength(-travel)}.`,
    );
  const held = (2 * offset * offset) / halfParts(shoe);
  const excess = excessFromSlack(now, shoe.span) + excessHeld(shoe) - held;
  if (excess < 0) {
    const taut = shoeTravel(
      { offset: shoe.offset, span: shoe.span, ...(shoe.at === undefined ? {} : { at: shoe.at }) },
      now,
      0,
    );
    return refuse(
      `The chain is taut after ${printLength(taut.ok ? taut.travel : 0)} of travel; ${printLength(travel)} is too far. Never run a chain taut.`,
    );
  }
  return { ok: true, slack: slackFromExcess(excess, shoe.span) };
}

/**
 * Offset the shoe must have had, m, if a travel changed the slack from one figure to another: for finding h0, which
 * nobody can measure with the cover on; null when no offset at mid-span explains it. Travel above 0 and slack falling,
 * else RangeError.
 */
export function offsetFromTravel(span: number, before: number, after: number, travel: number): number | null {
  requireSlack('before', before, span);
  requireSlack('after', after, span);
  requirePositive('travel', travel);
  if (after >= before) throw new RangeError(`after must be below before, ${before}, got ${after}`);
  const change = excessFromSlack(before, span) - excessFromSlack(after, span);
  // (h0 + t)² − h0² = aΔe/2
  const offset = ((span * change) / 2 - travel * travel) / (2 * travel);
  return offset < 0 ? null : offset;
}
