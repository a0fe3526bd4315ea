/** An explanation in plain sentences. No bits: factors as words, to one figure. */
import type { RepairId } from '../fault/catalogue.ts';
import { FAULTS } from '../fault/faults.ts';
import { REPAIRS } from '../fault/repairs.ts';
import { KINDS } from '../reading/catalogue.ts';
import { describeReading } from '../reading/describe.ts';
import { readKey, type Value } from '../reading/key.ts';
import type { Effect, Explanation, RepairList, Suspect } from './explanation.ts';
import { troubleOf } from './trouble-words.ts';

const SMALL = ['', '', 'twice', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'] as const;

/** Factor of an effect from which a reading is said to speak at all, 1. */
export const SLIGHT = 1.25;
/** Share of its effect that a reading must keep when all others are known, or the others say the same, 1. */
const OWN = 0.25;

/** A factor from 1 up, to one figure: "twice", "five times", "40 times", "over a thousand times". */
export function timesWords(factor: number): string {
  if (!(factor < 1000)) return 'over a thousand times';
  if (factor < 1.75) return 'one and a half times';
  const one = Number(factor.toPrecision(1));
  if (one >= 1000) return 'a thousand times';
  if (one === 2) return 'twice';
  return one <= 10 ? `${SMALL[one]} times` : `${one} times`;
}

/** "five times likelier", "twice as likely", "three times less likely", "hardly likelier". */
export function effectWords(bits: number): string {
  const factor = 2 ** Math.abs(bits);
  const way = bits >= 0 ? 'likelier' : 'less likely';
  if (factor < SLIGHT) return `hardly ${way}`;
  const times = timesWords(factor);
  if (times === 'twice') return bits >= 0 ? 'twice as likely' : 'half as likely';
  return `${times} ${way}`;
}

/** A value as the mechanic noted it. */
function valueWords(key: string, value: Value): string {
  if (value === null) return 'OL';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  const unit = KINDS[readKey(key)?.kind ?? '']?.unit;
  const text = String(Number(value.toPrecision(4))).replace('-', '−');
  return unit === undefined || unit === 'SG' || unit === 'seen' ? text : `${text} ${unit}`;
}

/**
 * One reading for or against one suspect: "Battery volts, engine running: 3000 rpm, low beam, 12.4 V: five times
 * likelier with a dead regulator". Says so where the other readings tell the same.
 */
export function effectSentence(effect: Effect, value: Value, repair: RepairId): string {
  const key = readKey(effect.key);
  const name = key ? describeReading(key) : effect.key;
  const same = Math.abs(effect.bits) > 1 && effect.lastBits / effect.bits < OWN;
  const also = same ? ' (other readings say it too)' : '';
  return `${name}, ${valueWords(effect.key, value)}: ${effectWords(effect.bits)} with ${troubleOf(repair)}${also}`;
}

/** Whether a factor that turns the advice is so near to one that the verdict leans on a guess. */
export function leansOnGuess(flipsAt: number | null): boolean {
  return flipsAt !== null && flipsAt >= 1 / 3 && flipsAt <= 3;
}

/** The advice on a suspect and what would turn it, one sentence each. */
export function flipSentences(suspect: Suspect): string[] {
  const sentences: string[] = [];
  const say = (factor: number | null, subject: string) => {
    if (factor === null) return;
    const lean = leansOnGuess(factor) ? 'It leans on a guess: it' : 'It';
    sentences.push(`${lean} turns if ${subject} ${commonWords(factor)} believed.`);
  };
  say(suspect.flipsAt, `${troubleOf(suspect.repair)} is`);
  say(suspect.companyFlipsAt, 'several faults at once are');
  const advice = `The advice is to ${suspect.advised ? 'do it' : 'leave it'}.`;
  return sentences.length > 0
    ? [advice, ...sentences]
    : [`${advice} No guess wrong by up to twenty times would turn it.`];
}

/** "five times commoner than", "half as common as". */
function commonWords(factor: number): string {
  const times = timesWords(Math.max(factor, 1 / factor));
  if (times === 'twice') return factor > 1 ? 'twice as common as' : 'half as common as';
  return `${times} ${factor > 1 ? 'commoner' : 'rarer'} than`;
}

/** A list of repairs as a person says it: "replace the battery and replace the stator plug, both halves". */
export function listWords(list: readonly RepairId[]): string {
  if (list.length === 0) return 'nothing to repair';
  const words = list.map((id) => {
    const { title } = REPAIRS[id];
    return title[0]!.toLowerCase() + title.slice(1);
  });
  const last = words.pop()!;
  return words.length === 0 ? last : `${words.join('; ')}; and ${last}`;
}

/** A probability as a share of a hundred: "under 1 in 100", "37 in 100", "over 99 in 100". */
export function chanceWords(probability: number): string {
  if (probability < 0.01) return 'under 1 in 100';
  if (probability > 0.99) return 'over 99 in 100';
  return `${Math.round(probability * 100)} in 100`;
}

/** What is still open, one sentence each, weightiest first; what is under 1 in 100 is left out. */
export function doubtSentences({ doubt, alike }: Explanation): string[] {
  const sentences: { chance: number; text: string }[] = [];
  const say = (chance: number, text: string) => {
    if (chance >= 0.01) sentences.push({ chance, text: `${text}: ${chanceWords(chance)}.` });
  };
  const { likeliest, rival, others, noneOfThese } = doubt;
  if (rival) say(rival.probability, rivalWords(likeliest, rival));
  say(others, 'Some other list of repairs');
  say(noneOfThese, 'Something that none of the known faults explains');
  const told = sentences.sort((a, b) => b.chance - a.chance).map(({ text }) => text);
  const apart = alike.map(
    ({ one, other }) =>
      `No reading on offer tells these two apart without opening something: ${listWords(one)}, or ${listWords(other)}.`,
  );
  return told.length + apart.length > 0
    ? [...told, ...apart]
    : ['Hardly any: nothing else has 1 chance in 100.'];
}

/** The rival by what it has more and less than the likeliest list. */
function rivalWords(likeliest: RepairList, rival: RepairList): string {
  const more = rival.repairs.filter((id) => !likeliest.repairs.includes(id)).map(troubleOf);
  const less = likeliest.repairs.filter((id) => !rival.repairs.includes(id)).map(troubleOf);
  if (less.length === 0) return `Besides, ${more.join(' and ')}`;
  if (more.length === 0)
    return rival.repairs.length === 0 ? 'Nothing wrong at all' : `All the same without ${less.join(' and ')}`;
  return `${more.join(' and ')} instead of ${less.join(' and ')}`.replace(/^./, (c) => c.toUpperCase());
}

/** The head of a suspect: "Replace the regulator: 93 in 100, before any reading 12 in 100 (regulator dead)". */
export function suspectHead({ repair, probability, before, faults }: Suspect): string {
  const behind = faults
    .filter((one) => one.probability >= 0.1 * probability)
    .map(({ fault }) => FAULTS[fault].title);
  const what = behind.length > 0 && probability >= 0.01 ? ` (${behind.join(', or ')})` : '';
  return `${REPAIRS[repair].title}: ${chanceWords(probability)}, before any reading ${chanceWords(before)}${what}`;
}
