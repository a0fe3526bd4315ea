/** The machine file that follows from a template and a few answers: said figures as said, all others wide and marked so. */
import { VERSION } from '../machine/bring-up.ts';
import { readAs } from '../machine/entry.ts';
import { type Json, type JsonObject, writeJson } from '../machine/json-value.ts';
import {
  type AnsweredFigure,
  type AnswerProblem,
  type Answers,
  type ReadAnswers,
  readAnswers,
} from './answers.ts';
import { ampHoursFor, crankAmpsFor, fuseFor, loadsFor, pairOhmsFor } from './guesses.ts';
import { TEMPLATES } from './template.ts';

export type FileWritten =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problems: readonly AnswerProblem[] };

/** Years that an unknown year is taken before today, years: only the chance of a seized screw hangs on it. */
const YEARS_BACK = 25;

/** Writes the file. `date`: the caller's day, "2026-11-28". */
export function fileFromAnswers(answers: Answers, date: string): FileWritten {
  if (!/^(?:19|20)\d\d-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])$/.test(date))
    throw new RangeError(`date must be a day like 2026-11-28, got "${date}"`);
  const answered = readAnswers(answers, Number(date.slice(0, 4)));
  if (!answered.ok) return answered;
  const { read } = answered;
  const { way, name } = TEMPLATES[read.template];
  const year = read.year ?? Number(date.slice(0, 4)) - YEARS_BACK;
  const file: Json = {
    version: VERSION,
    about: {
      maker: read.maker ?? 'Own',
      model: read.model ?? 'bike',
      year,
      invented: false,
      note: `Begun on ${date} from the template "${name}". What nobody has said is a wide guess; correct it as you learn.${read.year === null ? ` The year is not known: ${year} stands in, for the times of the way in alone.` : ''}`,
    },
    sources: {
      book: { kind: 'book', title: "The bike's own book" },
      labels: { kind: 'measured', title: 'Read off the bike and its labels', date },
      measured: { kind: 'measured', title: 'Measured on the bike', date },
      trade: { kind: 'common-practice', title: 'Common practice, no source' },
      guess: { kind: 'guess', title: 'Guess, nobody has said' },
    },
    charging: chargingOf(read),
    parts: way.parts,
    fasteners: way.fasteners,
    fluids: way.fluids,
    work: way.work,
  };
  return { ok: true, text: writeJson(file) };
}

const guess = (is: Json, note?: string): JsonObject => ({ is, from: 'guess', note });
const trade = (is: Json, note?: string): JsonObject => ({ is, from: 'trade', note });
const said = ({ text, from, page, note }: Omit<AnsweredFigure, 'middle'>, is: Json = text): JsonObject => ({
  is,
  from,
  page,
  note,
});

/** The figure with its engine speed, which stands right behind it. */
const at = (speed: string, { is, ...rest }: JsonObject): JsonObject => ({ is, at: speed, ...rest });

/** Middle of a quantity written here, in amps of its kind, A. */
function amps(text: string, kind: 'current' | 'load'): number {
  const read = readAs(text, kind);
  if (!read.ok) throw new RangeError(`text must be amps or watts, got "${text}"`);
  return (read.low + read.high) / 2;
}

function chargingOf(read: ReadAnswers): Json {
  const template = TEMPLATES[read.template];
  const phases = read.phases?.is ?? template.phases;
  const ratedAmps = read.rated?.middle ?? amps(template.ratedAmps, 'current');
  const ampHours = read.batteryCapacity?.middle ?? ampHoursFor(read.template, ratedAmps);
  return {
    alternator: {
      phases: read.phases ? said(read.phases, phases) : guess(phases, 'Count the wires at the stator plug.'),
      pins: read.phases ? { is: phases === 3 ? 3 : 2, from: read.phases.from } : guess(phases === 3 ? 3 : 2),
      openVolts: at(
        read.acVolts?.at ?? '1000 rpm',
        read.acVolts
          ? said(read.acVolts)
          : guess(
              template.openVolts,
              'Wide, because nobody has said. Look it up under stator test, or take a reading from a day it charged well.',
            ),
      ),
      ratedAmps: at(
        read.rated?.at ?? '5000 rpm',
        read.rated
          ? said(read.rated)
          : guess(template.ratedAmps, 'Wide, because nobody has said. Look it up in the table of data.'),
      ),
      pairOhms: guess(pairOhmsFor(ratedAmps), 'Wide, because nobody has said: what suits the rated amps.'),
    },
    regulator: {
      type: read.regulator ? said(read.regulator) : trade('shunt', 'Nobody has said; most are shunts.'),
      chargeVolts: trade('13.8–14.8 V', 'Wide, because nobody has said. The book narrows it.'),
      senses: guess('output', 'Where it has no thin wire of its own to the battery side.'),
    },
    battery: batteryOf(read, ampHours),
    ...feedOf(read, ratedAmps),
    restDrain: trade('5 mA', 'A few milliamps; more with a clock or an alarm.'),
    tachometer: guess(false, 'Write true where the bike has a rev counter: readings then count for more.'),
  };
}

function batteryOf(read: ReadAnswers, ampHours: number): JsonObject {
  return {
    chemistry: read.batteryKind
      ? said(read.batteryKind)
      : guess('flooded', 'Nobody has said; see the label.'),
    capacity: read.batteryCapacity
      ? said(read.batteryCapacity)
      : guess(`${ampHours} Ah`, 'Nobody has said; see the label.'),
    crankAmps: guess(`${crankAmpsFor(ampHours)} A`, 'Some 14 A an Ah; see the label.'),
  };
}

function feedOf(read: ReadAnswers, ratedAmps: number): JsonObject {
  const loads = loadsFor(ratedAmps);
  const { headlamp, accessories } = read;
  const lamp = (beam: AnsweredFigure | undefined): JsonObject =>
    beam ? said(beam) : guess(loads.lamp, 'Nobody has said; see the foot of the bulb.');
  const drawn =
    amps(loads.ignition, 'load') +
    amps(loads.tail, 'load') +
    amps(headlamp?.high.text ?? loads.lamp, 'load') +
    amps(accessories?.text ?? loads.accessories, 'load');
  return {
    loads: {
      ignition: guess(loads.ignition, 'Wide, because nobody has said: a clamp meter at the main wire tells.'),
      low: lamp(headlamp?.low),
      high: lamp(headlamp?.high),
      tail: guess(loads.tail, 'Tail, plate and instrument lamps together; see the bulbs.'),
      accessories: accessories
        ? said(accessories)
        : guess(loads.accessories, 'Nobody has said what was added.'),
    },
    loadsFedFrom: guess('battery', 'As on most bikes: the loads hang on the battery side of the main fuse.'),
    fuse: guess(`${fuseFor(ratedAmps, drawn)} A`, 'What suits the rated amps; see the fuse.'),
  };
}
