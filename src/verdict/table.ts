/**
 * The table of predictions: for each base set of faults and each reading, a straight line in the unknowns, fitted to
 * the physics on 32 runs of an orthogonal design (every unknown one standard deviation up or down, no two unknowns
 * confounded) and checked on four more particles, whose misfit is carried as scatter.
 *
 * Why lines and not the particles themselves: with some 20 readings of 0.5 % meters, 64 particles in 25 unknowns
 * leave one alive, and its luck decides between faults. The line lets the unknowns be integrated out exactly.
 *
 * Sets of several faults are first composed from their single faults (differences to a sound bike added, with the
 * overlap carried as scatter); the sets that stay probable are then computed from the physics themselves.
 */
import type { ChargingSpec } from '../circuit/spec.ts';
import type { Fidelity } from '../circuit/stepper.ts';
import { buildBike, type Instance } from '../fault/build.ts';
import { designSign } from '../numbers/design.ts';
import { normalBelow } from '../numbers/normal.ts';
import { drawNormal, openStream } from '../numbers/random.ts';
import type { ReadingKey } from '../reading/key.ts';
import { newSubject, POINT_KINDS, type Subject, show, stateWords } from '../reading/show.ts';
import type { Atom } from './atoms.ts';
import { AT, chargeTopOf, handsOf, UNKNOWNS, wearOf } from './latent.ts';

/** One reading of one base as a line in the unknowns: value ≈ middle + slope·z ± √residual. */
export interface Fit {
  readonly middle: number;
  readonly slope: Float64Array;
  /** Unknowns that move it at all: most readings feel few. */
  readonly places: Uint8Array;
  /** Variance that the line does not explain, the kind's unit squared. */
  readonly residual: number;
  /** Share of particles that show "OL", 0–1. */
  readonly open: number;
}

const RUNS = 32;
const CHECKS = 4;
export const PARTICLES = RUNS + CHECKS;
/** What inference computes with: 24 steps a cycle err by some 0.07 V, which the checks see and carry. */
const QUICK: Fidelity = { steps: 24, settle: 3, measure: 3 };

/** The particles' unknowns: the orthogonal runs, then the checks. */
function drawParticles(seed: number): Float64Array[] {
  const stream = openStream(seed);
  const rows: Float64Array[] = [];
  for (let row = 0; row < RUNS; row++)
    rows.push(Float64Array.from({ length: UNKNOWNS }, (_, n) => designSign(row, n)));
  for (let row = 0; row < CHECKS; row++)
    rows.push(Float64Array.from({ length: UNKNOWNS }, () => 0.8 * drawNormal(stream)));
  return rows;
}

/** Fits of one base, made when asked for. */
export interface Table {
  readonly fit: (key: ReadingKey, name: string) => Fit;
}

export interface Bench {
  readonly spec: ChargingSpec;
  readonly particles: readonly Float64Array[];
}

export function openBench(spec: ChargingSpec, seed: number): Bench {
  return { spec, particles: drawParticles(seed) };
}

function instanceOf(atom: Atom, slot: number, z: Float64Array): Instance {
  const share = normalBelow(z[AT.severity + 2 * slot]!);
  const other = normalBelow(z[AT.severity + 2 * slot + 1]!);
  return {
    id: atom.fault,
    severity: atom.span[0] + (atom.span[1] - atom.span[0]) * share,
    second: atom.second[0] + (atom.second[1] - atom.second[0]) * other,
    place: { phase: atom.phase, variant: atom.variant },
  };
}

/** A table computed from the physics of the bikes themselves. */
export function computedTable(bench: Bench, atoms: readonly Atom[]): Table {
  let subjects: Subject[] | null = null;
  const fits = new Map<string, Fit>();
  const make = (): Subject[] =>
    bench.particles.map((z) =>
      newSubject(
        bench.spec,
        buildBike(
          bench.spec,
          wearOf(z),
          chargeTopOf(z),
          atoms.map((a, n) => instanceOf(a, n, z)),
        ),
        handsOf(bench.spec, z),
        QUICK,
      ),
    );
  return {
    fit: (key, name) => {
      const kept = fits.get(name);
      if (kept) return kept;
      subjects ??= make();
      const fit = fitLine(bench, subjects, key);
      fits.set(name, fit);
      return fit;
    },
  };
}

const values = new Float64Array(PARTICLES);

