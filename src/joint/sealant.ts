/**
 * Silicone sealant that cures by the moisture of the air, by the clock: close the joint before it skins, fill when it
 * is cured through, load it fully after days. The tube's own sheet wins. Times in s, temperatures in °C, depths in m.
 */
import type { Sourced } from './estimate.ts';
import { type May, mayFrom } from './may.ts';
import { requireMeasure, requireMeasureOrNought } from './measure.ts';
import { type Interval, type Refusal, refuse, requireWithin } from './require.ts';
import { sayCelsius, sayTime, sayTimes } from './say.ts';

export interface SealantCase {
  /** °C, from −60 to 100. */
  readonly temperature: number;
  /** Relative humidity, 0–1. */
  readonly humidity: number;
  /** Deepest sealant from the nearest face in the open air, m: half the flange where both sides are open. */
  readonly depth: number;
  readonly cure: 'neutral' | 'acid';
  /** Copper, a stator or electronics in the same space. */
  readonly nearElectrics?: boolean;
  readonly touchesFuel?: boolean;
  /** A gasket the book wants dry. */
  readonly dryGasket?: boolean;
  /** Faces free of grease and old sealant; true when not given. */
  readonly clean?: boolean;
}

const DAY = 86_400;
const MINUTE = 60;

/** Temperature under which it hardly cures, °C: from memory. */
export const SEALANT_COLDEST = 5;
/** How far it cures from an open face in a day, m: from memory. */
export const CURE_A_DAY: Interval = { low: 0.002, high: 0.003 };

export const SEALANT_SOURCES = {
  skin: {
    source: 'US Army TM 9-2320-302-20: skins in 15–30 min by temperature and humidity',
    fromMemory: false,
  },
  acid: { source: 'MIL-A-46106B: acid cure attacks copper and electronics', fromMemory: false },
  depth: { source: '2–3 mm a day from an open face, 1–7 days to full strength', fromMemory: true },
  weather: { source: 'cold and dry air slow it, warm and damp air hurry it', fromMemory: true },
} as const satisfies Record<string, Sourced>;

export interface SealantClock {
  readonly ok: true;
  /** When it skins, s; the joint is closed before the low end. */
  readonly skin: Interval;
  /** When it is cured through to its depth, s. */
  readonly through: Interval;
  /** When it has its full strength, s. */
  readonly full: Interval;
  readonly sources: readonly Sourced[];
}

/** How much the weather stretches the times, dimensionless; 1 to 1 between 15 and 30 °C at 30 to 70 % humidity. */
function weather(temperature: number, humidity: number): Interval {
  const cold = 2 ** (Math.max(0, 15 - temperature) / 10);
  const warm = 2 ** (Math.max(0, temperature - 30) / 10);
  return { low: (humidity > 0.7 ? 0.7 : 1) / warm, high: (humidity < 0.3 ? 2 : 1) * cold };
}

/**
 * The clock of a bead. Refuses it where it does not belong: acid cure near electrics, fuel, a gasket the book wants
 * dry, greasy faces, parts too cold. Throws RangeError for figures out of range.
 */
export function sealantClock(bead: SealantCase): SealantClock | Refusal {
  const { temperature, humidity, depth, cure } = bead;
  requireWithin('temperature', temperature, -60, 100);
  requireWithin('humidity', humidity, 0, 1);
  requireMeasure('depth', depth);
  if (bead.dryGasket)
    return refuse('The book wants this gasket dry: no sealant on it, it would creep and squeeze out.');
  if (bead.touchesFuel) return refuse('This sealant does not stand fuel: use one made for fuel here.');
  if (cure === 'acid' && bead.nearElectrics)
    return refuse(
      'Acid-cure sealant (it smells of vinegar) attacks copper and electronics: use a neutral-cure one near the stator.',
    );
  if (bead.clean === false)
    return refuse(
      'The faces are not clean and free of grease: scrape off the old sealant and wipe with solvent first.',
    );
  if (temperature < SEALANT_COLDEST)
    return refuse(
      `At ${sayCelsius(temperature)} it hardly cures: warm the parts above ${sayCelsius(SEALANT_COLDEST)} first.`,
    );
  const stretch = weather(temperature, humidity);
  const through = {
    low: (depth / CURE_A_DAY.high) * DAY * stretch.low,
    high: (depth / CURE_A_DAY.low) * DAY * stretch.high,
  };
  const skin = { low: 15 * MINUTE * stretch.low, high: 30 * MINUTE * stretch.high };
  return {
    ok: true,
    skin,
    // A thin film is not cured before it has skinned.
    through: { low: Math.max(skin.low, through.low), high: Math.max(skin.high, through.high) },
    full: {
      low: Math.max(DAY * stretch.low, through.low),
      high: Math.max(7 * DAY * stretch.high, through.high),
    },
    sources: [
      SEALANT_SOURCES.skin,
      SEALANT_SOURCES.depth,
      ...(stretch.low === 1 && stretch.high === 1 ? [] : [SEALANT_SOURCES.weather]),
      ...(bead.nearElectrics ? [SEALANT_SOURCES.acid] : []),
    ],
  };
}

export interface SealantState {
  readonly phase: 'open' | 'skinning' | 'curing' | 'through' | 'full';
  /** Whether the joint may still be closed on this bead. */
  readonly close: May;
  /** Whether oil may be filled in. */
  readonly fill: May;
  /** Whether it bears heat and pressure. */
  readonly load: May;
  /** One sentence: what to do now. */
  readonly words: string;
}

/** What may be done `elapsed` s after the bead was laid. Throws RangeError for a time below 0. */
export function sealantAt({ skin, through, full }: SealantClock, elapsed: number): SealantState {
  requireMeasureOrNought('elapsed', elapsed);
  const fill = mayFrom(through, elapsed);
  const load = mayFrom(full, elapsed);
  if (elapsed < skin.low)
    return {
      phase: 'open',
      close: 'yes',
      fill,
      load,
      words: `Close the joint now: it may skin ${sayTime(skin.low)} after it was laid.`,
    };
  if (elapsed < skin.high && fill !== 'yes')
    return {
      phase: 'skinning',
      close: 'no',
      fill,
      load,
      words:
        'It is skinning: leave a closed joint alone; on an open one scrape the bead off and lay a new one.',
    };
  if (fill !== 'yes')
    return {
      phase: 'curing',
      close: 'no',
      fill,
      load,
      words: `It has skinned and is soft inside: no oil yet, it is cured through ${sayTimes(through)} after it was laid.`,
    };
  if (load !== 'yes')
    return {
      phase: 'through',
      close: 'no',
      fill,
      load,
      words: `It is cured through and may be filled; full strength comes ${sayTimes(full)} after it was laid.`,
    };
  return { phase: 'full', close: 'no', fill, load, words: 'It has its full strength.' };
}
