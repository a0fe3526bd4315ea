/**
 * Tables of predictions: for each set of faults and each reading a line in the unknowns (line.ts), made when asked for.
 * Three kinds, from dear to cheap:
 *
 * - computed: 36 runs of the physics of the set itself; the sound bike and every single fault.
 * - composed: put together from tables of smaller sets. A fault that a reading does not feel adds nothing to it, not
 *   even scatter: the line of the smaller set is taken as it is, so that a further fault which no reading speaks of
 *   keeps exactly its prior. (Composing sets of three from three singles instead gave them wider lines than the
 *   computed pair inside them, and ten readings buried every third fault: 0.002 for a drain nobody had measured.)
 * - corrected: composed, then moved onto the physics of the set itself by 8 runs, a quarter of the full design.
 */
import { type Subject, show } from '../reading/show.ts';
import type { Asked } from './asked.ts';
import type { Atom } from './atoms.ts';
import { AT, UNKNOWNS } from './latent.ts';
import { type Bench, type Fit, fitLine, placesOf, subjectsOf, valueAt } from './line.ts';

/** A line, and how far it lies from the sound bike's: 0 when that is no more than noise, the kind's unit. */
export interface Felt {
  readonly fit: Fit;
  readonly effect: number;
  /** Scatter without the doubt of composing: what a correction falls back on, the kind's unit squared. */
  readonly plain: number;
  /** Whether at least two faults move it, so that they had to be put together. */
  readonly mixed: boolean;
}

/** Lines of one set, made when asked for. */
export interface Table {
  readonly read: Read;
  /** The same with a quarter of the physics: enough to choose among readings that have not been taken. */
  readonly glance: Read;
  /** Works out the operating points of a reading's engine state, and nothing else; for tables with physics of their own. */
  readonly ready?: (asked: Asked) => void;
}

type Read = (asked: Asked) => Felt;

/** A reader that remembers. */
function kept(make: Read): Read {
  const lines = new Map<Asked, Felt>();
  return (asked) => {
    let felt = lines.get(asked);
    if (!felt) {
      felt = make(asked);
      lines.set(asked, felt);
    }
    return felt;
  };
}

/** The sound bike's table. */
export function soundTable(bench: Bench): Table {
  let subjects: Subject[] | null = null;
  const read = kept((asked) => {
    subjects ??= subjectsOf(bench, []);
    const fit = fitLine(bench, subjects, asked, 0);
    return { fit, effect: 0, plain: fit.residual, mixed: false };
  });
  return { read, glance: read };
}

/** The table of a set from its own physics. `sound` is read in the frame of the phases that the key names first. */
export function computedTable(bench: Bench, sound: Table, atoms: readonly Atom[]): Table {
  let subjects: Subject[] | null = null;
  const read = kept((asked) => {
    subjects ??= subjectsOf(bench, atoms);
    const fit = fitLine(bench, subjects, asked, atoms.length);
    const effect = effectOf(atHome(bench, sound.read, asked).fit, fit);
    return { fit, effect, plain: fit.residual, mixed: false };
  });
  const alone = (asked: Asked) => atHome(bench, sound.read, asked);
  // The bikes of a glance are eight of the thirty-six: what one look has worked out the other need not.
  const few = () => {
    subjects ??= subjectsOf(bench, atoms);
    return CORRECTED_ROWS.map((row) => subjects![row]!);
  };
  return { read, glance: corrected(bench, sound, alone, atoms, few) };
}

/** A reading of a set that sits in no phase: every phase is read as a. */
function atHome(bench: Bench, read: Read, asked: Asked): Felt {
  return read(bench.spec.alternator.phases === 3 ? asked.turned[asked.home]! : asked);
}

/** A part of a composed set: its table, where it is turned to, and which severities of the whole are its own. */
export interface Part {
  readonly table: Table;
  /** Phases to turn by; null = it sits in no phase. */
  readonly turn: number | null;
  /** First severity slot in the whole, and how many it has. */
  readonly slot: number;
  readonly size: number;
}

/** The same lines with the severities moved from the first slots to others. */
export function slotted(table: Table, slot: number, size: number): Table {
  if (slot === 0) return table;
  const moved = (read: Read) =>
    kept((asked) => {
      const felt = read(asked);
      const { fit } = felt;
      if (felt.effect === 0 || Number.isNaN(fit.middle)) return felt;
      const slope = fit.slope.slice();
      for (let k = 0; k < 2 * size; k++) slope[AT.severity + k] = 0;
      for (let k = 0; k < 2 * size; k++) slope[AT.severity + 2 * slot + k] = fit.slope[AT.severity + k]!;
      return { ...felt, fit: { ...fit, slope, places: placesOf(slope) } };
    });
  return { read: moved(table.read), glance: moved(table.glance) };
}

