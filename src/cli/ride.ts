/** `ride`: whether the battery stays charged in this owner's life, and what would keep it so. */
import { adviseRide, type RideAdviceList } from '../circuit/ride-advice.ts';
import { balanceRide, type RideBalance, rideMachine } from '../circuit/ride-balance.ts';
import type { RideLife } from '../circuit/ride-legs.ts';
import {
  changeWords,
  ESTIMATE,
  effectWords,
  evenWords,
  legWords,
  levelWords,
  lifeWords,
  loadWords,
  reasonWords,
  VERDICT_WORDS,
} from '../circuit/ride-words.ts';
import { drawChargeMonth } from '../draw/charge-curve.ts';
import { standalone } from '../draw/palette.ts';
import { svgText } from '../draw/svg.ts';
import type { Command } from './command.ts';
import { NEW_PART, openMachine, titleOf } from './open-machine.ts';
import { either } from './options.ts';
import { LIFE, readLife } from './read-life.ts';
import { wrap } from './table.ts';

/** Changes that are told; the others help less. */
const SHOWN = 8;

function written(title: string, life: RideLife, found: RideBalance, advice: RideAdviceList): string {
  const lines = [`${title}: ${lifeWords(life)}`, ''];
  for (const leg of life.legs) lines.push(`  ${legWords(leg)}`);
  for (const load of life.loads) lines.push(`  + ${loadWords(load)}`);
  lines.push('', `${VERDICT_WORDS[found.verdict]}.`);
  for (const reason of found.reasons) lines.push(wrap(reasonWords(reason), 2));
  for (const line of levelWords(found)) lines.push(wrap(line, 2));
  if (found.worst) lines.push(wrap(evenWords(found.worst), 2));
  if (advice.single.length > 0) {
    lines.push('', found.verdict === 'holds' ? 'It would be fuller still:' : 'What helps, the most first:');
    for (const each of advice.single.slice(0, SHOWN))
      lines.push(wrap(`${changeWords(each.change)}: ${effectWords(each)}.`, 2));
  }
  if (advice.together) {
    lines.push(
      '',
      advice.together.verdict === 'holds' ? 'Together it stays charged:' : 'Together, still in doubt:',
    );
    for (const change of advice.together.changes) lines.push(wrap(changeWords(change), 2));
  }
  return `${[...lines, '', wrap(`! ${ESTIMATE}`, 0)].join('\n')}\n`;
}

/** The months without the curves of their days: three days of minutes are no answer. */
function summary(found: RideBalance) {
  const month = (of: RideBalance['months']['likely']) => {
    const { firstDay: _first, lastDay: _last, ...rest } = of;
    return rest;
  };
  const { worn, likely, fresh } = found.months;
  return { ...found, months: { worn: month(worn), likely: month(likely), fresh: month(fresh) } };
}

export const ride: Command = {
  name: 'ride',
  about: "Show whether the battery stays charged in this owner's life, and what would keep it so",
  takes: 'MACHINE',
  more: [
    'A day is written as legs, as one tells it: "town 1800 rpm 20 min; ferry queue engine off 30 min parking lights; motorway 4500 rpm 1 h high beam". What draws current besides ignition and lamps is a load. The day is ridden for a month with three batteries, worn, likely and new; what would help is ridden too and ranked. It is an estimate.',
  ],
  options: [
    ...LIFE,
    NEW_PART,
    { name: '--svg', about: 'write the month as a drawing' },
    { name: '--json', about: 'write one JSON object' },
  ],
  example: {
    line: 'ride machines/ardmoor-650-pathway.json --legs "town 1000 rpm 40 min; road 3500 rpm 10 min" --load "jacket 65 W" --air "2 °C"',
    shows: 'a month of slow town riding in a heated jacket on the Ardmoor',
  },
  words: [1, 1],
  run: async (given, world) => {
    const form = either(given, '--svg', '--json');
    const opened = await openMachine(given.words[0]!, given, world);
    const life = await readLife(given, opened.spec, world);
    const machine = rideMachine(opened.spec);
    const found = balanceRide(machine, life);
    if (form === '--svg') return `${svgText(standalone(drawChargeMonth(found, life, 'wide'), 'paper'))}\n`;
    const advice = adviseRide(machine, life, found);
    return form === '--json'
      ? `${JSON.stringify({ life, ...summary(found), advice })}\n`
      : written(titleOf(opened), life, found, advice);
  },
};
