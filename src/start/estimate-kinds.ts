/** The estimates as data: what each wants to know, as texts that people write, and the figure with its reasons. */
import { type EntryKind, readAs } from '../machine/entry.ts';
import { between, type Estimate, type Estimated, type Input, writeInterval } from './estimate.ts';
import { henryFrom, openVoltsFrom, ratedFromOhms, speedOf, type Winding } from './estimate-alternator.ts';
import { clampAmps, ohmsFromDrop } from './estimate-wiring.ts';

export interface EstimateField {
  readonly id: string;
  readonly words: string;
  readonly example: string;
  /** A choice of words; absent for quantities. */
  readonly choices?: readonly string[];
  /** What is read where nothing is given; absent for what must be given. */
  readonly otherwise?: string;
}

export interface FieldProblem {
  readonly field: string;
  readonly why: string;
}

export type Reckoned =
  | {
      readonly ok: true;
      readonly estimate: Estimate;
      /** The interval as it goes into a machine file: "16.6–18 V AC". */
      readonly text: string;
    }
  | { readonly ok: false; readonly problems: readonly FieldProblem[] };

export interface EstimateKind {
  readonly id: string;
  readonly words: string;
  readonly fields: readonly EstimateField[];
  /** Where in the file it belongs; null where it is only good to know. */
  readonly goes: string | null;
  readonly reckon: (texts: Readonly<Record<string, string>>) => Reckoned;
}

interface Bounds {
  readonly kind: EntryKind;
  readonly low: number;
  readonly high: number;
  readonly words: string;
}

const SPEED: Bounds = { kind: 'rpm', low: 300, high: 15000, words: 'from 300 to 15,000 rpm' };
const AC: Bounds = { kind: 'voltage', low: 1, high: 300, words: 'from 1 to 300 V' };
const OHMS: Bounds = { kind: 'resistance', low: 0.02, high: 10, words: 'from 0.02 to 10 Ω' };
const AMPS: Bounds = { kind: 'current', low: 0.5, high: 100, words: 'from 0.5 to 100 A' };
const DROP: Bounds = { kind: 'voltage', low: 0.001, high: 15, words: 'from 1 mV to 15 V' };

/** Reads the fields of one estimate; everything that is wrong at once. */
class Reading {
  readonly problems: FieldProblem[] = [];
  private readonly fields: readonly EstimateField[];
  private readonly texts: Readonly<Record<string, string>>;

  constructor(fields: readonly EstimateField[], texts: Readonly<Record<string, string>>) {
    this.fields = fields;
    this.texts = texts;
    for (const id of Object.keys(texts))
      if (!fields.some((field) => field.id === id))
        this.problems.push({
          field: id,
          why: `"${id}" is none of its fields: it may be ${fields.map((field) => field.id).join(', ')}.`,
        });
  }

  private text(id: string): string | null {
    const field = this.fields.find((one) => one.id === id)!;
    const text = (Object.hasOwn(this.texts, id) ? this.texts[id]! : '').trim() || field.otherwise;
    if (text !== undefined) return text;
    this.problems.push({
      field: id,
      why: `${id} is not given: write ${field.words}, like ${field.example}.`,
    });
    return null;
  }

  /** A quantity or a range of it; null where it cannot be read. */
  quantity(id: string, { kind, low, high, words }: Bounds): Input | null {
    const text = this.text(id);
    if (text === null) return null;
    const { example, words: what } = this.fields.find((one) => one.id === id)!;
    const read = readAs(text, kind);
    if (!read.ok) {
      this.problems.push({ field: id, why: `"${text}" is no ${what}: write it like ${example}.` });
      return null;
    }
    if (read.low >= low && read.high <= high) return between(what, read.low, read.high);
    this.problems.push({
      field: id,
      why: `"${text}" lies outside what is believed here, ${words}: check figure, unit and decimal point.`,
    });
    return null;
  }

  choice(id: string): string | null {
    const { choices = [] } = this.fields.find((one) => one.id === id)!;
    const text = this.text(id)?.toLowerCase() ?? null;
    if (text === null || choices.includes(text)) return text;
    this.problems.push({ field: id, why: `"${text}" is none of them: write ${choices.join(' or ')}.` });
    return null;
  }

  refused(): Reckoned {
    return { ok: false, problems: this.problems };
  }
}

function done(estimated: Estimated, field: string, unit: string, scale = 1): Reckoned {
  if (!estimated.ok) return { ok: false, problems: [{ field, why: estimated.why }] };
  const { low, high } = estimated;
  return {
    ok: true,
    estimate: estimated,
    text: writeInterval({ low: low * scale, high: high * scale }, unit),
  };
}

const PHASES: EstimateField = { id: 'phases', words: 'stator wires', example: '3', choices: ['3', '1'] };
const WINDING: readonly EstimateField[] = [
  PHASES,
  { id: 'volts', words: 'AC volts between two pins', example: '17 V ± 10 %' },
  {
    id: 'speed',
    words: 'at which engine speed the AC volts were read',
    example: '1000 rpm',
    otherwise: '1000 rpm',
  },
  { id: 'ohms', words: 'ohms between two pins', example: '0.18–0.24 Ω' },
  { id: 'rated-speed', words: 'engine speed of the rated amps', example: '5000 rpm', otherwise: '5000 rpm' },
];

