/**
 * Which figure of a machine file would narrow it most, if it were known. Computed, not written down: with the figure known,
 * the scatter of sound bikes is less, the bands of the main readings are narrower, and pairs of faults (or a fault and a sound
 * bike) that need different repairs are told apart more surely.
 *
 * `told` adds up, over all such pairs, by how much the chance falls to take one for the other when all main readings are
 * taken and both are as likely, Φ(−d/2), d being their distance in deviations. It is the expected count of pairs told apart
 * that were not. A cheap measure: faults in the middle of their severity, scatter of the sound bike, straight lines. A figure that is one of a few
 * (shunt or series) and only guessed counts as wrong with `GUESS_WRONG`; the verdict itself believes what the file says.
 */
import { FAULTS } from '../fault/faults.ts';
import { chargingSpec } from '../machine/charging-spec.ts';
import type { Machine } from '../machine/definition.ts';
import { KINDS } from '../reading/catalogue.ts';
import { describeReading } from '../reading/describe.ts';
import { readKey } from '../reading/key.ts';
import { spreadsOf } from '../verdict/latent.ts';
import { ASKED, type Asked, figureAt, isGuessed, specWith } from './sharpen-figures.ts';
import {
  covarianceOf,
  mainReadings,
  mistakeChance,
  shownBy,
  shrinkage,
  soundLines,
  type Usual,
  usualFaults,
  whitened,
} from './sharpen-model.ts';

/** How often a guess between a few is wrong, 0–1: a guess itself. */
const GUESS_WRONG = 0.2;
/** Two are told apart when neither is taken for the other more often than this, 0–1. */
const APART = 0.05;
/** Under this many pairs and this share of a band a figure is not worth a line. */
const LEAST_TOLD = 0.02;
const LEAST_NARROWS = 0.01;

/** How one reading's band of sound bikes would narrow: width of the 95 % band, in the reading's unit. */
export interface Narrowed {
  readonly key: string;
  readonly now: number;
  readonly known: number;
}

export interface Gain {
  /** Pairs expected to be told apart that were not, count. */
  readonly told: number;
  /** Pairs that come under one mistake in twenty, and pairs in all, counts. */
  readonly apart: number;
  readonly pairs: number;
  /** Mean share by which the bands narrow, 0–1, and the bands that narrow most. */
  readonly narrows: number;
  readonly bands: readonly Narrowed[];
}

export interface Sharpening {
  readonly path: string;
  readonly label: string;
  /** What the file says now, with who says it. */
  readonly now: string;
  /** One sentence: what it would do, and how to find it out. */
  readonly why: string;
  readonly gain: Gain;
}

/** Figures worth finding out, the most telling first. A few tenths of a second. */
export function sharpen(machine: Machine): readonly Sharpening[] {
  const spec = chargingSpec(machine);
  const lines = soundLines(spec);
  const faults = usualFaults(spec);
  const shown = [shownBy(spec, []), ...faults.map(({ shows }) => shows)];
  const found = ASKED.flatMap((one) => candidate(machine, one, lines.spreads, shown[0]!) ?? []);
  const all = found.flatMap(({ apart }) => (apart === null ? [] : [apart]));
  const now = look(covarianceOf(lines, {}, all), shown, faults);
  return found
    .map(({ one, text, scale, apart }) => {
      const known = look(
        covarianceOf(
          lines,
          scale,
          all.filter((vector) => vector !== apart),
        ),
        shown,
        faults,
      );
      return weigh(one, text, now, known, mainReadings(spec.alternator.phases), faults);
    })
    .filter(({ gain }) => gain.told >= LEAST_TOLD || gain.narrows >= LEAST_NARROWS)
    .sort((a, b) => b.gain.told - a.gain.told || b.gain.narrows - a.gain.narrows);
}

interface Candidate {
  readonly one: Asked;
  readonly text: string;
  readonly scale: ReturnType<typeof shrinkage>;
  /** One deviation of the readings through a wrong guess between a few. */
  readonly apart: Float64Array | null;
}

