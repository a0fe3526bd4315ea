/**
 * Expected information of a test about classes of hypotheses (what to repair), not about the nuisance inside them:
 * I = H(mixture of all outcomes) − Σ P(class) · H(outcomes within the class), Shannon entropy in bits.
 *
 * A reading with a continuous value is put on a grid: each hypothesis spreads a normal distribution over the bins
 * and "OL", "no reading" and things seen are further outcomes. The bins hold about equal mass of the mixture
 * rather than equal width, because a charging circuit's readings come as narrow heaps far apart (0.2 V, 14.2 V,
 * 55 V). Tried first: equal widths, 96 bins; two heaps 0.2 V apart in a 60 V range fell into one bin and the
 * reading looked worthless. Binning can only lose information (data processing), so the figure errs low.
 */

/** Step of the table of the normal distribution function, in standard deviations. */
const STEP = 1 / 256;
/** Beyond this many standard deviations nothing is counted (1.2e-6 of the mass is lost). */
const REACH = 5;
/** Number of steps in the table. */
const LAST = (2 * REACH) / STEP;
const CDF = normalTable();

/** Φ(z) for z = −REACH … REACH by Simpson's rule on each step; the trapezoid table is then read by straight lines (error < 5e-7). */
function normalTable(): Float64Array {
  const n = LAST;
  const table = new Float64Array(n + 2);
  const density = (z: number) => Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
  let sum = 0;
  for (let i = 1; i <= n; i++) {
    const z = -REACH + (i - 1) * STEP;
    sum += (STEP / 6) * (density(z) + 4 * density(z + STEP / 2) + density(z + STEP));
    table[i] = sum;
  }
  for (let i = 1; i <= n; i++) table[i]! /= sum;
  table[n + 1] = 1;
  return table;
}

/** Outcomes beside the continuous value: "OL", "no reading", seen, not seen. */
export interface ExtraOutcomes {
  /** How many such outcomes there are. */
  readonly count: number;
  /** P(outcome | hypothesis), hypothesis by hypothesis: `given[h * count + o]`. The continuous value takes the rest. */
  readonly given: Float64Array;
}

/** Scratch that grows and is used again: the function is called hundreds of times an answer. Holds nothing between calls. */
let joint = new Float64Array(0);
let mixture = new Float64Array(0);
/** Cells of the pilot density: so many for each bin, and at the most. */
const PILOT_PER_BIN = 22;
const PILOT = 1024;
const pilot = new Float64Array(PILOT + 1);
let edges = new Float64Array(0);

/**
 * Expected information of a continuous test about the classes, bits (0 … log2 of the number of classes).
 *
 * Hypothesis h says that the reading is normal with mean `means[h]` and standard deviation `sds[h]` > 0 (same unit;
 * ignored where its extra outcomes take all of it), holds with weight `weights[h]` ≥ 0 (need not add up to 1) and
 * belongs to class `classes[h]`, 0 … nClasses − 1. `bins` 2–4096.
 */
export function gridInformation(
  means: Float64Array,
  sds: Float64Array,
  weights: Float64Array,
  classes: Int32Array,
  nClasses: number,
  extra: ExtraOutcomes | null = null,
  bins = 96,
): number {
  const n = weights.length;
  if (means.length < n || sds.length < n || classes.length < n) {
    throw new RangeError(`means, sds and classes must be as long as weights (${n})`);
  }
  if (!(bins >= 2 && bins <= 4096)) throw new RangeError(`bins must be 2 to 4096, got ${bins}`);
  const extras = extra === null ? 0 : extra.count;
  const columns = bins + extras;
  if (joint.length < nClasses * columns) joint = new Float64Array(nClasses * columns);
  else joint.fill(0, 0, nClasses * columns);
  const placed = placeEdges(means, sds, weights, extra, bins);

  for (let h = 0; h < n; h++) {
    const weight = weights[h]!;
    if (weight <= 0) continue;
    const row = classes[h]! * columns;
    let rest = 1;
    for (let o = 0; o < extras; o++) {
      const p = extra!.given[h * extras + o]!;
      joint[row + bins + o]! += weight * p;
      rest -= p;
    }
    if (rest <= 1e-12 || !placed) continue;
    spread(means[h]!, sds[h]!, weight * rest, row, bins);
  }
  return informationOfJoint(joint, nClasses, columns);
}

