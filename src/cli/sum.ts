/** `sum`: the workshop's calculations without a job. */
import { standalone } from '../draw/palette.ts';
import { drawSumPicture } from '../draw/sum-picture.ts';
import { svgText } from '../draw/svg.ts';
import { SUMS } from '../sum/catalogue.ts';
import type { Reckoned, Sum } from '../sum/sum.ts';
import type { Command } from './command.ts';
import { Refusal } from './refusal.ts';
import { wrap } from './table.ts';

function listed(): string {
  const widest = Math.max(...SUMS.map(({ id }) => id.length));
  return `${SUMS.map(({ id, about }) => `${id.padEnd(widest)}  ${about}`).join('\n')}\n\nchargewright sum NAME shows its fields and an example.\n`;
}

function fieldsOf(sum: Sum): string {
  const widest = Math.max(...sum.fields.map(({ id }) => id.length));
  const need = { must: '', may: '; may be left out', solve: '; left out, it is worked out' };
  const rows = sum.fields.map((each) => {
    const choices = each.choices ? `; one of ${each.choices.map(({ id }) => id).join(', ')}` : '';
    return `  ${each.id.padEnd(widest)}  ${each.words}, e.g. ${each.example}${need[each.need]}${choices}`;
  });
  const example = Object.entries(sum.example).map(([id, text]) => `${id}="${text}"`);
  return `${sum.words}: ${sum.about}\n\n${rows.join('\n')}\n\nExample:\n  chargewright sum ${sum.id} ${example.join(' ')}\n`;
}

function written(sum: Sum, found: Reckoned): string {
  const says = found.lines.map((line) => wrap(line.says, 2));
  const cautions = found.cautions.map((caution) => wrap(`! ${caution}`, 2));
  return `${[sum.words, ...says, ...cautions].join('\n')}\n`;
}

export const sum: Command = {
  name: 'sum',
  about: 'Work out a wrench setting, a joint, a tightening order and the like',
  takes: '[NAME [FIELD=TEXT …]]',
  more: [
    'Alone it lists the sums; with a name, the fields of that sum. A field is written as a person writes it, with its unit: torque="35 lbf·in". Leave one field out and it is worked out from the others where that can be.',
  ],
  options: [
    { name: '--json', about: 'write one JSON object' },
    { name: '--svg', about: 'write the drawing that explains it, as SVG' },
  ],
  example: {
    line: 'sum wrench "torque=35 lbf·in" "length=10 in" "adapter=4 in"',
    shows: 'what to set with a 4 in adapter straight out',
  },
  words: [0, 40],
  run: async (given) => {
    const [name, ...pairs] = given.words;
    if (name === undefined)
      return given.has('--json')
        ? `${JSON.stringify(SUMS.map(({ id, words, about, fields, example }) => ({ id, words, about, fields, example })))}\n`
        : listed();
    const found = SUMS.find(({ id }) => id === name);
    if (!found) throw new Refusal(`"${name}" is no sum: it may be ${SUMS.map(({ id }) => id).join(', ')}.`);
    if (pairs.length === 0 && !given.has('--json')) return fieldsOf(found);
    const texts = new Map<string, string>();
    for (const pair of pairs) {
      const at = pair.indexOf('=');
      if (at < 1)
        throw new Refusal(
          `"${pair}" is no field with its text: write e.g. ${found.fields[0]!.id}="${found.fields[0]!.example}".`,
        );
      const id = pair.slice(0, at);
      if (texts.has(id)) throw new Refusal(`${id} is given twice: give it once.`);
      texts.set(id, pair.slice(at + 1));
    }
    const answer = found.reckon(Object.fromEntries(texts));
    if (!answer.ok) throw new Refusal(...answer.faults.map(({ why }) => why));
    if (given.has('--svg')) {
      if (!answer.picture)
        throw new Refusal(`"${found.id}" has no drawing for what is entered: leave out --svg.`);
      return `${svgText(standalone(drawSumPicture(answer.picture, 'wide'), 'paper'))}\n`;
    }
    return given.has('--json') ? `${JSON.stringify({ sum: found.id, ...answer })}\n` : written(found, answer);
  },
};