/** The same lines with the severities counted as scatter: for a fault that has no slots of its own. */
export function blurred(table: Table, size: number): Table {
  const blur = (read: Read) =>
    kept((asked) => {
      const felt = read(asked);
      const { fit } = felt;
      if (felt.effect === 0 || Number.isNaN(fit.middle)) return felt;
      const slope = fit.slope.slice();
      let { residual } = fit;
      for (let k = AT.severity; k < AT.severity + 2 * size; k++) {
        residual += slope[k]! ** 2;
        slope[k] = 0;
      }
      return { ...felt, fit: { ...fit, slope, places: placesOf(slope), residual } };
    });
  return { read: blur(table.read), glance: blur(table.glance) };
}

/** A table composed from tables of smaller sets and of the sound bike. */
export function composedTable(bench: Bench, sound: Table, parts: readonly Part[]): Table {
  const put = (by: 'read' | 'glance') => {
    const look = ({ table, turn }: Part, asked: Asked) =>
      turn === null ? atHome(bench, table[by], asked) : table[by](asked.turned[turn]!);
    return (asked: Asked): Felt => {
      const alone = atHome(bench, sound.read, asked);
      const felts = parts.map((part) => look(part, asked));
      // With less current through the bridge everything that depends on current fades: the share that is left.
      const fade = (lead: number): number => {
        if (!asked.running) return 1;
        const all = sound.read(asked.amps).fit.middle;
        const left = look(parts[lead]!, asked.amps).fit.middle;
        const ratio = Math.abs(left / all);
        return Math.max(0.1, Math.min(1, ratio, 1 / ratio));
      };
      return compose(alone, felts, fade, BY_CURRENT.has(asked.key.kind));
    };
  };
  return { read: kept(put('read')), glance: kept(put('glance')) };
}

/** Readings that are a joint's ohms times the current through it. */
const BY_CURRENT: ReadonlySet<string> = new Set(['drop_pos', 'drop_neg', 'drop_dcplug', 'plug_drop_ac']);

/** Share of the unexplained variance under which a fault's whole effect on a reading is taken for chopping noise. */
const UNFELT = 0.3;

/**
 * The part that moves a reading most lends its own line; the others add what they change on a sound bike, where
 * that is more than noise. Adding every difference, noise and all, made sets of two explain worse than either fault
 * alone and buried second faults that no reading had spoken of yet.
 */
function compose(
  alone: Felt,
  felts: readonly Felt[],
  fade: (lead: number) => number,
  byCurrent: boolean,
): Felt {
  const sound = alone.fit;
  let passed = 1;
  let shown = 1;
  let lead = -1;
  let most = 0;
  let moved = 0;
  felts.forEach(({ fit, effect }, n) => {
    passed *= 1 - fit.open;
    shown *= fit.open;
    if (effect > 0) moved++;
    if (effect > most) {
      most = effect;
      lead = n;
    }
  });
  const open = sound.open < 0.5 ? 1 - passed : shown;
  if (lead < 0) return unmixed(alone, open);
  const first = felts[lead]!.fit;
  if (moved === 1) return unmixed(felts[lead]!, open);
  const slope = first.slope.slice();
  let { middle, residual } = first;
  let { plain } = felts[lead]!;
  const left = fade(lead);
  // Volts lost in a joint are current times its ohms: what the other faults leave of the current, they leave of them.
  let kept = 1;
  if (byCurrent && !Number.isNaN(sound.middle))
    felts.forEach(({ effect }, n) => {
      if (n !== lead && effect > 0) kept *= fade(n);
    });
  if (kept < 1) {
    middle = sound.middle + kept * (middle - sound.middle);
    for (let k = 0; k < UNKNOWNS; k++) slope[k] = sound.slope[k]! + kept * (slope[k]! - sound.slope[k]!);
    residual = sound.residual + kept * kept * Math.max(0, residual - sound.residual);
    plain = Math.min(plain, Math.max(residual, sound.residual));
  }
  felts.forEach(({ fit, effect }, n) => {
    if (n === lead || effect === 0 || Number.isNaN(fit.middle) || Number.isNaN(sound.middle)) return;
    const d = left * (fit.middle - sound.middle);
    middle += d;
    for (let k = 0; k < UNKNOWNS; k++) slope[k] = slope[k]! + left * (fit.slope[k]! - sound.slope[k]!);
    // Faults overlap: the smaller effect may be lost in the larger one.
    residual += Math.max(0, fit.residual - sound.residual) + (0.35 * d) ** 2;
    plain = Math.max(plain, felts[n]!.plain);
  });
  const fit = { middle, slope, places: placesOf(slope), residual, open };
  return { fit, effect: effectOf(sound, fit), plain, mixed: true };
}

