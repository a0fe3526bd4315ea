/** `verdict`: from a machine file and readings to what is dead and what to read next. */

import type { Answer, Evidence } from '../verdict/answer.ts';
import { openAssessor } from '../verdict/assess.ts';
import type { Command, World } from './command.ts';
import { NEW_PART, type OpenMachine, openMachine, titleOf } from './open-machine.ts';
import type { Given } from './options.ts';
import { addSymptom, noReadings, type Readings, readReading, readReadings } from './read-readings.ts';
import { Refusal } from './refusal.ts';
import { writeAnswer } from './write-answer.ts';

const TOOLS = {
  clamp: 'clamp',
  'load-tester': 'loadTester',
  hydrometer: 'hydrometer',
  supply: 'supply',
} as const;

export const verdict: Command = {
  name: 'verdict',
  about: 'Say what is dead, what to repair and which reading is worth taking next',
  takes: 'MACHINE [READINGS]',
  more: [
    'READINGS is a text file with one reading a line, such as "batt_volts lights=low rpm=3000 : 12.6 V", or a JSON object { "batt_volts rpm=3000": "12.6 V" }; - reads it from standard input. "OL" is a reading too. A line written twice means that the reading was taken twice. "symptom : runs_flat_riding" tells a symptom, # starts a remark.',
    'State left out of a reading means 3000 rpm, low beam, cold, battery as it came. See "chargewright words readings" for the kinds.',
  ],
  options: [
    { name: '--reading', value: '"KEY : VALUE"', many: true, about: 'one more reading' },
    {
      name: '--symptom',
      value: 'WORD',
      many: true,
      about: 'one more symptom (see "chargewright words symptoms")',
    },
    {
      name: '--without',
      value: 'TOOL',
      many: true,
      about: `a tool that is not there: ${Object.keys(TOOLS).join(', ')}`,
    },
    NEW_PART,
    { name: '--json', about: 'write the whole answer as one JSON object' },
  ],
  example: {
    line: 'verdict machines/ardmoor-650-pathway.json --symptom runs_flat_riding --reading "batt_volts rpm=3000 : 12.6 V"',
    shows: 'the first verdict on an Ardmoor that does not charge',
  },
  words: [1, 2],
  run: async (given, world) => {
    const opened = await openMachine(given.words[0]!, given, world);
    const evidence = await evidenceOf(given, opened, world);
    const assessor = openAssessor(opened.spec);
    const answer: Answer = assessor.assess(evidence);
    if (given.has('--json')) return `${JSON.stringify({ machine: titleOf(opened), evidence, ...answer })}\n`;
    return writeAnswer(titleOf(opened), evidence, answer, assessor.sound);
  },
};

/** Readings, symptoms and tools of a call: from the file it names, from standard input, from its options. */
export async function evidenceOf(given: Given, opened: OpenMachine, world: World): Promise<Evidence> {
  const readings = await gather(given, opened, world);
  return {
    symptoms: [...readings.symptoms],
    readings: Object.fromEntries(readings.values),
    again: [...readings.again],
    tools: tools(given),
  };
}

async function gather(given: Given, opened: OpenMachine, world: World): Promise<Readings> {
  const readings = noReadings();
  const file = given.words[1];
  const troubles: string[] = [];
  const collect = (work: () => void) => {
    try {
      work();
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      troubles.push(...error.sentences);
    }
  };
  if (file !== undefined) {
    const text = await world.read(file);
    collect(() => readReadings(text, file === '-' ? 'standard input' : file, opened.spec, readings));
  }
  for (const line of given.all('--reading')) {
    collect(() => readReading(line, '--reading', opened.spec, readings));
  }
  for (const word of given.all('--symptom')) collect(() => addSymptom(word, '--symptom', readings));
  if (troubles.length > 0) throw new Refusal(...troubles);
  return readings;
}

function tools(given: Given): Evidence['tools'] {
  const out = { clamp: true, loadTester: true, hydrometer: true, supply: true };
  for (const word of given.all('--without')) {
    if (!Object.hasOwn(TOOLS, word))
      throw new Refusal(`--without may be ${Object.keys(TOOLS).join(', ')}, not "${word}".`);
    out[TOOLS[word as keyof typeof TOOLS]] = false;
  }
  return out;
}
