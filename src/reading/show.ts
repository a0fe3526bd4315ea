/**
 * What a meter without error would show on one concrete bike, for every kind of reading. Electrical texts behind it
 * are cited in the circuit room; figures marked "typical" are common practice without a source.
 */
import { type Bike, loadSiemens, type OperatingPoint, type RunState } from '../circuit/bike.ts';
import { ohmicFromCrankAmps, restVoltsAt } from '../circuit/sound.ts';
import type { ChargingSpec } from '../circuit/spec.ts';
import { COARSE, copperFactor, type Fidelity, stepPoint } from '../circuit/stepper.ts';
import { PARTED_OHM } from '../fault/apply.ts';
import { type Built, heated, shaken } from '../fault/build.ts';
import type { ReadingKey } from './key.ts';

/** What differs between two mechanics and their tools, beside the bike. */
export interface Hands {
  /** Resistance of the meter leads, Ω. */
  readonly leadOhm: number;
  /** True idle speed, rpm, and how far other speeds are off, rpm. */
  readonly idleRpm: number;
  readonly rpmShift: number;
  /** Factors on the starter's draw, the battery's capacity and the usual key-off drain. */
  readonly starter: number;
  readonly capacity: number;
  readonly restDrain: number;
  /** What a floating winding shows to the case on a 10 MΩ meter, share of its line volts. */
  readonly ghost: number;
  /** What one sound silicon device shows on the diode range, V. */
  readonly diodeVolts: number;
  /** Where the meter's AC range has lost 3 dB, Hz; a good meter has lost nothing. */
  readonly acHertz: number;
}

/** One silicon drop at a meter's milliamp or so, V: 0.43–0.55 with meter and device (common practice, no source). */
export const DIODE_RANGE = 0.485;

export const USUAL: Hands = {
  leadOhm: 0.33,
  idleRpm: 1020,
  rpmShift: 0,
  starter: 1,
  capacity: 1,
  restDrain: 1,
  ghost: 0.57,
  diodeVolts: DIODE_RANGE,
  acHertz: Number.POSITIVE_INFINITY,
};

/** One bike with one pair of hands, ready to be read; operating points are kept once computed. */
export interface Subject {
  readonly spec: ChargingSpec;
  readonly built: Built;
  readonly hands: Hands;
  readonly fidelity: Fidelity;
  readonly points: Map<string, OperatingPoint>;
}

export function newSubject(
  spec: ChargingSpec,
  built: Built,
  hands: Hands,
  fidelity: Fidelity = COARSE,
): Subject {
  return { spec, built, hands, fidelity, points: new Map() };
}

/** The engine state of a running reading as a short key: readings that share it share the operating point. */
export function stateWords(key: ReadingKey): string {
  const s = key.state;
  return `${s.rpm ?? '3000'}|${s.lights ?? 'low'}|${s.temp ?? 'cold'}|${s.charged ?? 'False'}|${s.acc ?? 'True'}`;
}

/** Readings that need an operating point of the whole circuit. */
export const POINT_KINDS: ReadonlySet<string> = new Set([
  'batt_volts',
  'reg_volts',
  'drop_pos',
  'drop_neg',
  'drop_breaker',
  'drop_dcplug',
  'drop_sense',
  'plug_drop_ac',
  'ripple',
  'batt_amps',
  'alt_amps',
  'phase_amps',
]);

function rpmOf(key: ReadingKey, hands: Hands): number {
  const rpm = key.state.rpm ?? '3000';
  return rpm === 'idle' ? hands.idleRpm + 0.5 * hands.rpmShift : Number(rpm) + hands.rpmShift;
}

function point(subject: Subject, key: ReadingKey, stateOf: string): OperatingPoint {
  const s = key.state;
  // Moving the harness changes nothing on most bikes: these share the point.
  const moved = s.wiggle === 'True' && subject.built.condition.loose !== null;
  const words = moved ? `${stateOf}|moved` : stateOf;
  const kept = subject.points.get(words);
  if (kept) return kept;
  const hot = s.temp === 'hot';
  let bike = s.charged === 'True' ? subject.built.charged : subject.built.asCame;
  if (hot) bike = heated(bike, subject.built.condition);
  if (moved) bike = shaken(bike, subject.built.condition);
  // A blown main fuse leaves the loads to the battery and the regulator alone.
  if (subject.built.condition.fuseBlown) bike = { ...bike, breakerOhm: PARTED_OHM, loadsFedFrom: 'battery' };
  const state: RunState = {
    rpm: rpmOf(key, subject.hands),
    lights: (s.lights ?? 'low') as RunState['lights'],
    windingCelsius: hot ? 110 : 25,
    magnet: hot ? 0.94 : 1,
    accessories: s.acc !== 'False',
  };
  // A parted joint leaves the regulator alone with its filter: it needs more cycles to come to rest.
  const parted = bike.groundOhm >= PARTED_OHM || bike.breakerOhm >= PARTED_OHM;
  const made = stepPoint(
    bike,
    state,
    parted ? { ...subject.fidelity, settle: subject.fidelity.settle + 12 } : subject.fidelity,
  );
  subject.points.set(words, made);
  return made;
}

