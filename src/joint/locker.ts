/**
 * Thread locker by the clock: until when a screw may still be turned, from when it may be handled, from when loaded. An
 * anaerobic locker sets where air is shut out and metal ions are there, so temperature and metal rule its pace; every
 * figure is an interval. The can's own sheet wins. Times in s, temperatures in °C.
 */
import { type Sourced, timesInterval } from './estimate.ts';
import { type May, mayFrom } from './may.ts';
import { requireMeasureOrNought } from './measure.ts';
import { type Interval, type Refusal, refuse, requireWithin } from './require.ts';
import { sayCelsius, sayTimes } from './say.ts';

export type LockerStrength = 'low' | 'medium' | 'high';

/** The slower of the two metals that meet. 'plated' stands for zinc, chromate and anodised skins. */
export type Surface = 'steel' | 'aluminium' | 'stainless' | 'plated';

export interface LockerCase {
  /** Of the parts, °C, from −60 to 400. */
  readonly temperature: number;
  readonly surface: Surface;
  readonly primer?: boolean;
  /** Threads clean, dry and free of oil on both sides; true when not given. */
  readonly clean?: boolean;
}

/** Room temperature of the published times, °C. */
export const ROOM = 22;
/** Temperature under which setting cannot be counted on, °C: from memory. */
export const LOCKER_COLDEST = 5;
/** Service limits of an anaerobic locker, °C: US Army TM 10-3930-643-20. */
export const LOCKER_SERVICE: Interval = { low: -54, high: 149 };
/** Local heat that lets high strength go, °C: from memory. */
export const LOCKER_UNDO_HEAT: Interval = { low: 230, high: 315 };

const HANDLING_AT_ROOM: Interval = { low: 10 * 60, high: 30 * 60 };
const FULL_AT_ROOM = 24 * 3600;
const FULL_AT_120 = 30 * 60;

/** Where the figures of this file come from. */
export const LOCKER_SOURCES = {
  room: {
    source: 'handling 10–30 min, full 24 h at room temperature: makers’ sheets in general',
    fromMemory: false,
  },
  heat: { source: 'full in 30 min at 120 °C: makers’ sheets in general', fromMemory: false },
  primer: {
    source: 'stainless and other inactive metals need primer: makers’ sheets in general',
    fromMemory: false,
  },
  cold: { source: 'cold doubles the times or worse', fromMemory: true },
  aluminium: { source: 'aluminium is up to twice as slow as steel', fromMemory: true },
  service: {
    source: 'US Army TM 10-3930-643-20: −54 to 149 °C, clean and dry, wet the last threads',
    fromMemory: false,
  },
  undo: { source: 'high strength lets go at about 230–315 °C', fromMemory: true },
} as const satisfies Record<string, Sourced>;

export interface LockerClock {
  readonly ok: true;
  /** From when the joint may be handled, s; until its low end screws may still be turned. */
  readonly handling: Interval;
  /** From when it bears its full load, s. */
  readonly full: Interval;
  readonly sources: readonly Sourced[];
}

/**
 * How much longer than at room temperature, dimensionless: in the cold double every 12 K at best and every 6 K at
 * worst; in the heat falling evenly (on a log scale) to the published time at 120 °C, at worst only from 40 °C on.
 */
export function lockerPace(temperature: number): Interval {
  requireWithin('temperature', temperature, -60, 400);
  if (temperature <= ROOM)
    return { low: 2 ** ((ROOM - temperature) / 12), high: 2 ** ((ROOM - temperature) / 6) };
  const gain = FULL_AT_ROOM / FULL_AT_120;
  const share = (from: number) => Math.min(1, Math.max(0, (temperature - from) / (120 - from)));
  return { low: gain ** -share(ROOM), high: gain ** -share(40) };
}

/**
 * The clock of an application. Refuses inactive metal without primer, dirty threads, parts too cold to set or beyond
 * the service limit. Throws RangeError for a temperature outside −60 to 400 °C.
 */