/** A figure that is wide, guessed or missing; null where it is known well enough. */
function candidate(
  machine: Machine,
  one: Asked,
  spreads: ReturnType<typeof spreadsOf>,
  sound: Float64Array,
): Candidate | null {
  const figure = figureAt(machine, one.at);
  if (figure !== null && one.others && !isGuessed(machine, figure.from)) return null;
  const text =
    figure === null
      ? 'not in the file'
      : `${figure.text} (${machine.sources[figure.from]?.title ?? figure.from})`;
  if (one.others) {
    const others = one.others(figure?.is ?? null);
    if (others.length === 0) return null;
    const apart = new Float64Array(sound.length);
    for (const value of others) {
      const shows = shownBy(specWith(machine, one.at, value), []);
      for (let n = 0; n < apart.length; n++) {
        const off = Number.isNaN(shows[n]!) ? 0 : shows[n]! - sound[n]!;
        // The widest of the others stands for them.
        if (Math.abs(off) > Math.abs(apart[n]!)) apart[n] = off;
      }
    }
    // Deviation of a thing that is there with chance p: √(p(1 − p)).
    const share = Math.sqrt(GUESS_WRONG * (1 - GUESS_WRONG));
    return { one, text, scale: {}, apart: apart.map((value) => share * value) };
  }
  if (figure === null) return null;
  const scale = shrinkage(spreads, spreadsOf(specWith(machine, one.at)));
  return Object.keys(scale).length === 0 ? null : { one, text, scale, apart: null };
}

interface Look {
  readonly widths: readonly number[];
  /** Chance of a mistake for each pair; null for pairs of one repair. */
  readonly mistakes: readonly (readonly (number | null)[])[];
}

function look(
  covariance: readonly Float64Array[],
  shown: readonly Float64Array[],
  faults: readonly Usual[],
): Look {
  const places = whitened(covariance, shown);
  const repair = (n: number) => (n === 0 ? null : FAULTS[faults[n - 1]!.fault].repair);
  return {
    widths: covariance.map((row, n) => 2 * 1.96 * Math.sqrt(row[n]!)),
    mistakes: places.map((a, n) =>
      places.map((b, m) => (m >= n || repair(n) === repair(m) ? null : mistakeChance(a, b))),
    ),
  };
}

interface Told {
  readonly pair: readonly [number, number];
  readonly gained: number;
}

function weigh(
  one: Asked,
  text: string,
  now: Look,
  known: Look,
  keys: readonly string[],
  faults: readonly Usual[],
): Sharpening {
  let [apart, pairs] = [0, 0];
  const all: Told[] = [];
  for (const [n, row] of now.mistakes.entries())
    for (const [m, before] of row.entries()) {
      const after = known.mistakes[n]![m]!;
      if (before === null || after === null) continue;
      pairs++;
      all.push({ pair: [n, m], gained: before - after });
      if (before > APART && after <= APART) apart++;
    }
  const bands = keys
    .map((key, n) => ({ key, now: now.widths[n]!, known: known.widths[n]! }))
    .sort((a, b) => a.known / a.now - b.known / b.now);
  const gain = {
    told: all.reduce((sum, { gained }) => sum + gained, 0),
    apart,
    pairs,
    narrows: bands.reduce((sum, band) => sum + (1 - band.known / band.now) / bands.length, 0),
    bands: bands.filter((band) => band.known < 0.99 * band.now).slice(0, 3),
  };
  return {
    path: `$.charging.${one.at.join('.')}`,
    label: one.label,
    now: text,
    why: `${sentence(one, gain, all, faults)}: ${one.how}.`,
    gain,
  };
}

/** Under this fall of the chance of a mistake a pair is not named, 0–1. */
const NAMED = 0.01;
/** A band that narrows by less than one part in twenty is not named, 1. */
const WORTH_NAMING = 0.95;

function sentence(one: Asked, gain: Gain, all: readonly Told[], faults: readonly Usual[]): string {
  const title = (n: number) => `"${FAULTS[faults[n - 1]!.fault].title}"`;
  const byGain = all.filter(({ gained }) => gained >= NAMED).sort((a, b) => b.gained - a.gained);
  // A fault against a sound bike is the plainer thing to say.
  const [first, second] = byGain.filter(({ pair }) => pair[1] === 0);
  const best = byGain[0];
  if (first && best && first.gained > 0.5 * best.gained) {
    const also = second && second.gained > 0.5 * first.gained ? ` and ${title(second.pair[0])}` : '';
    return `The ${one.label} would help to tell ${title(first.pair[0])}${also} from a sound bike`;
  }
  if (best) return `The ${one.label} would help to tell ${title(best.pair[0])} from ${title(best.pair[1])}`;
  const band = gain.bands[0];
  if (!band || band.known > WORTH_NAMING * band.now)
    return `The ${one.label} would help a little with many faults`;
  const key = readKey(band.key)!;
  const unit = KINDS[key.kind]!.unit;
  const width = (value: number) => `${Number(value.toPrecision(2))} ${unit}`;
  return `The ${one.label} would narrow what a sound bike shows (${describeReading(key)}) from ${width(band.now)} to ${width(band.known)}`;
}
