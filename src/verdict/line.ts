/**
 * One reading of one set of faults as a straight line in the unknowns, fitted to the physics on 32 runs of an
 * orthogonal design (every unknown one standard deviation up or down, no two unknowns confounded) and checked on four
 * more particles, whose misfit is carried as scatter.
 *
 * Why lines and not the particles themselves: with some 20 readings of 0.5 % meters, 64 particles in 25 unknowns
 * leave one alive, and its luck decides between faults. The line lets the unknowns be integrated out exactly.
 *
 * Rejected: letting lines of one set miss together, along the columns that no unknown of the set fills and the checks (a
 * bike that chops in an odd rhythm does so in two readings alike). Ten directions make correlations by chance as well: of
 * 160 drawn bikes 76 % ended right and the truth lay in the 95 % set of 81 %, with eight tenths of the misfit shared; with
 * none shared, 77 % and 87 %.
 */
import type { ChargingSpec } from '../circuit/spec.ts';
import type { Fidelity } from '../circuit/stepper.ts';
import { buildBike, type Instance } from '../fault/build.ts';
import { designSign } from '../numbers/design.ts';
import { normalBelow } from '../numbers/normal.ts';
import { drawNormal, openStream } from '../numbers/random.ts';
import { newSubject, type Subject, show } from '../reading/show.ts';
import type { Asked } from './asked.ts';
import type { Atom } from './atoms.ts';
import { AT, chargeTopOf, handsOf, spreadsOf, UNKNOWNS, wearOf } from './latent.ts';

/** One reading of one base as a line in the unknowns: value ≈ middle + slope·z ± √residual. */
export interface Fit {
  readonly middle: number;
  readonly slope: readonly number[];
  /** Unknowns that move it at all: most readings feel few. */
  readonly places: readonly number[];
  /** Variance that the line does not explain, the kind's unit squared. */
  readonly residual: number;
  /** Share of particles that show "OL", 0–1. */
  readonly open: number;
}

/**
 * A line that no unknown moves: copied to begin a new one. Plain arrays of doubles, made as such, not typed arrays: an
 * engine keeps typed arrays of more than 64 bytes outside its heap, and a million of them were most of its sweeping.
 */
const LEVEL: readonly number[] = Array.from({ length: UNKNOWNS }, () => 0.5).fill(0);

/** The slopes of a line that no unknown moves, to be filled, in the reading's unit. */
export function levelSlopes(): number[] {
  return LEVEL.slice();
}

const RUNS = 32;
const CHECKS = 4;
const PARTICLES = RUNS + CHECKS;
/** What inference computes with: 24 steps a cycle err by some 0.07 V, which the checks see and carry. */
const QUICK: Fidelity = { steps: 24, settle: 3, measure: 3 };

/** What all lines of one bike are fitted with. */
export interface Bench {
  readonly spec: ChargingSpec;
  readonly particles: readonly Float64Array[];
}

