/**
 * The first questions: only what the verdict needs before anything else. All but the template may be left open; each says
 * what is then taken. A screen, a command and a page ask from this one list.
 */
import { loadsFor } from './guesses.ts';
import { TEMPLATE_IDS, TEMPLATES, type TemplateId } from './template.ts';

export const QUESTION_IDS = [
  'template',
  'maker',
  'model',
  'year',
  'phases',
  'rated',
  'acVolts',
  'regulator',
  'batteryKind',
  'batteryCapacity',
  'headlamp',
  'accessories',
] as const;
export type QuestionId = (typeof QUESTION_IDS)[number];

/** Who says an answer: `labels` covers whatever was read off the bike itself. */
export const ANSWER_SOURCES = ['labels', 'book', 'measured', 'guess'] as const;
export type AnswerSource = (typeof ANSWER_SOURCES)[number];

export interface Choice {
  readonly value: string;
  readonly label: string;
}

export interface Question {
  readonly id: QuestionId;
  /** The question in plain words. */
  readonly asks: string;
  /** `words`: a name; `count`: a whole number; `quantity`: a figure with its unit, or a range of it. */
  readonly kind: 'choice' | 'words' | 'count' | 'quantity';
  readonly choices?: readonly Choice[];
  /** Taken where a quantity is given as a bare figure. */
  readonly unit?: string;
  readonly example?: string;
  /** Whether the file can be written without it. */
  readonly optional: boolean;
  readonly why: string;
  /** Where to find it on the bike. */
  readonly where: string;
  /** Who says it unless told otherwise; null where the answer is no figure. */
  readonly usually: AnswerSource | null;
}

export const FIRST_QUESTIONS: readonly Question[] = [
  {
    id: 'template',
    asks: 'Which of these is most like the bike?',
    kind: 'choice',
    choices: TEMPLATE_IDS.map((value) => ({ value, label: TEMPLATES[value].name })),
    optional: false,
    why: 'It gives the way in, and wide figures for whatever is not said.',
    where: 'Look where the stator wires go into the engine, and what is screwed before that cover.',
    usually: null,
  },
  {
    id: 'maker',
    asks: 'What make is it?',
    kind: 'words',
    optional: true,
    why: 'So that you find the file again.',
    where: 'On the tank, the frame plate or the papers.',
    usually: null,
  },
  {
    id: 'model',
    asks: 'What model is it?',
    kind: 'words',
    optional: true,
    why: 'So that you find the file again.',
    where: 'On the side cover, the frame plate or the papers.',
    usually: null,
  },
  {
    id: 'year',
    asks: 'In which year was it built?',
    kind: 'count',
    example: '1994',
    optional: true,
    why: 'Old screws seize more often, and the work takes longer.',
    where: 'On the frame plate or in the papers.',
    usually: null,
  },
  {
    id: 'phases',
    asks: 'How many wires come out of the stator?',
    kind: 'choice',
    choices: [
      { value: '3', label: 'three wires (three phases)' },
      { value: '1', label: 'two wires (one phase)' },
    ],
    optional: true,
    why: 'Two and three wires are measured, and fail, in different ways.',
    where: 'At the plug between engine and regulator; a ground wire beside them does not count.',
    usually: 'labels',
  },
  {
    id: 'rated',
    asks: 'How many amps or watts can the alternator give?',
    kind: 'quantity',
    unit: 'A',
    example: '34 A',
    optional: true,
    why: 'It sets how many volts a sound bike reaches with everything on.',
    where:
      "In the book's table of data, or on the new stator's sheet; watts will do. Say the engine speed where it is printed: without one, 5000 rpm is taken.",
    usually: 'book',
  },
  {
    id: 'acVolts',
    asks: 'How many AC volts does the unplugged stator give between two wires?',
    kind: 'quantity',
    unit: 'V',
    example: '17 V at 1000 rpm',
    optional: true,
    why: 'It tells a weak rotor from a sound one.',
    where:
      'In the book under stator test, or your own reading from a day it charged well. Tonight’s reading goes under Readings, not here. Say the engine speed behind it: without one, 1000 rpm is taken. Engine running, stator unplugged: up to 90 V AC at the pins; touch no pin, hold the tips by the plastic.',
    usually: 'book',
  },
  {
    id: 'regulator',
    asks: 'What kind of regulator is on it?',
    kind: 'choice',
    choices: [
      { value: 'shunt', label: 'shunt: short-circuits the stator, runs hot; most bikes' },
      { value: 'series', label: 'series: opens the circuit, runs cooler' },
    ],
    optional: true,
    why: 'What the stator carries while the battery is full is quite different.',
    where:
      'On its sheet or box. A shunt shorts the stator and runs hot, a series one cuts it off and runs cooler; an original one is nearly always a shunt.',
    usually: 'labels',
  },
  {
    id: 'batteryKind',
    asks: 'What kind of battery is in it?',
    kind: 'choice',
    choices: [
      { value: 'flooded', label: 'flooded, with caps or a vent hose' },
      { value: 'agm', label: 'sealed AGM (glass mat)' },
    ],
    optional: true,
    why: 'A full one of each kind rests at other volts.',
    where:
      'On its label; caps or a vent hose mean flooded. Lithium and gel are not known here, and their volts will not fit: leave it open.',
    usually: 'labels',
  },
  {
    id: 'batteryCapacity',
    asks: 'What is the capacity of the battery?',
    kind: 'quantity',
    unit: 'Ah',
    example: '18 Ah',
    optional: true,
    why: 'A large battery takes more amps before its volts rise.',
    where: 'On its label.',
    usually: 'labels',
  },
  {
    id: 'headlamp',
    asks: 'How many watts is the headlamp bulb?',
    kind: 'quantity',
    unit: 'W',
    example: '60/55 W',
    optional: true,
    why: 'It is most of what the bike draws at idle.',
    where:
      'On the foot of the bulb; with two figures write both. Read it cold, lights off; of an LED see its box.',
    usually: 'labels',
  },
  {
    id: 'accessories',
    asks: 'What was added that draws current, and how much is it together?',
    kind: 'quantity',
    unit: 'W',
    example: '40 W, or none',
    optional: true,
    why: 'Heated gloves alone can take all that an alternator has left at idle.',
    where: 'Add up the labels of grips, gloves, lamps and chargers; write none when there is nothing.',
    usually: 'labels',
  },
];

export function questionOf(id: QuestionId): Question {
  return FIRST_QUESTIONS.find((one) => one.id === id)!;
}

/** What is taken when a question is left open, in words. */
export function otherwiseOf(id: QuestionId, template: TemplateId): string {
  const { openVolts, ratedAmps, phases, ampHours } = TEMPLATES[template];
  const loads = loadsFor(template === 'single' ? 0 : 30);
  const words: Readonly<Record<QuestionId, string>> = {
    template: 'It must be chosen.',
    maker: 'The file is called Own bike.',
    model: 'The file is called Own bike.',
    year: 'Twenty-five years before today, for the times of the way in alone.',
    phases: phases === 3 ? 'Three wires.' : 'Two wires.',
    rated: `${ratedAmps}, as wide as such bikes differ.`,
    acVolts: `${openVolts} at 1000 rpm, as wide as such bikes differ.`,
    regulator: 'A shunt, as on most bikes.',
    batteryKind: 'Flooded.',
    batteryCapacity: `Some ${ampHours} Ah, more where the alternator is large.`,
    headlamp: `${loads.lamp}.`,
    accessories: `${loads.accessories}.`,
  };
  return words[id];
}