const PHASE: Readonly<Record<string, number>> = { a: 0, b: 1, c: 2 };
const OPEN = 1e4;

/** What the meter shows, in the kind's unit; NaN = "OL" or nothing. Things seen are not for this function. `words` saves writing the state again. */
export function show(subject: Subject, key: ReadingKey, words: string = stateWords(key)): number {
  const s = key.state;
  const { spec, built, hands } = subject;
  const bike = s.charged === 'True' ? built.charged : built.asCame;
  if (key.kind === 'plug_drop_ac' && bike.pinOhm[PHASE[s.pin!]!]! > OPEN) return gapVolts(bike, key, hands);
  if (POINT_KINDS.has(key.kind)) return ofPoint(point(subject, key, words), key, bike);
  switch (key.kind) {
    case 'rest_volts':
      return bike.restVolts;
    case 'keyon_volts': {
      const g = loadSiemens(bike, {
        rpm: 0,
        lights: s.lights === 'off' ? 'off' : 'low',
        windingCelsius: 25,
        magnet: 1,
        accessories: true,
      });
      return bike.restVolts / (1 + g * (bike.batteryOhm + bike.dischargeOhm * 0.5));
    }
    case 'load_test_volts':
      return Math.max(0.3, bike.restVolts - 0.5 * spec.battery.crankAmps * loadTestOhm(bike, built));
    case 'crank_volts': {
      const amps = starterAmps(subject, bike);
      const post = bike.restVolts - amps * loadTestOhm(bike, built);
      return s.probe === 'clamp' ? post - amps * (bike.positivePostOhm + bike.negativePostOhm) : post;
    }
    case 'drop_term_pos':
    case 'drop_term_neg': {
      const ohm = key.kind === 'drop_term_pos' ? bike.positivePostOhm : bike.negativePostOhm;
      if (s.state === 'crank') return starterAmps(subject, bike) * ohm;
      // With the key on: lamps, the ignition at rest, and whatever was wired on beyond the book.
      const extra = built.condition.overloadAmps / 13.5;
      const g = bike.lowSiemens + bike.tailSiemens + 0.4 * bike.ignitionSiemens + extra;
      return (bike.restVolts * g * ohm) / (1 + g * (ohm + bike.batteryOhm));
    }
    case 'keyoff_mA':
      return 1e3 * (0.45 * spec.restDrainAmps * hands.restDrain + built.condition.drainAmps);
    case 'capacity_minutes':
      return capacityMinutes(subject);
    case 'sg': {
      // A hydrometer shows the battery as it came: 1.120 empty to 1.265 full (industry table, flooded).
      const sound = 1.12 + 0.145 * built.condition.charge;
      return built.condition.cellVolts > 0 && s.cell === String(built.condition.cell) ? sound - 0.1 : sound;
    }
    case 'stator_ac': {
      const [red, black] = [PHASE[s.pair![0]!]!, PHASE[s.pair![1]!]!];
      const open = bike.ohm[red]! > OPEN || (bike.phases === 3 && bike.ohm[black]! > OPEN);
      if (open && built.condition.openShows === 0) return Number.NaN;
      const whole = bike.phases === 1 ? bike.emfPerRpm[0] / Math.SQRT2 : phasorGap(bike, red, 1, black, 1);
      const share = !open ? 1 : built.condition.openShows === 1 ? 0.01 : 0.92;
      return share * whole * unpluggedRpm(key, hands) * acShare(bike, key, hands);
    }
    case 'pin_case_ac':
      return pinToCase(subject, key);
    case 'ohms_pair':
    case 'mv_pair': {
      const ohm = pairOhm(bike, s.pair!, s.through_plug === 'True');
      if (ohm > OPEN) return Number.NaN;
      return key.kind === 'ohms_pair' ? ohm + hands.leadOhm : 1e3 * ohm;
    }
    case 'ohms_case': {
      const hot = s.temp === 'hot';
      const short = hot ? heated(bike, built.condition).coreShort : bike.coreShort;
      if (!short) return Number.NaN;
      const way = ohmToTap(bike, PHASE[s.pin!]!, short.phase, short.fraction) * (hot ? copperFactor(110) : 1);
      return way > OPEN ? Number.NaN : way + short.ohm + hands.leadOhm;
    }
    case 'diode':
      return diodeRange(bike, s.red!, s.black!, built.condition.deadShows, hands.diodeVolts);
    default:
      return Number.NaN;
  }
}