/** The particles' unknowns: the orthogonal runs, then the checks. */
export function openBench(spec: ChargingSpec, seed: number): Bench {
  const stream = openStream(seed);
  const particles: Float64Array[] = [];
  for (let row = 0; row < RUNS; row++)
    particles.push(Float64Array.from({ length: UNKNOWNS }, (_, n) => designSign(row, n)));
  for (let row = 0; row < CHECKS; row++)
    particles.push(Float64Array.from({ length: UNKNOWNS }, () => 0.8 * drawNormal(stream)));
  return { spec, particles };
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

/** The bikes of some rows of the design, ready to be read. */
export function subjectsOf(bench: Bench, atoms: readonly Atom[], rows?: readonly number[]): Subject[] {
  const chosen = rows ? rows.map((row) => bench.particles[row]!) : bench.particles;
  const spreads = spreadsOf(bench.spec);
  return chosen.map((z) =>
    newSubject(
      bench.spec,
      buildBike(
        bench.spec,
        wearOf(z, spreads),
        chargeTopOf(z),
        atoms.map((a, n) => instanceOf(a, n, z)),
      ),
      handsOf(bench.spec, z),
      QUICK,
    ),
  );
}

const values = new Float64Array(PARTICLES);

/** Fits a line to what all particles of a set of `faults` faults show. */
export function fitLine(bench: Bench, subjects: readonly Subject[], asked: Asked, faults: number): Fit {
  let opens = 0;
  let sum = 0;
  for (let n = 0; n < PARTICLES; n++) {
    const value = show(subjects[n]!, asked.key, asked.words);
    values[n] = value;
    if (Number.isNaN(value)) {
      if (n < RUNS) opens++;
    } else if (n < RUNS) sum += value;
  }
  const slope = levelSlopes();
  if (opens === RUNS) return { middle: Number.NaN, slope, places: [], residual: 0, open: 1 };
  const middle = sum / (RUNS - opens);
  for (let n = 0; n < RUNS; n++) {
    const d = Number.isNaN(values[n]!) ? 0 : values[n]! - middle;
    if (d === 0) continue;
    const z = bench.particles[n]!;
    for (let k = 0; k < UNKNOWNS; k++) slope[k] = slope[k]! + (d * z[k]!) / RUNS;
  }
  // Chopping scatters into the severities of faults that are not there, too: what it leaves there tells how much.
  let idle = 0;
  let scattered = 0;
  for (let k = AT.severity + 2 * faults; k < AT.ghost; k++) {
    scattered += (RUNS - opens) * slope[k]! ** 2;
    idle++;
    slope[k] = 0;
  }
  let miss = scattered;
  let spread = 0;
  let counted = 0;
  for (let n = RUNS; n < PARTICLES; n++) {
    if (Number.isNaN(values[n]!)) continue;
    miss += (values[n]! - valueAt(middle, slope, bench.particles[n]!)) ** 2;
    counted++;
  }
  for (let k = 0; k < UNKNOWNS; k++) spread += slope[k]! ** 2;
  // Speed errors are drawn anew at every reading: their part is scatter, not a shared unknown.
  const speed = slope[AT.rpmShift]! ** 2;
  slope[AT.rpmShift] = 0;
  // Four checks alone may be lucky: 0.6 % of the spread (8 % of its deviation) is the least scatter believed.
  const free = counted + idle;
  const residual = Math.max(free ? (miss / free) * believed(free) : spread, 0.006 * spread) + speed;
  return { middle, slope, places: placesOf(slope), residual, open: opens / RUNS };
}

/** A variance from few differences is as often too small as too large, and too small does the harm: the mean of Student's t, 1. */
function believed(free: number): number {
  return free > 2 ? free / (free - 2) : 3;
}

/** What a line says at one point of the unknowns, in the unit of its reading, 1. */
export function valueAt(middle: number, slope: readonly number[], z: Float64Array): number {
  let line = middle;
  for (let k = 0; k < UNKNOWNS; k++) line += slope[k]! * z[k]!;
  return line;
}

/** Lists of unknowns by their bits: lines by the ten thousand share some hundreds of them. */
const lists = new Map<number, readonly number[]>();

/** Slopes under a two-hundredth of the greatest are dropped: chopping scatters them into every unknown. */
export function placesOf(slope: number[]): readonly number[] {
  let most = 0;
  for (let k = 0; k < UNKNOWNS; k++) most = Math.max(most, Math.abs(slope[k]!));
  let bits = 0;
  for (let k = 0; k < UNKNOWNS; k++) {
    if (Math.abs(slope[k]!) > 0.005 * most) bits |= 1 << k;
    else slope[k] = 0;
  }
  let places = lists.get(bits);
  if (!places) {
    places = Array.from({ length: UNKNOWNS }, (_, k) => k).filter((k) => bits & (1 << k));
    lists.set(bits, places);
  }
  return places;
}