/** Pole pairs where nobody has counted: 8 to 18 poles are met with. */
const ANY_PAIRS = between('count of poles', 4, 9);

function windingOf(reading: Reading): Winding | null {
  const phases = reading.choice('phases');
  const volts = reading.quantity('volts', AC);
  const speed = reading.quantity('speed', SPEED);
  const pairOhms = reading.quantity('ohms', OHMS);
  const rated = reading.quantity('rated-speed', SPEED);
  if (phases === null || !volts || !speed || !pairOhms || !rated) return null;
  const per = 1000 / speed.middle;
  return {
    phases: phases === '3' ? 3 : 1,
    openVolts: { ...volts, low: volts.low * per, middle: volts.middle * per, high: volts.high * per },
    pairOhms,
    polePairs: ANY_PAIRS,
    rpm: rated.middle,
  };
}

const AC_FIELDS: readonly EstimateField[] = [
  { id: 'volts', words: 'AC volts read between two pins', example: '51 V' },
  { id: 'speed', words: 'engine speed', example: '3000 rpm' },
  {
    id: 'by',
    words: 'how the speed is known',
    example: 'ear',
    choices: ['ear', 'tachometer'],
    otherwise: 'ear',
  },
  {
    id: 'engine',
    words: 'how warm the engine was',
    example: 'cold',
    choices: ['cold', 'hot', 'unknown'],
    otherwise: 'unknown',
  },
];
const HENRY_FIELDS: readonly EstimateField[] = [
  ...WINDING,
  { id: 'rated', words: 'rated amps', example: '34 A ± 8 %' },
  { id: 'poles', words: 'poles of the rotor', example: '14', otherwise: 'unknown' },
];
const DROP_FIELDS: readonly EstimateField[] = [
  { id: 'drop', words: 'volts lost over the run', example: '0.25 V' },
  { id: 'amps', words: 'amps through it meanwhile', example: '18 A' },
  {
    id: 'by',
    words: 'how the amps are known',
    example: 'clamp',
    choices: ['clamp', 'said'],
    otherwise: 'clamp',
  },
];

export const ESTIMATE_KINDS: readonly EstimateKind[] = [
  {
    id: 'ac-volts',
    words: 'AC volts at 1000 rpm from one reading, stator unplugged',
    fields: AC_FIELDS,
    goes: '$.charging.alternator.openVolts',
    reckon: (texts) => {
      const reading = new Reading(AC_FIELDS, texts);
      const volts = reading.quantity('volts', AC);
      const speed = reading.quantity('speed', SPEED);
      const by = reading.choice('by') as 'ear' | 'tachometer' | null;
      const engine = reading.choice('engine') as 'cold' | 'hot' | 'unknown' | null;
      if (reading.problems.length > 0 || !volts || !speed || !by || !engine) return reading.refused();
      // A stated range of speeds is taken as it stands.
      const rpm = speed.low < speed.high ? speed : speedOf(speed.middle, by);
      return done(openVoltsFrom({ volts: volts.middle, rpm, engine }), 'volts', 'V AC');
    },
  },
  {
    id: 'inductance',
    words: 'inductance of a phase from rated amps and AC volts',
    fields: HENRY_FIELDS,
    goes: null,
    reckon: (texts) => {
      const reading = new Reading(HENRY_FIELDS, texts);
      const winding = windingOf(reading);
      const rated = reading.quantity('rated', AMPS);
      const poles = polesOf(texts.poles, reading.problems);
      if (reading.problems.length > 0 || !winding || !rated || !poles) return reading.refused();
      return done(henryFrom({ ...winding, polePairs: poles }, rated), 'rated', 'mH', 1000);
    },
  },
  {
    id: 'rated',
    words: 'rated amps from AC volts and ohms alone, rough',
    fields: WINDING,
    goes: '$.charging.alternator.ratedAmps',
    reckon: (texts) => {
      const reading = new Reading(WINDING, texts);
      const winding = windingOf(reading);
      if (reading.problems.length > 0 || !winding) return reading.refused();
      return done(ratedFromOhms(winding), 'volts', 'A');
    },
  },
  {
    id: 'ohms',
    words: 'ohms of a run of wire with its joints from one drop reading',
    fields: DROP_FIELDS,
    goes: null,
    reckon: (texts) => {
      const reading = new Reading(DROP_FIELDS, texts);
      const drop = reading.quantity('drop', DROP);
      const amps = reading.quantity('amps', AMPS);
      const by = reading.choice('by');
      if (reading.problems.length > 0 || !drop || !amps || !by) return reading.refused();
      const through = by === 'clamp' && amps.low === amps.high ? clampAmps(amps.middle) : amps;
      return done(ohmsFromDrop({ volts: drop.middle, amps: through }), 'drop', 'mΩ', 1000);
    },
  },
];

function polesOf(text: string | undefined, problems: FieldProblem[]): Input | null {
  const said = text?.trim() ?? '';
  if (said === '' || said === 'unknown') return ANY_PAIRS;
  const poles = Number(said);
  if (Number.isInteger(poles) && poles >= 2 && poles <= 36 && poles % 2 === 0)
    return between('count of poles', poles / 2, poles / 2);
  problems.push({
    field: 'poles',
    why: `"${said}" is no count of poles: write an even number from 2 to 36, like 14.`,
  });
  return null;
}
