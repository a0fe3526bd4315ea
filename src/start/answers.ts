/** Answers to the first questions, read: each a text as a person writes it, or nothing. */
import { readAs } from '../machine/entry.ts';
import { ANSWER_SOURCES, type AnswerSource, QUESTION_IDS, type QuestionId, questionOf } from './questions.ts';
import { isTemplateId, TEMPLATE_IDS, type TemplateId } from './template.ts';

/** One answer: its text, and who says so where that is not the usual one. */
export interface SaidAnswer {
  readonly value: string;
  readonly from?: AnswerSource;
  readonly page?: string;
  readonly note?: string;
}

export type Answers = { readonly [K in QuestionId]?: string | SaidAnswer | null };

/** What is wrong with an answer, one sentence that says what to do. */
export interface AnswerProblem {
  readonly question: QuestionId;
  readonly why: string;
}

/** A figure as answered: its text for the file, its middle, and who says so. */
export interface AnsweredFigure {
  readonly text: string;
  readonly middle: number;
  readonly from: AnswerSource;
  readonly page: string | undefined;
  readonly note: string | undefined;
}

export interface AnsweredAtSpeed extends AnsweredFigure {
  /** "1000 rpm". */
  readonly at: string;
}

export interface ReadAnswers {
  readonly template: TemplateId;
  readonly maker: string | null;
  readonly model: string | null;
  readonly year: number | null;
  readonly phases: (Omit<AnsweredFigure, 'middle'> & { readonly is: 1 | 3 }) | null;
  readonly rated: AnsweredAtSpeed | null;
  readonly acVolts: AnsweredAtSpeed | null;
  readonly regulator: AnsweredFigure | null;
  readonly batteryKind: AnsweredFigure | null;
  readonly batteryCapacity: AnsweredFigure | null;
  /** Low and high beam. */
  readonly headlamp: { readonly low: AnsweredFigure; readonly high: AnsweredFigure } | null;
  readonly accessories: AnsweredFigure | null;
}

/** What counts as no answer. */
const OPEN = /^(?:|\?+|-|–|unknown|not known|don'?t know|i don'?t know|do not know)$/i;

export function normalAnswer(answer: string | SaidAnswer | null | undefined): SaidAnswer | null {
  if (answer === null || answer === undefined) return null;
  const said = typeof answer === 'string' ? { value: answer } : answer;
  const value = said.value.normalize('NFC').replaceAll('’', "'").replace(/\s+/g, ' ').trim();
  return OPEN.test(value) ? null : { ...said, value };
}

/** Volts at which a label's watts become an alternator's amps, V: chargers are rated at 14 V (common practice, no source). */
const RATED_AT_VOLTS = 14;

/** Tolerance written behind a lone figure, %: what books allow, and what a cheap meter with an engine speed by ear may miss. */
const USUAL_TOLERANCE = { labels: 10, book: 10, measured: 8, guess: 25 } as const;

const TEXT_LIMITS = { maker: 60, model: 60 } as const;

export type AnswersRead =
  | { readonly ok: true; readonly read: ReadAnswers }
  | { readonly ok: false; readonly problems: readonly AnswerProblem[] };

/** Reads every answer; all problems at once. `thisYear`: year of the caller's clock. */
export function readAnswers(answers: Answers, thisYear: number): AnswersRead {
  const problems: AnswerProblem[] = [];
  const refuse = (question: QuestionId, why: string): null => {
    problems.push({ question, why });
    return null;
  };
  for (const id of Object.keys(answers))
    if (!(QUESTION_IDS as readonly string[]).includes(id))
      throw new RangeError(`answers must name first questions, got "${id}"`);
  const said = (id: QuestionId): SaidAnswer | null => {
    const answer = normalAnswer(answers[id]);
    if (answer === null) return null;
    const { from, page, note } = answer;
    if (from !== undefined && !(ANSWER_SOURCES as readonly string[]).includes(from))
      return refuse(id, `"${from}" cannot say it: write ${ANSWER_SOURCES.join(', ')}.`);
    if ((page?.length ?? 0) > 60) return refuse(id, 'The page is longer than 60 letters: shorten it.');
    if ((note?.length ?? 0) > 400) return refuse(id, 'The remark is longer than 400 letters: shorten it.');
    return answer;
  };
  const figure = (id: QuestionId, answer: SaidAnswer, text: string, middle: number): AnsweredFigure => ({
    text,
    middle,
    from: answer.from ?? questionOf(id).usually ?? 'guess',
    page: blank(answer.page),
    note: blank(answer.note),
  });
  const chosen = (id: QuestionId): AnsweredFigure | null => {
    const answer = said(id);
    if (answer === null) return null;
    const choices = questionOf(id).choices!.map(({ value }) => value);
    const value = answer.value.toLowerCase();
    if (!choices.includes(value))
      return refuse(
        id,
        `"${answer.value}" is none of them: write ${choices.join(' or ')}, or leave it open.`,
      );
    return figure(id, answer, value, Number.NaN);
  };
  const words = (id: 'maker' | 'model'): string | null => {
    const answer = said(id);
    if (answer === null || answer.value.length <= TEXT_LIMITS[id]) return answer?.value ?? null;
    return refuse(id, `The name is longer than ${TEXT_LIMITS[id]} letters: shorten it.`);
  };

  const template = templateOf(said('template'), refuse);
  const phases = chosen('phases');
  const read = {
    maker: words('maker'),
    model: words('model'),
    year: yearOf(said('year'), thisYear, refuse),
    phases: phases && { ...phases, is: phases.text === '3' ? (3 as const) : (1 as const) },
    rated: ratedOf(said('rated'), figure, refuse),
    acVolts: acVoltsOf(said('acVolts'), figure, refuse),
    regulator: chosen('regulator'),
    batteryKind: chosen('batteryKind'),
    batteryCapacity: capacityOf(said('batteryCapacity'), figure, refuse),
    headlamp: headlampOf(said('headlamp'), figure, refuse),
    accessories: accessoriesOf(said('accessories'), figure, refuse),
  };
  if (template === null || problems.length > 0) return { ok: false, problems };
  return { ok: true, read: { template, ...read } };
}

