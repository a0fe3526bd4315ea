/** `words`: the words that readings, faults and symptoms are called by. */

import { MEMBERS } from '../fault/catalogue.ts';
import { FAULT_IDS, FAULTS } from '../fault/faults.ts';
import { REPAIRS } from '../fault/repairs.ts';
import { KINDS } from '../reading/catalogue.ts';
import { howTo } from '../reading/steps.ts';
import type { Command } from './command.ts';
import { Refusal } from './refusal.ts';
import { SYMPTOMS } from './symptoms.ts';

const TOPICS = ['readings', 'faults', 'symptoms'] as const;

export const words: Command = {
  name: 'words',
  about: 'List the words for readings, faults and symptoms',
  takes: TOPICS.join('|'),
  more: ['With the name of a reading behind "readings", how to take it.'],
  options: [{ name: '--json', about: 'write one JSON object' }],
  example: { line: 'words readings stator_ac', shows: 'how to take AC volts at the unplugged stator' },
  words: [1, 2],
  run: async (given) => {
    const [topic, name] = given.words;
    const known = TOPICS.find((one) => one === topic);
    if (known === undefined) throw new Refusal(`"words" knows ${TOPICS.join(', ')}, not "${topic}".`);
    if (name !== undefined && known !== 'readings')
      throw new Refusal(`"words ${known}" takes nothing more: leave "${name}" out.`);
    if (name !== undefined) return reading(name, given.has('--json'));
    const table = { readings: KINDS, faults: FAULTS, symptoms: SYMPTOMS }[known];
    if (given.has('--json')) return `${JSON.stringify(table)}\n`;
    return { readings: listReadings, faults: listFaults, symptoms: listSymptoms }[known]();
  },
};

function reading(name: string, json: boolean): string {
  if (!Object.hasOwn(KINDS, name))
    throw new Refusal(`no reading is called "${name}": see "chargewright words readings".`);
  const kind = KINDS[name]!;
  if (json) return `${JSON.stringify(kind)}\n`;
  const states = Object.entries(kind.states).map(
    ([word, values]) => `  ${word}=${values.join('|')} (${values[0]} when left out)`,
  );
  return [
    `${kind.id}: ${kind.title}, ${kind.minutes} min, shown in ${kind.unit === 'seen' ? 'yes or no' : kind.unit}`,
    ...states,
    ...howTo(kind).map((step, n) => `  ${n + 1}. ${step}`),
    '',
  ].join('\n');
}

function listReadings(): string {
  const widest = Math.max(...Object.keys(KINDS).map((id) => id.length));
  const lines = Object.values(KINDS).map((kind) => {
    const states = Object.keys(kind.states).join(' ');
    return `${kind.id.padEnd(widest)}  ${kind.unit.padEnd(4)} ${String(kind.minutes).padStart(2)} min  ${kind.title}${states === '' ? '' : ` [${states}]`}`;
  });
  return `${lines.join('\n')}\n`;
}

function listFaults(): string {
  const widest = Math.max(...FAULT_IDS.map((id) => id.length));
  const lines = MEMBERS.flatMap((member) =>
    FAULT_IDS.filter((id) => FAULTS[id].member === member).map(
      (id) => `${id.padEnd(widest)}  ${FAULTS[id].title}; repair: ${REPAIRS[FAULTS[id].repair].title}`,
    ),
  );
  return `${lines.join('\n')}\n`;
}

function listSymptoms(): string {
  const widest = Math.max(...Object.keys(SYMPTOMS).map((id) => id.length));
  return Object.entries(SYMPTOMS)
    .map(([id, meaning]) => `${id.padEnd(widest)}  ${meaning}\n`)
    .join('');
}
