/** A chance as a mechanic types it: so many of a hundred bikes. */
import { CHANCE_LIMITS } from '../job/event-rule.ts';

export type ChanceRead =
  | { readonly ok: true; readonly chance: number }
  | { readonly ok: false; readonly why: string };

const LEAST = CHANCE_LIMITS.least * 100;
const MOST = CHANCE_LIMITS.most * 100;

/** Reads `12`, `0.5`, `0,5`, `12 %`, `12 in 100`; within the bounds that an event may carry. */
export function readChance(text: string): ChanceRead {
  const said = text.trim();
  if (said === '') return { ok: false, why: `Nothing is typed yet: a number from ${LEAST} to ${MOST}.` };
  const match = /^(\d+(?:[.,]\d*)?|[.,]\d+)(?: ?%| in 100)?$/.exec(said);
  if (!match)
    return {
      ok: false,
      why: `“${said.slice(0, 20)}” is not a number of bikes in a hundred: type one from ${LEAST} to ${MOST}.`,
    };
  const hundred = Number(match[1]!.replace(',', '.'));
  if (hundred < LEAST)
    return {
      ok: false,
      why: `Under ${LEAST} in 100 no reading could ever bring it back: type ${LEAST} or more.`,
    };
  if (hundred > MOST)
    return {
      ok: false,
      why: `Above ${MOST} in 100 it would be suspected whatever the meter shows: type ${MOST} or less.`,
    };
  return { ok: true, chance: hundred / 100 };
}

/** A chance in hundredths as it was set: `10`, `3.4`, `0.5`. */
export function hundredths(chance: number): string {
  return String(Number((chance * 100).toPrecision(3)));
}

/** A chance in hundredths with no more figures than a guess has: `10`, `3`, `0.5`. */
export function roughly(chance: number): string {
  const hundred = chance * 100;
  return hundred >= 1 ? String(Math.round(hundred)) : String(Number(hundred.toPrecision(1)));
}