type Refuse = (question: QuestionId, why: string) => null;
type Write = (id: QuestionId, answer: SaidAnswer, text: string, middle: number) => AnsweredFigure;

const blank = (text: string | undefined) =>
  text === undefined || text.trim() === '' ? undefined : text.trim();

function templateOf(answer: SaidAnswer | null, refuse: Refuse): TemplateId | null {
  const which = `Choose one: ${TEMPLATE_IDS.join(', ')}.`;
  if (answer === null) return refuse('template', `The template is not said. ${which}`);
  const value = answer.value.toLowerCase();
  return isTemplateId(value) ? value : refuse('template', `"${answer.value}" is no template. ${which}`);
}

function yearOf(answer: SaidAnswer | null, thisYear: number, refuse: Refuse): number | null {
  if (answer === null) return null;
  const year = /^\d{4}$/.test(answer.value) ? Number(answer.value) : Number.NaN;
  const last = Math.min(2100, thisYear + 1);
  if (year >= 1950 && year <= last) return year;
  return refuse(
    'year',
    `"${answer.value}" is no year from 1950 to ${last}: write four digits, or leave it open.`,
  );
}

/** A bare figure, or a range of them, gets the question's unit. */
function withUnit(text: string, unit: string): string {
  return /^[\d.,]+(?:\s*(?:±|[–-])\s*[\d.,]+)?$/.test(text) ? `${text} ${unit}` : text;
}

type EntryKind = Parameters<typeof readAs>[1];

/** Reads a quantity of a kind within what the machine file takes; the sentence says what to write instead. */
function within(
  id: QuestionId,
  text: string,
  kind: EntryKind,
  [low, high, words]: readonly [number, number, string],
  refuse: Refuse,
): { readonly low: number; readonly high: number } | null {
  const entry = readAs(text, kind);
  const like = `Write it like ${questionOf(id).example}, or leave it open.`;
  if (!entry.ok) {
    // "…: write e.g. …" has an example of its own, which may not suit.
    const words = entry.why.replace(/: write .*$/s, '').replace(/\.$/, '');
    const why = kind === 'load' ? words.replace('a current is', 'amps or watts are') : words;
    return refuse(id, `${why.replace(/^./, (letter) => letter.toUpperCase())}. ${like}`);
  }
  if (entry.low < low || entry.high > high)
    return refuse(
      id,
      `"${text}" lies outside what is believed here, ${words}. Check figure, unit and decimal point.`,
    );
  return entry;
}

/** A tolerance behind a lone figure: the file wants to know how far a sound bike may be off. */
function wide(
  text: string,
  read: { low: number; high: number },
  answer: SaidAnswer,
  usual: AnswerSource,
): string {
  return read.low < read.high ? text : `${text} ± ${USUAL_TOLERANCE[answer.from ?? usual]} %`;
}

interface AtSpeed {
  readonly value: string;
  /** As it stands in the file: "1000 rpm". */
  readonly at: string;
  readonly rpm: number;
}