function ofPoint(p: OperatingPoint, key: ReadingKey, bike: Bike): number {
  switch (key.kind) {
    case 'batt_volts':
      return p.batteryVolts;
    case 'reg_volts':
      return p.regulatorVolts;
    case 'drop_pos':
      return p.dropPositive;
    case 'drop_neg':
      return p.dropNegative;
    case 'drop_breaker':
      return p.dropBreaker;
    case 'drop_dcplug':
      return p.dropOutputJoint;
    case 'drop_sense':
      return bike.senses === 'wire' ? bike.senseLossVolts : Number.NaN;
    case 'ripple':
      return p.rippleMeter;
    case 'batt_amps':
      return p.batteryAmps;
    case 'alt_amps':
      return p.alternatorAmps;
    case 'phase_amps':
      return p.phaseAmps[PHASE[key.state.pin!]!]!;
    default:
      return p.pinVolts[PHASE[key.state.pin!]!]!;
  }
}

/**
 * AC volts over a pin that is burnt through, V: the winding's own EMF plus half of it again, by which the two others
 * push the star point away, less their drop (about 1.25 of the phase volts); on two wires the winding alone.
 */
function gapVolts(bike: Bike, key: ReadingKey, hands: Hands): number {
  const k = bike.phases === 1 ? 0 : PHASE[key.state.pin!]!;
  const volts = (bike.phases === 1 ? 1 : 1.25) * bike.emfPerRpm[k]! * unpluggedRpm(key, hands);
  return (volts * acShare(bike, key, hands)) / Math.SQRT2;
}

/** Resistance under half a minute of heavy load, Ω: about half again the ohmic one (typical). */
function loadTestOhm(bike: Bike, built: Built): number {
  return bike.batteryOhm * 1.48 + (built.condition.cellVolts > 0 ? 0.2 * bike.batteryOhm : 0);
}

/** Current while cranking, A: a starter that draws about 0.41 of the cold-cranking amps from a sound battery (typical). */
function starterAmps(subject: Subject, bike: Bike): number {
  const sound = ohmicFromCrankAmps(subject.spec.battery.crankAmps);
  const starter = (8 * sound) / subject.hands.starter;
  return (
    bike.restVolts /
    (starter + loadTestOhm(bike, subject.built) + bike.positivePostOhm + bike.negativePostOhm)
  );
}

/**
 * Minutes of everything that is on with the key until the posts show 11.5 V. The end comes where rest volts less the
 * drop under load meet 11.5 V: a heavy load on a small battery leaves charge behind (typical figures).
 */
function capacityMinutes(subject: Subject): number {
  const { spec, built, hands } = subject;
  if (built.condition.cellVolts > 0) return 1;
  const l = spec.loads;
  const amps = l.ignition + l.low + l.tail + l.accessories + built.condition.overloadAmps;
  const drop = amps * built.charged.batteryOhm * 1.8;
  const top = built.condition.chargeTop;
  const rest = (charge: number) => restVoltsAt(spec.battery.chemistry, charge) - drop;
  let low = 0;
  let high = top;
  if (rest(0) > 11.5) high = 0;
  for (let n = 0; n < 20 && high > 0; n++) {
    const middle = (low + high) / 2;
    if (rest(middle) > 11.5) high = middle;
    else low = middle;
  }
  const ampHours = spec.battery.ampHours * built.condition.capacity * hands.capacity;
  return Math.max(0.2, (60 * 1.12 * ampHours * (top - high)) / amps);
}

