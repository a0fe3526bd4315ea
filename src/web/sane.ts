/**
 * Whether a value can be at all. What no 12 V motorcycle can show is refused with a sentence and, where one slip
 * explains it, the value that was probably meant; what is only surprising is asked about once and then taken,
 * because a dying bike does surprising things and the verdict weighs misreadings itself.
 *
 * Limits are common practice, no source: wide enough for a runaway regulator and a bare winding at full speed.
 */

import type { Value } from '../reading/key.ts';
import type { Kind } from '../reading/kinds.ts';
import { showValue } from '../reading/say-value.ts';

export type Sanity =
  | { readonly verdict: 'fine' }
  | {
      readonly verdict: 'surprising' | 'impossible';
      readonly why: string;
      /** What was probably meant, in the reading's unit. */
      readonly meant: number | null;
    };

interface Limits {
  /** Outside these it cannot be. */
  readonly can: readonly [number, number];
  /** Outside these it is asked about. */
  readonly usual: readonly [number, number];
  /** Where a mended slip must land to be worth offering; `usual` where it is left out. */
  readonly likely?: readonly [number, number];
  readonly because: string;
}

const AC_KINDS: ReadonlySet<string> = new Set(['stator_ac', 'pin_case_ac', 'plug_drop_ac', 'ripple']);

function limitsOf(kind: Kind): Limits | null {
  switch (kind.unit) {
    case 'V':
      if (AC_KINDS.has(kind.id))
        return { can: [0, 400], usual: [0, 150], because: 'AC volts on a motorcycle lie between 0 and 150' };
      if (/^drop_/.test(kind.id))
        return {
          can: [-60, 60],
          usual: [-2, 8],
          because: 'a drop on a 12 V bike lies between 0 and a few volts',
        };
      if (kind.id === 'diode')
        return { can: [-5, 5], usual: [0, 3], because: 'a diode range shows between 0 and 3 V, or OL' };
      return {
        can: [-60, 60],
        usual: [0, 19],
        likely: [6, 19],
        because: 'a 12 V battery shows between 0 and about 19 V',
      };
    case 'A':
      return { can: [-800, 800], usual: [-80, 80], because: 'this circuit carries less than 80 A' };
    case 'mA':
      return {
        can: [-30000, 30000],
        usual: [0, 5000],
        because: 'a key-off drain is a few milliamps, 5000 at most',
      };
    case 'Ω':
      return { can: [0, 1e9], usual: [0, 1e8], because: 'a resistance cannot be below zero' };
    case 'mV':
      return {
        can: [-60000, 60000],
        usual: [-5000, 5000],
        because: 'this reading is a few thousand mV at most',
      };
    case 'SG':
      return { can: [0.9, 1.5], usual: [1.0, 1.35], because: 'a hydrometer shows between 1.000 and 1.350' };
    case 'min':
      return { can: [0, 10000], usual: [0, 1440], because: 'it takes a time between none and a day' };
    case 'seen':
      return null;
  }
}

/** The one slip of hand that brings the value into the usual range: sign, or a shifted point. */
function oneSlip(value: number, [low, high]: readonly [number, number]): number | null {
  const inside = (candidate: number): boolean => candidate >= low && candidate <= high;
  const slips = [-value, value / 10, value / 100, value / 1000];
  const found = slips.find(inside);
  return found === undefined ? null : Number(found.toPrecision(6));
}

export function checkSane(kind: Kind, value: Value): Sanity {
  const limits = limitsOf(kind);
  if (limits === null || typeof value !== 'number') return { verdict: 'fine' };
  const [low, high] = limits.usual;
  if (value >= low && value <= high) return { verdict: 'fine' };
  const can = value >= limits.can[0] && value <= limits.can[1];
  const said = showValue(value, kind.unit);
  return {
    verdict: can ? 'surprising' : 'impossible',
    why: can
      ? `${said} would be surprising: ${limits.because}.`
      : `${said} cannot be: ${limits.because}. Look at the meter and its range again.`,
    meant: oneSlip(value, limits.likely ?? limits.usual),
  };
}
