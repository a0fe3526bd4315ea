/**
 * Friction of a screw: the nut factor K of the short formula T = K·d·F, and the two coefficients of the long one
 * (VDI 2230 style: thread and head apart). Both are intervals, and K stands for one condition only.
 */
import { type Interval, type Refusal, refuse, requirePositive, requirePositiveInterval } from './require.ts';
import { pitchDiameter, type Thread } from './thread.ts';

export interface Friction {
  readonly id: string;
  readonly name: string;
  /** Nut factor K, dimensionless. */
  readonly k: Interval;
  /** Friction coefficient of the thread, dimensionless. */
  readonly thread: Interval;
  /** Friction coefficient under the head, dimensionless. */
  readonly head: Interval;
  readonly source: string;
}

type Ends = readonly [low: number, high: number];

function condition(id: string, name: string, k: Ends, thread: Ends, head: Ends, source: string): Friction {
  const interval = ([low, high]: Ends): Interval => ({ low, high });
  return { id, name, k: interval(k), thread: interval(thread), head: interval(head), source };
}

const TABLE = 'K from a published table; coefficients from memory of the friction classes of VDI 2230';
const MEMORY = 'from memory';

export const FRICTIONS: readonly Friction[] = [
  // Widest honest interval for an untold condition; the project's own proposal.
  condition('unknown', 'not known', [0.12, 0.3], [0.08, 0.24], [0.08, 0.24], "the project's own proposal"),
  condition('dry', 'dry plain steel', [0.18, 0.27], [0.14, 0.24], [0.12, 0.24], TABLE),
  condition('oiled', 'machine oil', [0.1, 0.26], [0.08, 0.16], [0.08, 0.16], TABLE),
  condition('zinc', 'zinc plated, dry', [0.17, 0.35], [0.12, 0.28], [0.12, 0.28], TABLE),
  condition('stainless', 'stainless on stainless', [0.3, 0.5], [0.26, 0.5], [0.2, 0.4], TABLE),
  condition(
    'anti-seize',
    'anti-seize paste',
    [0.09, 0.18],
    [0.06, 0.14],
    [0.06, 0.14],
    `${MEMORY}: about 0.12`,
  ),
  condition(
    'wet-locker',
    'wet anaerobic locker',
    [0.12, 0.25],
    [0.08, 0.2],
    [0.08, 0.2],
    `${MEMORY}; sources disagree`,
  ),
];

/** A condition by its id; throws RangeError for one that is not in the list. */
export function frictionById(id: string): Friction {
  const found = FRICTIONS.find((friction) => friction.id === id);
  if (!found)
    throw new RangeError(`id must be one of ${FRICTIONS.map((each) => each.id).join(', ')}, got ${id}`);
  return found;
}

const WORDS: readonly (readonly [RegExp, string])[] = [
  [/anti[ -]?se[ie]z|copper ?(?:paste|grease)/, 'anti-seize'],
  [/lock|anaerobic/, 'wet-locker'],
  [/stainless|inox/, 'stainless'],
  [/\boil|lubricat|\bwet\b|greas/, 'oiled'],
  [/zinc|plated|galvani[sz]ed/, 'zinc'],
  [/\bdry\b|clean|plain|black/, 'dry'],
  [/unknown|not known|not said/, 'unknown'],
];

/** A condition that is named to say that it is not so. */
const LEFT_OUT = /\b(?:no|not|without|non|un)[ -]?(?:thread ?)?(?:lock|oil|lubric|greas|anti[ -]?se)\w*/;