/** Share of AC volts that the meter still shows at the winding's frequency, 1. */
function acShare(bike: Bike, key: ReadingKey, hands: Hands): number {
  const hertz = (bike.polePairs * rpmOf(key, hands)) / 60;
  return 1 / Math.sqrt(1 + (hertz / hands.acHertz) ** 2);
}

function unpluggedRpm(key: ReadingKey, hands: Hands): number {
  return rpmOf(key, hands) * (key.state.temp === 'hot' ? 0.94 : 1);
}

/** Rms volts per rpm between a share of winding j's EMF and a share of winding k's, 120° apart, V/rpm. */
function phasorGap(bike: Bike, j: number, jShare: number, k: number, kShare: number): number {
  const a = bike.emfPerRpm[j]! * jShare;
  const b = bike.emfPerRpm[k]! * kShare;
  const square = j === k ? (a - b) ** 2 : a * a + b * b + a * b;
  return Math.sqrt(square / 2);
}

function pinToCase(subject: Subject, key: ReadingKey): number {
  const hot = key.state.temp === 'hot';
  const bike = hot ? heated(subject.built.asCame, subject.built.condition) : subject.built.asCame;
  const rpm = unpluggedRpm(key, subject.hands) * acShare(bike, key, subject.hands);
  const pin = PHASE[key.state.pin!]!;
  const short = bike.coreShort;
  if (!short || (bike.ohm[short.phase]! > OPEN && pin !== short.phase)) {
    if (key.state.loaded === 'True') return 0.2;
    const line =
      bike.phases === 1 ? bike.emfPerRpm[0] / Math.SQRT2 : phasorGap(bike, pin, 1, (pin + 1) % 3, 1);
    return subject.hands.ghost * line * rpm;
  }
  if (bike.phases === 1)
    return ((pin === 0 ? 1 - short.fraction : short.fraction) * bike.emfPerRpm[0] * rpm) / Math.SQRT2;
  return phasorGap(bike, pin, 1, short.phase, short.fraction) * rpm;
}

function ohmToTap(bike: Bike, pin: number, phase: number, fraction: number): number {
  if (bike.phases === 1) return (pin === 0 ? 1 - fraction : fraction) * bike.ohm[0];
  return pin === phase ? (1 - fraction) * bike.ohm[phase]! : bike.ohm[pin]! + fraction * bike.ohm[phase]!;
}

function pairOhm(bike: Bike, pair: string, throughPlug: boolean): number {
  const j = PHASE[pair[0]!]!;
  const k = PHASE[pair[1]!]!;
  const winding = bike.phases === 1 ? bike.ohm[0] : bike.ohm[j]! + bike.ohm[k]!;
  return throughPlug ? winding + bike.pinOhm[j]! + bike.pinOhm[k]! : winding;
}

/** What a metallic short shows on a diode range, V. */
const SHORT = 0.003;

/** Diode range between two terminals of the unplugged regulator; red is +. NaN = OL. */
function diodeRange(bike: Bike, red: string, black: string, deadShows: boolean, drop: number): number {
  const legs = bike.phases === 3 ? [0, 1, 2] : [0, 1];
  // Forward drop of each device from its anode to its cathode; infinite where it does not conduct.
  const up = (k: number) =>
    bike.upper[k] === 'shorted'
      ? SHORT
      : bike.upper[k] === 'open' || bike.regulator === 'series' || deadShows
        ? Infinity
        : drop;
  const low = (k: number) =>
    bike.lower[k] === 'shorted' ? SHORT : bike.lower[k] === 'open' ? Infinity : drop;
  const backUp = (k: number) => (bike.upper[k] === 'shorted' ? SHORT : Infinity);
  const backLow = (k: number) => (bike.lower[k] === 'shorted' ? SHORT : Infinity);
  const node = (name: string) => (name === 'pos' ? 3 : name === 'neg' ? 4 : PHASE[name]!);
  // Shortest path in volts over at most three devices.
  const edges: [number, number, number][] = [];
  for (const k of legs) edges.push([k, 3, up(k)], [3, k, backUp(k)], [4, k, low(k)], [k, 4, backLow(k)]);
  const reach = [Infinity, Infinity, Infinity, Infinity, Infinity];
  reach[node(red)] = 0;
  for (let turn = 0; turn < 4; turn++)
    for (const [from, to, volts] of edges) reach[to] = Math.min(reach[to]!, reach[from]! + volts);
  const volts = reach[node(black)]!;
  return volts > 1.6 ? Number.NaN : volts;
}
