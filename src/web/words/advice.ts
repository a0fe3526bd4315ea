/** What doing a repair costs and saves, what would change the advice, and how much a reading says, in words. */
import type { RepairLine } from '../../verdict/answer.ts';
import type { Cost } from '../../verdict/repairs.ts';
import { ofHundred } from '../../verdict/say-chance.ts';

/** Minutes as one says them, never broken at the end of a line: `12 min`, `45 min`, `2½ h`. */
export function minuteWords(minutes: number): string {
  if (minutes < 20) return `${Math.max(1, Math.round(minutes))}\u00a0min`;
  if (minutes < 90) return `${Math.round(minutes / 5) * 5}\u00a0min`;
  const halves = Math.round(minutes / 30);
  return `${Math.floor(halves / 2) || ''}${halves % 2 ? '½' : ''}\u00a0h`;
}

/** Parts and minutes of a repair. Parts are in a money of no country, only to be set against each other. */
export function costWords(cost: Cost): string {
  const parts = cost.parts === 0 ? 'no parts' : `parts about ${cost.parts}`;
  return `${minuteWords(cost.minutes)}, ${parts}`;
}

/** What following the advice on a line saves on average; null where that is next to nothing. */
export function savesWords(line: RepairLine): string | null {
  if (!(line.saves >= 1)) return null;
  const against = line.worthDoing || line.whileOpen ? 'leaving it' : 'doing it now';
  return `Saves about ${minuteWords(line.saves)} on average against ${against}`;
}

/** A chance in hundredths for a turning point: whole from 2 up, tenths below. */
function hundredths(chance: number): string {
  const hundred = chance * 100;
  return hundred >= 2 ? String(Math.round(hundred)) : hundred.toFixed(1);
}

/** What would change the advice on a line. */
export function turnsWords(line: RepairLine): string {
  const { turnsAt } = line;
  const at = ofHundred(hundredths(turnsAt));
  if (line.worthDoing || line.whileOpen)
    return turnsAt < 0.001 ? 'Worth it at any chance' : `Worth it as long as its chance is above ${at}`;
  return turnsAt > 0.995 ? 'Not worth it at any chance' : `Worth doing once its chance is above ${at}`;
}

/** How much a reading speaks for or against: a word, and the length of its bar, 0–1. */
export interface EffectSize {
  readonly word: string;
  readonly length: number;
}

/** Bits that fill the bar: a hundred times likelier. */
const FULL_BITS = Math.log2(100);

export function effectSize(bits: number): EffectSize {
  const size = Math.abs(bits);
  const word =
    size >= Math.log2(30) ? 'decisive' : size >= Math.log2(5) ? 'strong' : size >= 1 ? 'moderate' : 'slight';
  return { word, length: Math.min(1, size / FULL_BITS) };
}