/** Reads a condition in words: "dry", "oiled", "new zinc plated", "blue locker, wet"; refuses what it does not know. */
export function readFriction(text: string): { readonly ok: true; readonly friction: Friction } | Refusal {
  const said = text.toLowerCase().replace(/\s+/g, ' ').trim();
  const words = said.replace(LEFT_OUT, '').trim();
  // "Not oiled" says that the threads are dry; "no locker" says nothing of oil.
  if (/lubric|oil|greas/.test(LEFT_OUT.exec(said)?.[0] ?? '') && !/\boil|anti|lock/.test(words))
    return { ok: true, friction: frictionById(/zinc|plated/.test(words) ? 'zinc' : 'dry') };
  const hit = WORDS.find(([pattern]) => pattern.test(words));
  if (hit) return { ok: true, friction: frictionById(hit[1]) };
  const known = FRICTIONS.map(({ name }) => name).join(', ');
  if (said === '') return refuse(`No condition of the threads is entered: write one of ${known}.`);
  return refuse(`"${said.slice(0, 40)}" is no known condition of threads: write one of ${known}.`);
}

/** Where the head (or nut) rubs: outer diameter of the bearing face and diameter of the hole, m. */
export interface Seat {
  readonly outer: number;
  readonly hole: number;
}

/**
 * The usual seat of a hexagon or socket head: 1.45 d outside, a hole of 1.1 d. Within 6 % of the standards from M5 to
 * M24 (ISO 4014, 4762, 273), from memory; a flange head or a big washer needs its own figures.
 */
export function usualSeat(thread: Thread): Seat {
  return { outer: 1.45 * thread.diameter, hole: 1.1 * thread.diameter };
}

/** Mean radius at which the head rubs, m: (dw + dh)/4. Throws RangeError unless outer is above hole, hole above 0. */
export function headRadius(seat: Seat): number {
  requirePositive('seat.hole', seat.hole);
  requirePositive('seat.outer', seat.outer);
  if (seat.outer <= seat.hole)
    throw new RangeError(`seat.outer must be above seat.hole (${seat.hole}), got ${seat.outer}`);
  return (seat.outer + seat.hole) / 4;
}

/** Torque a newton of preload takes, N·m/N, by part: the stretch of the bolt, the thread, the head. VDI 2230 (from memory). */
export interface TorqueShares {
  readonly stretch: number;
  readonly thread: number;
  readonly head: number;
}

/**
 * The long formula: T/F = P/2π + μt·d2/(2·cos 30°) + μh·(dw + dh)/4 (VDI 2230 style, which rounds to 0.159 P and
 * 0.577 d2). Throws RangeError for coefficients not above 0.
 */
export function torqueArm(thread: Thread, seat: Seat, muThread: number, muHead: number): TorqueShares {
  requirePositive('muThread', muThread);
  requirePositive('muHead', muHead);
  return {
    stretch: thread.pitch / (2 * Math.PI),
    thread: (muThread * pitchDiameter(thread)) / Math.sqrt(3),
    head: muHead * headRadius(seat),
  };
}

/** Nut factor K that two friction intervals amount to on a thread and seat, dimensionless. */
export function nutFactor(
  thread: Thread,
  seat: Seat,
  friction: { readonly thread: Interval; readonly head: Interval },
): Interval {
  requirePositiveInterval('friction.thread', friction.thread);
  requirePositiveInterval('friction.head', friction.head);
  const at = (end: 'low' | 'high') => {
    const arm = torqueArm(thread, seat, friction.thread[end], friction.head[end]);
    return (arm.stretch + arm.thread + arm.head) / thread.diameter;
  };
  return { low: at('low'), high: at('high') };
}

/**
 * The one coefficient, equal in thread and head, that a nut factor amounts to; as an interval, dimensionless. A K so low that only
 * the stretch is left of it is refused: no friction is below nought.
 */
export function frictionFromNutFactor(
  thread: Thread,
  seat: Seat,
  k: Interval,
): { readonly ok: true; readonly mu: Interval } | Refusal {
  requirePositiveInterval('k', k);
  const least = thread.pitch / (2 * Math.PI * thread.diameter);
  if (k.low <= least)
    return refuse(
      `K = ${k.low} is not above ${least.toFixed(3)}, which ${thread.name} takes without any friction: check K.`,
    );
  const perMu = pitchDiameter(thread) / Math.sqrt(3) + headRadius(seat);
  const at = (value: number) => ((value - least) * thread.diameter) / perMu;
  return { ok: true, mu: { low: at(k.low), high: at(k.high) } };
}
