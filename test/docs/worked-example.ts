/** The worked example of docs/how-sure.md: what the program says of one bike as readings are added. Every reading is invented. */
import { REPAIRS } from '../../src/fault/repairs.ts';
import { chargingSpec } from '../../src/machine/charging-spec.ts';
import type { Machine } from '../../src/machine/definition.ts';
import { KINDS } from '../../src/reading/catalogue.ts';
import { describeReading } from '../../src/reading/describe.ts';
import { readKey } from '../../src/reading/key.ts';
import { showValue } from '../../src/reading/say-value.ts';
import type { Answer } from '../../src/verdict/answer.ts';
import { openAssessor } from '../../src/verdict/assess.ts';
import { inHundred } from '../../src/verdict/say-chance.ts';

const REPAIR = 'replace-stator-plug';
const DOUBTED = 'plug_drop_ac lights=low pin=a rpm=3000';

/** What is taken at each step: a figure that fits none of the others, then the same once more. */
const STEPS: readonly (readonly (readonly [string, number])[])[] = [
  [
    ['rest_volts', 12.4],
    ['batt_volts lights=low rpm=3000', 12.9],
    ['stator_ac pair=ab rpm=3000', 50.8],
    ['stator_ac pair=bc rpm=3000', 51.2],
    ['stator_ac pair=ca rpm=3000', 50.5],
  ],
  [[DOUBTED, 4.1]],
  [[DOUBTED, 4.2]],
];
const NO_MORE_TOOLS = { clamp: false, loadTester: false, hydrometer: false, supply: false };

/** The block between the marks, Markdown. */
export function workedExample(machine: Machine): string {
  const assessor = openAssessor(chargingSpec(machine));
  const readings: Record<string, number> = {};
  const again: string[] = [];
  const { maker, model } = machine.about;
  const blocks = STEPS.flatMap((taken, n) => {
    for (const [key, value] of taken) {
      if (key in readings) again.push(key);
      readings[key] = value;
    }
    const answer = assessor.assess({ readings, again, symptoms: [], tools: NO_MORE_TOOLS });
    const list = taken.map(([key, value]) => `- ${describeReading(readKey(key)!)}: **${say(key, value)}**`);
    return [`${['First', 'Then', 'And once more'][n]}:`, list.join('\n'), says(answer)];
  });
  return [`The bike is the invented ${maker} ${model}, and so are its readings.`, ...blocks].join('\n\n');
}

function say(key: string, value: number): string {
  return showValue(value, KINDS[readKey(key)!.kind]!.unit);
}

function says(answer: Answer): string {
  const line = answer.repairs.find(({ repair }) => repair === REPAIR)!;
  const advice = line.worthDoing ? 'it says: do it' : 'it says: leave it for now';
  const doubts = answer.doubtful.map(({ key, probability, meant }) => {
    const instead = typeof meant === 'number' ? `; ${say(key, meant)} may have been meant` : '';
    return ` It doubts “${describeReading(readKey(key)!)}”, ${inHundred(probability)}${instead}.`;
  });
  const next = answer.next ? ` Next it wants “${describeReading(readKey(answer.next.key)!)}”.` : '';
  return `→ *${REPAIRS[REPAIR].title}*: **${inHundred(line.probability)}**, and ${advice}.${doubts.join('')}${next}`;
}
