/** `begin`: a machine file for your own bike from a template and a few answers; alone, the questions. */
import { judgeFile } from '../machine/judge-file.ts';
import { type Answers, normalAnswer, type SaidAnswer } from '../start/answers.ts';
import { fileFromAnswers } from '../start/file-from-answers.ts';
import {
  ANSWER_SOURCES,
  FIRST_QUESTIONS,
  otherwiseOf,
  type Question,
  type QuestionId,
  questionOf,
} from '../start/questions.ts';
import { isTemplateId, TEMPLATE_IDS, TEMPLATES, type TemplateId } from '../start/template.ts';
import type { Command, Option } from './command.ts';
import type { Given } from './options.ts';
import { Refusal } from './refusal.ts';
import { wrap } from './table.ts';

/** The option that answers a question. */
const OPTION: Readonly<Record<QuestionId, `--${string}`>> = {
  template: '--template',
  maker: '--maker',
  model: '--model',
  year: '--year',
  phases: '--phases',
  rated: '--rated',
  acVolts: '--ac-volts',
  regulator: '--regulator',
  batteryKind: '--battery',
  batteryCapacity: '--capacity',
  headlamp: '--headlamp',
  accessories: '--accessories',
};

function optionOf({ id, asks, choices, example }: Question): Option {
  const words = choices?.map(({ value }) => value).join('|');
  const like = example === undefined ? '' : `, e.g. ${example}`;
  return {
    name: OPTION[id],
    value: words ?? 'TEXT',
    about: `${asks[0]!.toLowerCase()}${asks.slice(1).replace(/\?$/, '')}${like}`,
  };
}

export const begin: Command = {
  name: 'begin',
  about: 'Write a machine file for your own bike from a template and a few answers',
  takes: '',
  more: [
    'Alone it lists the questions, why each is asked and where the answer is found. All but the template may be left out: what nobody has said is taken wide and marked as a guess. No torque is invented: the file says "by the book" there.',
    'With a template it writes the file to standard output; "sharpen" then says which figure would narrow it most.',
  ],
  options: [
    ...FIRST_QUESTIONS.map(optionOf),
    {
      name: '--from',
      value: 'OPTION=WHO',
      many: true,
      about: `who says an answer, e.g. ac-volts=measured: ${ANSWER_SOURCES.join(', ')}`,
    },
    { name: '--page', value: 'OPTION=PAGE', many: true, about: 'where it stands, e.g. rated=8-3' },
    {
      name: '--json',
      about: 'write one JSON object: the questions, or the file as text with its mark and what was left open',
    },
  ],
  example: {
    line: 'begin --template primary --phases 3 --rated "34 A" > my-bike.json',
    shows: 'a machine file of which only the amps and the wires are known',
  },
  words: [0, 0],
  run: async (given) => {
    const answers = answersOf(given);
    const asked = Object.keys(answers).length > 0;
    if (!asked) return given.has('--json') ? `${JSON.stringify(questions())}\n` : listed();
    const file = fileFromAnswers(answers, today());
    if (!file.ok)
      throw new Refusal(...file.problems.map(({ question, why }) => `${OPTION[question]}: ${why}`));
    if (!given.has('--json')) return file.text;
    const template = normalAnswer(answers.template)!.value.toLowerCase() as TemplateId;
    const { mark, findings } = judgeFile(file.text, 'own.json', new Date().getFullYear());
    const open = FIRST_QUESTIONS.filter(({ id }) => normalAnswer(answers[id]) === null).map(({ id }) => ({
      question: id,
      option: OPTION[id],
      taken: otherwiseOf(id, template),
    }));
    return `${JSON.stringify({ text: file.text, mark, findings, open })}\n`;
  },
};

/** The caller's day, as the file wants it. */
function today(): string {
  const now = new Date();
  const two = (value: number) => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

function answersOf(given: Given): Answers {
  const answers: { [K in QuestionId]?: SaidAnswer } = {};
  for (const { id } of FIRST_QUESTIONS) {
    const value = given.one(OPTION[id]);
    if (value !== null) answers[id] = { value };
  }
  for (const member of ['from', 'page'] as const)
    for (const pair of given.all(`--${member}`)) {
      const at = pair.indexOf('=');
      const id = (Object.keys(OPTION) as QuestionId[]).find(
        (one) => OPTION[one] === `--${pair.slice(0, at)}`,
      );
      if (at < 1 || id === undefined || questionOf(id).usually === null)
        throw new Refusal(
          `--${member} "${pair}" names no figure: write e.g. ${member === 'from' ? 'rated=book' : 'rated=8-3'}.`,
        );
      const said = answers[id];
      if (!said)
        throw new Refusal(`--${member} "${pair}" goes with ${OPTION[id]}, which is not given: give both.`);
      answers[id] = { ...said, [member]: pair.slice(at + 1) };
    }
  return answers;
}

function questions() {
  return FIRST_QUESTIONS.map((one) => ({
    ...one,
    option: OPTION[one.id],
    otherwise: Object.fromEntries(TEMPLATE_IDS.map((template) => [template, otherwiseOf(one.id, template)])),
  }));
}

function listed(): string {
  const lines: string[] = [];
  for (const { id, asks, choices, example, why, where, optional } of FIRST_QUESTIONS) {
    lines.push(`${OPTION[id]}: ${asks}`);
    for (const { value, label } of choices ?? []) {
      const how = isTemplateId(value) ? `${label}. ${TEMPLATES[value].about}` : label;
      lines.push(wrap(`${value} = ${how}`, 4));
    }
    if (example !== undefined) lines.push(`    e.g. ${example}`);
    lines.push(wrap(`${why} ${where}${optional ? '' : ' It must be chosen.'}`, 2), '');
  }
  return `${lines.join('\n')}\nEvery one but --template may be left out.\n`;
}