function fitLine(bench: Bench, subjects: readonly Subject[], key: ReadingKey): Fit {
  const words = stateWords(key);
  let opens = 0;
  let sum = 0;
  for (let n = 0; n < PARTICLES; n++) {
    const value = show(subjects[n]!, key, words);
    values[n] = value;
    if (Number.isNaN(value)) {
      if (n < RUNS) opens++;
    } else if (n < RUNS) sum += value;
  }
  const slope = new Float64Array(UNKNOWNS);
  if (opens === RUNS) return { middle: Number.NaN, slope, places: new Uint8Array(0), residual: 0, open: 1 };
  const middle = sum / (RUNS - opens);
  for (let n = 0; n < RUNS; n++) {
    const d = Number.isNaN(values[n]!) ? 0 : values[n]! - middle;
    if (d === 0) continue;
    const z = bench.particles[n]!;
    for (let k = 0; k < UNKNOWNS; k++) slope[k] = slope[k]! + (d * z[k]!) / RUNS;
  }
  let miss = 0;
  let spread = 0;
  let counted = 0;
  for (let n = RUNS; n < PARTICLES; n++) {
    if (Number.isNaN(values[n]!)) continue;
    const z = bench.particles[n]!;
    let line = middle;
    for (let k = 0; k < UNKNOWNS; k++) line += slope[k]! * z[k]!;
    miss += (values[n]! - line) ** 2;
    counted++;
  }
  for (let k = 0; k < UNKNOWNS; k++) spread += slope[k]! ** 2;
  // Speed errors are drawn anew at every reading: their part is scatter, not a shared unknown.
  const speed = slope[AT.rpmShift]! ** 2;
  slope[AT.rpmShift] = 0;
  // Four checks alone may be lucky: 0.6 % of the spread (8 % of its deviation) is the least scatter believed.
  const residual = Math.max(counted ? miss / counted : spread, 0.006 * spread) + speed;
  return { middle, slope, places: placesOf(slope), residual, open: opens / RUNS };
}

/** Slopes under a two-hundredth of the greatest are dropped: chopping scatters them into every unknown. */
function placesOf(slope: Float64Array): Uint8Array {
  let most = 0;
  for (let k = 0; k < UNKNOWNS; k++) most = Math.max(most, Math.abs(slope[k]!));
  const places: number[] = [];
  for (let k = 0; k < UNKNOWNS; k++) {
    if (Math.abs(slope[k]!) > 0.005 * most) places.push(k);
    else slope[k] = 0;
  }
  return Uint8Array.from(places);
}

/** A single fault's table, and how it is turned; null = it sits in no phase, and every phase is read as a. */
export interface Single {
  readonly table: Table;
  readonly turn: number | null;
}

/** A table composed from the tables of single faults and of the sound bike: quick, rough, and carrying its roughness. */
export function composedTable(phases: 1 | 3, sound: Table, singles: readonly Single[]): Table {
  const fits = new Map<string, Fit>();
  const partOf = ({ table, turn }: Single, key: ReadingKey, name: string) => {
    const by = turn ?? (phases === 3 ? homeOf(key) : 0);
    if (by === 0) return table.fit(key, name);
    const turned = turnKey(key, -by);
    return table.fit(turned, nameOf(turned));
  };
  const alone: Single = { table: sound, turn: null };
  return {
    fit: (key, name) => {
      const kept = fits.get(name);
      if (kept) return kept;
      const parts = singles.map((s) => partOf(s, key, name));
      // With less current through the bridge everything that depends on current fades: the share that is left.
      const fade = (lead: number): number => {
        if (!POINT_KINDS.has(key.kind)) return 1;
        const { rpm, lights, temp, charged, acc } = key.state;
        const amps = {
          kind: 'alt_amps',
          state: { rpm, lights, temp, charged, acc, wiggle: 'False' } as Record<string, string>,
        };
        const ampsName = nameOf(amps);
        const all = partOf(alone, amps, ampsName).middle;
        const left = partOf(singles[lead]!, amps, ampsName).middle;
        const ratio = Math.abs(left / all);
        return Math.max(0.1, Math.min(1, ratio, 1 / ratio));
      };
      const made = composeFit(partOf(alone, key, name), parts, fade);
      fits.set(name, made);
      return made;
    },
  };
}

/** Share of the unexplained variance under which a fault's whole effect on a reading is taken for chopping noise. */
const UNFELT = 0.3;

