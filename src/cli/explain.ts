/** `why`: why each part is suspected, which guess the advice leans on, and what stays in doubt. */

import type { Evidence } from '../verdict/answer.ts';
import { openAssessor } from '../verdict/assess.ts';
import {
  doubtSentences,
  effectSentence,
  flipSentences,
  SLIGHT,
  suspectHead,
} from '../verdict/explain-words.ts';
import type { Effect, Explanation, Suspect } from '../verdict/explanation.ts';
import { troubleOf } from '../verdict/trouble-words.ts';
import type { Command } from './command.ts';
import { openMachine, titleOf } from './open-machine.ts';
import { wrap } from './table.ts';
import { evidenceOf, verdict } from './verdict.ts';

/** Readings named for, and against, one suspect. */
const MOST_NAMED = 5;

export const why: Command = {
  name: 'why',
  about: 'Say why each part is suspected, what would turn the advice, and what stays in doubt',
  takes: 'MACHINE [READINGS]',
  more: [
    'READINGS and options are those of "verdict". "Five times likelier with a dead regulator" means that the reading is five times as likely on such a bike as on one without that fault, the other readings given. Where several readings say the same, each gets its part, and the parts multiply to the whole.',
  ],
  options: verdict.options,
  example: {
    line: 'why machines/ardmoor-650-pathway.json --reading "batt_volts rpm=3000 : 12.4 V" --reading "rest_volts : 12.5 V"',
    shows: 'what two readings say about each part of an Ardmoor',
  },
  words: [1, 2],
  run: async (given, world) => {
    const opened = await openMachine(given.words[0]!, given, world);
    const evidence = await evidenceOf(given, opened, world);
    const explanation = openAssessor(opened.spec).explain(evidence);
    if (given.has('--json'))
      return `${JSON.stringify({ machine: titleOf(opened), evidence, ...explanation })}\n`;
    return writeExplanation(titleOf(opened), evidence, explanation);
  },
};

/** An explanation as a page of text for people. */
export function writeExplanation(title: string, evidence: Evidence, explanation: Explanation): string {
  const lines: string[] = [title];
  if (explanation.suspects.length === 0) lines.push('', 'No reading taken yet: there is nothing to explain.');
  for (const suspect of explanation.suspects) lines.push('', ...writeSuspect(suspect, evidence));
  if (explanation.suspects.length > 0) {
    lines.push('', 'What stays in doubt:');
    for (const sentence of doubtSentences(explanation)) lines.push(wrap(sentence, 2));
    lines.push('', wrap('How often each part fails before any reading is a guess of this program.', 0));
  }
  return `${lines.join('\n')}\n`;
}

function writeSuspect(suspect: Suspect, evidence: Evidence): string[] {
  const { supports, opposes, repair } = suspect;
  const lines = [wrap(suspectHead(suspect), 0)];
  const list = (head: string, none: string, effects: readonly Effect[]) => {
    const named = effects.filter(({ bits }) => Math.abs(bits) >= Math.log2(SLIGHT)).slice(0, MOST_NAMED);
    if (named.length === 0) {
      lines.push(`  ${none}`);
      return;
    }
    lines.push(`  ${head}`);
    for (const effect of named) {
      const sentence = effectSentence(effect, evidence.readings[effect.key] ?? null, repair);
      const [first, ...rest] = wrap(sentence, 6).split('\n');
      lines.push(`    - ${first!.trimStart()}`, ...rest);
    }
    const left = effects.length - named.length;
    if (left > 0) lines.push(`    - and ${left} more that ${left === 1 ? 'says' : 'say'} less`);
  };
  list('For:', `No reading speaks for ${troubleOf(repair)}.`, supports);
  list('Against:', `No reading speaks against ${troubleOf(repair)}.`, opposes);
  lines.push(wrap(flipSentences(suspect).join(' '), 2));
  return lines;
}