/** "51 V at 3000 rpm" and "17 V per 1000 rpm" taken apart; `otherwise` is the speed where none is said. */
function splitSpeed(
  id: 'rated' | 'acVolts',
  text: string,
  otherwise: string,
  refuse: Refuse,
): AtSpeed | null {
  const each = /^(.*?)\s*(?:\bper\b|\/)\s*(1[,.]?000(?:\s*rpm)?)$/i.exec(text);
  const found = each ?? /^(.*?)\s*(?:\bat\b|@)\s*(.*)$/i.exec(text);
  const at = withUnit((found?.[2] ?? otherwise).trim(), 'rpm');
  const rpm = within(id, at, 'rpm', [300, 15000, 'from 300 to 15,000 rpm'], refuse);
  if (rpm === null) return null;
  if (rpm.low < rpm.high)
    return refuse(id, `"${at}" is a range: write the one engine speed, like ${otherwise}.`);
  return { value: (found?.[1] ?? text).trim(), at, rpm: rpm.low };
}

const RATED = [2, 75, 'from 2 to 75 A'] as const;

function ratedOf(answer: SaidAnswer | null, write: Write, refuse: Refuse): AnsweredAtSpeed | null {
  if (answer === null) return null;
  const split = splitSpeed('rated', answer.value, '5000 rpm', refuse);
  if (split === null) return null;
  const text = withUnit(split.value, 'A');
  const watts = readAs(text, 'load');
  const isWatts = watts.ok && !readAs(text, 'current').ok;
  // `load` reads watts at 13.5 V; an alternator's are at 14 V.
  const amps = (value: number) => Number(((value * 13.5) / RATED_AT_VOLTS).toPrecision(3));
  const said = !isWatts
    ? text
    : watts.low === watts.high
      ? `${amps(watts.low)} A`
      : `${amps(watts.low)}–${amps(watts.high)} A`;
  const read = within('rated', said, 'current', RATED, refuse);
  if (read === null) return null;
  const taken = isWatts ? `Said as ${text}, taken at ${RATED_AT_VOLTS} V.` : undefined;
  const note = [answer.note, taken].filter(Boolean).join(' ').slice(0, 400);
  const figure = write(
    'rated',
    { ...answer, note },
    wide(said, read, answer, 'book'),
    (read.low + read.high) / 2,
  );
  return { ...figure, at: split.at };
}

function acVoltsOf(answer: SaidAnswer | null, write: Write, refuse: Refuse): AnsweredAtSpeed | null {
  if (answer === null) return null;
  const split = splitSpeed('acVolts', answer.value, '1000 rpm', refuse);
  if (split === null) return null;
  const volts = withUnit(split.value, 'V');
  const read = within('acVolts', volts, 'voltage', [2.7, 160, 'from 2.7 to 160 V'], refuse);
  if (read === null) return null;
  const middle = (((read.low + read.high) / 2) * 1000) / split.rpm;
  const text = wide(volts, read, answer, 'book').replace(/^(.*?)\bV\b(?! ?AC)/, '$1V AC');
  return { ...write('acVolts', answer, text, middle), at: split.at };
}

function capacityOf(answer: SaidAnswer | null, write: Write, refuse: Refuse): AnsweredFigure | null {
  if (answer === null) return null;
  const text = withUnit(answer.value, 'Ah');
  const read = within('batteryCapacity', text, 'charge', [3600, 216000, 'from 1 to 60 Ah'], refuse);
  if (read === null) return null;
  if (read.low < read.high)
    return refuse('batteryCapacity', `"${text}" is a range: write the one figure on the label, like 18 Ah.`);
  return write('batteryCapacity', answer, text, read.low / 3600);
}

const LOAD = [0, 40, 'from 0 to 40 A (540 W)'] as const;

/** "60/55 W" on a bulb's foot is high beam and low beam, not a fraction. */
function headlampOf(
  answer: SaidAnswer | null,
  write: Write,
  refuse: Refuse,
): { readonly low: AnsweredFigure; readonly high: AnsweredFigure } | null {
  if (answer === null) return null;
  const two = /^([\d.,]+)\s*(?:W\s*)?\/\s*([\d.,]+)\s*W?$/i.exec(answer.value);
  const texts = two ? [two[1]!, two[2]!] : [answer.value, answer.value];
  const beams: AnsweredFigure[] = [];
  for (const one of texts) {
    const text = withUnit(one, 'W');
    const read = within('headlamp', text, 'load', LOAD, refuse);
    if (read === null) return null;
    beams.push(write('headlamp', answer, text, (read.low + read.high) / 2));
  }
  const [a, b] = beams as [AnsweredFigure, AnsweredFigure];
  return a.middle <= b.middle ? { low: a, high: b } : { low: b, high: a };
}

function accessoriesOf(answer: SaidAnswer | null, write: Write, refuse: Refuse): AnsweredFigure | null {
  if (answer === null) return null;
  const text = /^(?:none|no|nothing|0)$/i.test(answer.value) ? '0 A' : withUnit(answer.value, 'W');
  const read = within('accessories', text, 'load', LOAD, refuse);
  return read && write('accessories', answer, text, (read.low + read.high) / 2);
}