/** Adds `mass` of a normal distribution to the bins of one row of `joint`, which starts at `row`. */
function spread(mean: number, sd: number, mass: number, row: number, bins: number): void {
  if (!(sd > 0)) throw new RangeError(`sds must be greater than 0 where the value is continuous, got ${sd}`);
  // Local names: the loop below is where the time goes, and module variables are read afresh at each use.
  const cells = joint;
  const upper = edges;
  const table = CDF;
  const scale = 1 / (sd * STEP);
  const offset = REACH / STEP - mean * scale;
  // First inner edge above mean − REACH sd, by halving.
  const from = mean - REACH * sd;
  let low = 1;
  let high = bins;
  while (low < high) {
    const mid = (low + high) >> 1;
    if (upper[mid]! > from) high = mid;
    else low = mid + 1;
  }
  let before = 0;
  // Edge number k is the upper edge of bin k − 1; the outermost bins reach to infinity.
  let k = low;
  for (; k < bins; k++) {
    const at = upper[k]! * scale + offset;
    if (at >= LAST) break;
    const i = at > 0 ? at | 0 : 0;
    const left = table[i]!;
    const below = mass * (left + (table[i + 1]! - left) * (at - i));
    cells[row + k - 1]! += below - before;
    before = below;
  }
  cells[row + k - 1]! += mass - before;
}

/** Places `edges` so that each bin holds about equal mass of the mixture; false when no hypothesis has a continuous value. */
function placeEdges(
  means: Float64Array,
  sds: Float64Array,
  weights: Float64Array,
  extra: ExtraOutcomes | null,
  bins: number,
): boolean {
  const extras = extra === null ? 0 : extra.count;
  const rest = (h: number): number => {
    let left = weights[h]!;
    for (let o = 0; o < extras; o++) left -= weights[h]! * extra!.given[h * extras + o]!;
    return left;
  };
  let total = 0;
  for (let h = 0; h < weights.length; h++) total += weights[h]!;
  const floor = 1e-9 * total;
  let low = Infinity;
  let high = -Infinity;
  for (let h = 0; h < weights.length; h++) {
    if (!(rest(h) > floor)) continue;
    low = Math.min(low, means[h]! - 3 * sds[h]!);
    high = Math.max(high, means[h]! + 3 * sds[h]!);
  }
  if (!(high > low)) return false;
  // A pilot density in narrow cells of equal width: each normal as three boxes on top of each other, kept as the
  // differences between neighbouring cells so that a box costs four additions however wide it is.
  const cells = Math.min(PILOT, PILOT_PER_BIN * bins);
  const density = pilot;
  density.fill(0, 0, cells + 1);
  const perUnit = cells / (high - low);
  for (let h = 0; h < weights.length; h++) {
    const mass = rest(h);
    if (!(mass > floor)) continue;
    for (let half = 1; half <= 3; half++) {
      const reach = half * sds[h]!;
      addBox((means[h]! - reach - low) * perUnit, (means[h]! + reach - low) * perUnit, mass, cells);
    }
  }
  // Half the bins by mass, half by its square root: by mass alone the flanks, where rare classes show, get too few.
  let sofar = 0;
  let sum = 0;
  let sumRoot = 0;
  for (let cell = 0; cell < cells; cell++) {
    sofar += density[cell]!;
    density[cell] = Math.max(0, sofar);
    sum += density[cell]!;
    sumRoot += Math.sqrt(density[cell]!);
  }
  for (let cell = 0; cell < cells; cell++) {
    density[cell] = (0.5 * density[cell]!) / sum + (0.5 * Math.sqrt(density[cell]!)) / sumRoot;
  }
  if (edges.length < bins + 1) edges = new Float64Array(bins + 1);
  let cell = 0;
  let below = 0;
  edges[0] = -Infinity;
  for (let k = 1; k < bins; k++) {
    const wanted = k / bins;
    while (cell < cells - 1 && below + density[cell]! < wanted) below += pilot[cell++]!;
    const inside = density[cell]! > 0 ? Math.min(1, Math.max(0, (wanted - below) / density[cell]!)) : 0.5;
    edges[k] = low + (cell + inside) / perUnit;
  }
  edges[bins] = Infinity;
  return true;
}