/**
 * The fault that moves a reading most lends its own line; the others add what they change on a sound bike, where
 * that is more than noise. Adding every difference, noise and all, made sets of two explain worse than either fault
 * alone and buried second faults that no reading had spoken of yet.
 */
function composeFit(sound: Fit, parts: readonly Fit[], fade: (lead: number) => number): Fit {
  let passed = 1;
  let shown = 1;
  let lead = -1;
  let most = 0;
  const effects = parts.map((part, n) => {
    passed *= 1 - part.open;
    shown *= part.open;
    const size = effectOf(sound, part);
    if (size > most) {
      most = size;
      lead = n;
    }
    return size;
  });
  const open = sound.open < 0.5 ? 1 - passed : shown;
  if (lead < 0) return { ...sound, open };
  const first = parts[lead]!;
  const slope = new Float64Array(UNKNOWNS);
  for (let k = 0; k < UNKNOWNS; k++) slope[k] = k < AT.severity || k >= AT.ghost ? first.slope[k]! : 0;
  putSeverity(slope, lead, first);
  let { middle, residual } = first;
  const left = effects.some((size, n) => n !== lead && size > 0) ? fade(lead) : 1;
  parts.forEach((part, n) => {
    if (n === lead || effects[n] === 0 || Number.isNaN(part.middle) || Number.isNaN(sound.middle)) return;
    const d = left * (part.middle - sound.middle);
    middle += d;
    for (let k = 0; k < UNKNOWNS; k++) {
      if (k < AT.severity || k >= AT.ghost) slope[k] = slope[k]! + left * (part.slope[k]! - sound.slope[k]!);
    }
    putSeverity(slope, n, part, left);
    // Faults overlap: the smaller effect may be lost in the larger one.
    residual += Math.max(0, part.residual - sound.residual) + (0.35 * d) ** 2;
  });
  return { middle, slope, places: placesOf(slope), residual, open };
}

/** How far a fault moves a reading, the kind's unit; 0 when that is no more than noise. */
function effectOf(sound: Fit, part: Fit): number {
  if (Number.isNaN(part.middle)) return 0;
  if (Number.isNaN(sound.middle)) return Number.MAX_VALUE;
  const d = part.middle - sound.middle;
  let square = d * d;
  for (let k = 0; k < UNKNOWNS; k++) square += (part.slope[k]! - sound.slope[k]!) ** 2;
  return square > UNFELT * (part.residual + sound.residual) + 1e-9 ? Math.sqrt(square) : 0;
}

/** A composed set keeps each fault's severities in that fault's own places. */
function putSeverity(slope: Float64Array, slot: number, part: Fit, share = 1): void {
  slope[AT.severity + 2 * slot] = share * part.slope[AT.severity]!;
  slope[AT.severity + 2 * slot + 1] = share * part.slope[AT.severity + 1]!;
}

const LETTERS = 'abc';
function turnLetter(letter: string, turn: number): string {
  const at = LETTERS.indexOf(letter);
  return at < 0 ? letter : LETTERS[(at + turn + 3) % 3]!;
}

/** The same reading with the phases renamed by `turn` places (a → b for 1). Pairs stay ab, bc, ca. */
export function turnKey(key: ReadingKey, turn: number): ReadingKey {
  if (turn % 3 === 0) return key;
  const state: Record<string, string> = { ...key.state };
  if (state.pin) state.pin = turnLetter(state.pin, turn);
  if (state.pair) state.pair = turnLetter(state.pair[0]!, turn) + turnLetter(state.pair[1]!, turn);
  if (key.kind === 'diode') {
    if (state.red && state.red.length === 1) state.red = turnLetter(state.red, turn);
    if (state.black && state.black.length === 1) state.black = turnLetter(state.black, turn);
  }
  return { kind: key.kind, state };
}

/** Place of the first phase that a reading names, 0–2; 0 where it names none. */
export function homeOf(key: ReadingKey): number {
  const { pin, pair, red, black } = key.state;
  for (const word of [pin, pair?.[0], red, black]) {
    const place = word && word.length === 1 ? LETTERS.indexOf(word) : -1;
    if (place >= 0) return place;
  }
  return 0;
}

/** A completed key as a table name. */
export function nameOf(key: ReadingKey): string {
  let text = key.kind;
  for (const word of Object.keys(key.state).sort()) text += ` ${word}=${key.state[word]}`;
  return text;
}
