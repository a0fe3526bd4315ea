/** `estimate`: a figure of the charging circuit from little, as an interval with its reasons. */
import { ESTIMATE_KINDS, type EstimateKind } from '../start/estimate-kinds.ts';
import type { Command } from './command.ts';
import { Refusal } from './refusal.ts';
import { wrap } from './table.ts';

export const estimate: Command = {
  name: 'estimate',
  about: 'Work out a figure of the charging circuit from little, with how far it can be off',
  takes: '[NAME [FIELD=TEXT …]]',
  more: [
    'Alone it lists the figures; with a name, what it wants to know. The answer is an interval in which the truth lies nineteen times in twenty, with what makes it wide. A figure measured on the bike in doubt says how that bike is, not how it should be.',
  ],
  options: [{ name: '--json', about: 'write one JSON object' }],
  example: {
    line: 'estimate ac-volts "volts=51 V" "speed=3000 rpm" engine=cold',
    shows: 'the AC volts at 1000 rpm that one reading stands for',
  },
  words: [0, 20],
  run: async (given) => {
    const [name, ...pairs] = given.words;
    if (name === undefined) return given.has('--json') ? `${JSON.stringify(ESTIMATE_KINDS)}\n` : listed();
    const found = ESTIMATE_KINDS.find(({ id }) => id === name);
    if (!found)
      throw new Refusal(
        `"${name}" is no estimate: it may be ${ESTIMATE_KINDS.map(({ id }) => id).join(', ')}.`,
      );
    if (pairs.length === 0) return given.has('--json') ? `${JSON.stringify(found)}\n` : fieldsOf(found);
    const texts = new Map<string, string>();
    for (const pair of pairs) {
      const at = pair.indexOf('=');
      if (at < 1) {
        const { id, example } = found.fields[0]!;
        throw new Refusal(`"${pair}" is no field with its text: write e.g. "${id}=${example}".`);
      }
      if (texts.has(pair.slice(0, at)))
        throw new Refusal(`${pair.slice(0, at)} is given twice: give it once.`);
      texts.set(pair.slice(0, at), pair.slice(at + 1));
    }
    const answer = found.reckon(Object.fromEntries(texts));
    if (!answer.ok) throw new Refusal(...answer.problems.map(({ why }) => why));
    if (given.has('--json')) return `${JSON.stringify({ id: found.id, goes: found.goes, ...answer })}\n`;
    return written(found, answer);
  },
};

function listed(): string {
  const widest = Math.max(...ESTIMATE_KINDS.map(({ id }) => id.length));
  const lines = ESTIMATE_KINDS.map(({ id, words }) => `${id.padEnd(widest)}  ${words}`);
  return `${lines.join('\n')}\n\nchargewright estimate NAME shows what it wants to know.\n`;
}

function fieldsOf({ id, words, fields }: EstimateKind): string {
  const widest = Math.max(...fields.map((field) => field.id.length));
  const lines = fields.map((field) => {
    const choices = field.choices ? `; ${field.choices.join(' or ')}` : '';
    const otherwise = field.otherwise === undefined ? '' : `; ${field.otherwise} unless said`;
    return `  ${field.id.padEnd(widest)}  ${field.words}, e.g. ${field.example}${choices}${otherwise}`;
  });
  const example = fields
    .filter(({ otherwise }) => otherwise === undefined)
    .map((field) => `"${field.id}=${field.example}"`);
  return `${words}\n\n${lines.join('\n')}\n\nExample:\n  chargewright estimate ${id} ${example.join(' ')}\n`;
}

function written(
  kind: EstimateKind,
  { estimate: found, text }: Extract<ReturnType<EstimateKind['reckon']>, { ok: true }>,
): string {
  const { reasons, formula, source, holds, middle } = found;
  const short = (value: number) =>
    `${Number(((value / middle - 1) * 100).toPrecision(2))} %`.replace('-', '−');
  const signed = (value: number) => (value > middle ? `+${short(value)}` : short(value));
  const lines = [`${kind.words}: ${text}`];
  if (reasons.length > 0) {
    lines.push('  What makes it wide, each alone:');
    for (const { what, low, high } of reasons) lines.push(`    ${what}: ${signed(low)} to ${signed(high)}`);
  }
  lines.push(wrap(`By ${formula}: ${source}. Holds while ${holds}.`, 2));
  if (kind.goes !== null) lines.push(wrap(`It belongs at ${kind.goes.slice(2)} of a machine file.`, 2));
  return `${lines.join('\n')}\n`;
}