/** Adds a box of `mass` between two places on the pilot (in cells) to the differences in `pilot`. */
function addBox(from: number, to: number, mass: number, cells: number): void {
  // Narrower than a cell counts as one cell wide: the cell is what the edges are placed by.
  const height = mass / Math.max(1, to - from);
  addEdge(from, height, cells);
  addEdge(Math.max(to, from + 1), -height, cells);
}

/** A step of `height` at a place on the pilot, shared between the two cells that it falls between. */
function addEdge(at: number, height: number, cells: number): void {
  const place = Math.min(cells - 1, Math.max(0, at));
  const cell = Math.floor(place);
  const share = place - cell;
  pilot[cell]! += height * (1 - share);
  pilot[cell + 1]! += height * share;
}

/**
 * Expected information of a test with listed outcomes about the classes, bits. `given[h * nOutcomes + o]` is
 * P(outcome | hypothesis); weights ≥ 0 need not add up to 1.
 */
export function discreteInformation(
  given: Float64Array,
  nOutcomes: number,
  weights: Float64Array,
  classes: Int32Array,
  nClasses: number,
): number {
  if (given.length < weights.length * nOutcomes) {
    throw new RangeError(
      `given must hold ${nOutcomes} outcomes for each of ${weights.length} hypotheses, got ${given.length}`,
    );
  }
  if (joint.length < nClasses * nOutcomes) joint = new Float64Array(nClasses * nOutcomes);
  else joint.fill(0, 0, nClasses * nOutcomes);
  for (let h = 0; h < weights.length; h++) {
    const weight = weights[h]!;
    if (weight <= 0) continue;
    const row = classes[h]! * nOutcomes;
    for (let o = 0; o < nOutcomes; o++) joint[row + o]! += weight * given[h * nOutcomes + o]!;
  }
  return informationOfJoint(joint, nClasses, nOutcomes);
}

/** Mutual information of rows (classes) and columns (outcomes) of a table of masses, bits; the table need not add up to 1. */
export function informationOfJoint(table: Float64Array, rows: number, columns: number): number {
  if (mixture.length < columns) mixture = new Float64Array(columns);
  else mixture.fill(0, 0, columns);
  let total = 0;
  let bits = 0;
  for (let r = 0; r < rows; r++) {
    let mass = 0;
    const start = r * columns;
    for (let c = 0; c < columns; c++) {
      const value = table[start + c]!;
      if (value <= 0) continue;
      mass += value;
      mixture[c]! += value;
      bits += value * Math.log(value);
    }
    if (mass > 0) bits -= mass * Math.log(mass);
    total += mass;
  }
  if (!(total > 0)) return 0;
  for (let c = 0; c < columns; c++) {
    const value = mixture[c]!;
    if (value > 0) bits -= value * Math.log(value);
  }
  // I = Σ j ln j − Σ row ln row − Σ column ln column + T ln T, all over T, for masses that add up to T.
  const nats = (bits + total * Math.log(total)) / total;
  return Math.max(0, nats / Math.LN2);
}

/** Shannon entropy of a list of masses, bits; the masses need not add up to 1. */
export function entropyBits(masses: Float64Array): number {
  let total = 0;
  let sum = 0;
  for (let i = 0; i < masses.length; i++) {
    const value = masses[i]!;
    if (value <= 0) continue;
    total += value;
    sum += value * Math.log(value);
  }
  return total > 0 ? Math.max(0, (Math.log(total) - sum / total) / Math.LN2) : 0;
}