/** A line as it is, but for its chance of "OL": the same one where nothing changes. */
function unmixed(felt: Felt, open: number): Felt {
  const { fit, effect, plain, mixed } = felt;
  const same = Math.abs(fit.open - open) < 1e-9;
  if (same && !mixed) return felt;
  return { fit: same ? fit : { ...fit, open }, effect, plain, mixed: false };
}

/** How far a fault moves a reading, the kind's unit; 0 when that is no more than noise. */
function effectOf(sound: Fit, fit: Fit): number {
  if (Number.isNaN(fit.middle)) return Number.isNaN(sound.middle) ? 0 : Number.MAX_VALUE;
  if (Number.isNaN(sound.middle)) return Number.MAX_VALUE;
  const d = fit.middle - sound.middle;
  let square = d * d;
  for (let k = 0; k < UNKNOWNS; k++) square += (fit.slope[k]! - sound.slope[k]!) ** 2;
  return square > UNFELT * (fit.residual + sound.residual) + 1e-9 ? Math.sqrt(square) : 0;
}

/**
 * Rows of the design that the correction runs: b1, b2, b3 walk through all eight, b0 = b4 = b1 ⊕ b2. On them the first
 * severities of all three faults and the second ones of the first two are apart from each other and from the mean; what
 * stands still is charge acceptance, starter and sense wire.
 */
const CORRECTED_ROWS = [0, 1, 2, 3, 4, 5, 6, 7].map((n) => {
  const [b1, b2, b3] = [n & 1, (n >> 1) & 1, (n >> 2) & 1];
  const twin = b1 ^ b2;
  return twin | (b1 << 1) | (b2 << 2) | (b3 << 3) | (twin << 4);
});

/**
 * A composed table moved onto the physics of the set itself: middle and severities, with the misfit carried. A reading
 * that only one of the faults moves keeps that fault's own line, which is physics already.
 */
export function correctedTable(bench: Bench, sound: Table, composed: Table, atoms: readonly Atom[]): Table {
  let subjects: Subject[] | null = null;
  const bikes = (): Subject[] => {
    subjects ??= subjectsOf(bench, atoms, CORRECTED_ROWS);
    return subjects;
  };
  const physics = corrected(bench, sound, composed.read, atoms, bikes);
  const read = (asked: Asked) => {
    const felt = composed.read(asked);
    return felt.mixed ? physics(asked) : felt;
  };
  const ready = (asked: Asked): void => {
    for (const bike of bikes()) show(bike, asked.key, asked.words);
  };
  return { read, glance: composed.glance, ready };
}

function corrected(
  bench: Bench,
  sound: Table,
  composed: Read,
  atoms: readonly Atom[],
  bikes: () => Subject[],
): Read {
  let subjects: Subject[] | null = null;
  const runs = CORRECTED_ROWS.length;
  const misses = new Float64Array(runs);
  // Of three faults the second severities of the later two are not apart from the others' first ones.
  const severities = (atoms.length < 3 ? [0, 1, 2, 3] : [0, 1, 2, 4])
    .filter((k) => k < 2 * atoms.length)
    .map((k) => AT.severity + k);
  return kept((asked) => {
    subjects ??= bikes();
    const guess = composed(asked);
    const { fit } = guess;
    const line = Number.isNaN(fit.middle) ? atHome(bench, sound.read, asked).fit : fit;
    let sum = 0;
    let opens = 0;
    subjects.forEach((subject, n) => {
      const value = show(subject, asked.key, asked.words);
      const z = bench.particles[CORRECTED_ROWS[n]!]!;
      misses[n] = value - (Number.isNaN(line.middle) ? 0 : valueAt(line.middle, line.slope, z));
      if (Number.isNaN(value)) opens++;
      else sum += misses[n]!;
    });
    const open = opens / runs;
    if (opens === runs) return { ...guess, fit: { ...line, middle: Number.NaN, open: 1 } };
    const mean = sum / (runs - opens);
    const slope = line.slope.slice();
    let square = 0;
    for (let n = 0; n < runs; n++) {
      if (Number.isNaN(misses[n]!)) misses[n] = 0;
      else {
        misses[n] = misses[n]! - mean;
        square += misses[n]! ** 2;
      }
    }
    let explained = 0;
    for (const k of severities) {
      let d = 0;
      for (let n = 0; n < runs; n++) d += (misses[n]! * bench.particles[CORRECTED_ROWS[n]!]![k]!) / runs;
      slope[k] = slope[k]! + d;
      explained += d * d * runs;
    }
    const free = Math.max(1, runs - opens - 1 - severities.length);
    const measured = Math.max(0, square - explained) / free;
    const middle = (Number.isNaN(line.middle) ? 0 : line.middle) + mean;
    const residual = (2 * guess.plain + free * measured) / (2 + free);
    const made = { middle, slope, places: placesOf(slope), residual, open };
    const effect = effectOf(atHome(bench, sound.read, asked).fit, made);
    return { fit: made, effect, plain: residual, mixed: true };
  });
}