export function lockerClock({
  temperature,
  surface,
  primer = false,
  clean = true,
}: LockerCase): LockerClock | Refusal {
  const pace = lockerPace(temperature);
  if (!clean)
    return refuse(
      'The threads are not clean and dry: clean both with solvent and let it dry, or the locker holds nothing.',
    );
  if (temperature < LOCKER_COLDEST)
    return refuse(
      `At ${sayCelsius(temperature)} a locker cannot be counted on to set: warm the parts above ${sayCelsius(LOCKER_COLDEST)} first.`,
    );
  if (temperature > LOCKER_SERVICE.high)
    return refuse(
      `At ${sayCelsius(temperature)} the parts are above the limit of a locker, ${sayCelsius(LOCKER_SERVICE.high)}: let them cool first.`,
    );
  if ((surface === 'stainless' || surface === 'plated') && !primer)
    return refuse(
      `On ${surface === 'stainless' ? 'stainless steel' : 'plated or anodised threads'} a locker may never set without its primer: use the primer that goes with it.`,
    );
  const metal = surface === 'aluminium' && !primer ? { low: 1, high: 2 } : { low: 1, high: 1 };
  const all = timesInterval(pace, metal);
  return {
    ok: true,
    handling: timesInterval(HANDLING_AT_ROOM, all),
    full: timesInterval({ low: FULL_AT_ROOM, high: FULL_AT_ROOM }, all),
    sources: [
      LOCKER_SOURCES.room,
      ...(temperature < ROOM ? [LOCKER_SOURCES.cold] : []),
      ...(temperature > ROOM ? [LOCKER_SOURCES.heat] : []),
      ...(surface === 'aluminium' && !primer ? [LOCKER_SOURCES.aluminium] : []),
      ...(surface === 'stainless' || surface === 'plated' ? [LOCKER_SOURCES.primer] : []),
    ],
  };
}

export interface LockerState {
  readonly phase: 'wet' | 'setting' | 'set' | 'full';
  /** Whether a screw may still be tightened, or turned at all. */
  readonly turn: May;
  /** Whether the part may be moved and work on it go on. */
  readonly handle: May;
  /** Whether the engine may be started and the joint loaded. */
  readonly load: May;
  /** One sentence: what to do now. */
  readonly words: string;
}

const NEVER_AGAIN =
  'never set the torque again: that breaks the bond; a screw that moved comes out, is cleaned and starts anew';

/** What may be done `elapsed` s after the locker went on. Throws RangeError for a time below 0. */
export function lockerAt({ handling, full }: LockerClock, elapsed: number): LockerState {
  requireMeasureOrNought('elapsed', elapsed);
  const handle = mayFrom(handling, elapsed);
  const load = mayFrom(full, elapsed);
  if (handle === 'no')
    return {
      phase: 'wet',
      turn: 'yes',
      handle,
      load,
      words: `Finish all stages and rounds now: it starts to set ${sayTimes({ low: handling.low, high: handling.low })} after it went on.`,
    };
  if (handle === 'perhaps')
    return {
      phase: 'setting',
      turn: 'no',
      handle,
      load,
      words: `It is setting: leave it alone, and ${NEVER_AGAIN}.`,
    };
  if (load !== 'yes')
    return {
      phase: 'set',
      turn: 'no',
      handle,
      load,
      words: `It may be handled, not loaded: full strength comes ${sayTimes(full)} after it went on; ${NEVER_AGAIN}.`,
    };
  return { phase: 'full', turn: 'no', handle, load, words: `It bears its full load; ${NEVER_AGAIN}.` };
}

/** What to mind when laying it on, one sentence each. */
export function lockerAdvice(
  strength: LockerStrength,
  blindHole: boolean,
  nearMagnetOrSeal: boolean,
): readonly string[] {
  return [
    'Clean and dry both threads first, and never add oil.',
    blindHole
      ? 'In a blind hole wet the bottom two or three threads of the hole: on the screw alone the trapped air pushes it out. No puddle: it cannot be pressed.'
      : 'Wet the threads that will be engaged, all round.',
    ...(strength === 'high'
      ? [
          `High strength comes apart only with local heat of about ${LOCKER_UNDO_HEAT.low}–${LOCKER_UNDO_HEAT.high} °C (from memory)${nearMagnetOrSeal ? ', and here a magnet or a seal is near: take a weaker one unless the book says high' : ''}.`,
        ]
      : []),
  ];
}
