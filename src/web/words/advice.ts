/** What doing a repair saves, what would change the advice, and how much a reading says: figures in plain words. */
import type { RepairLine } from '../../verdict/answer.ts';
import type { Cost } from '../../verdict/repairs.ts';
import { ofHundred } from '../show.ts';

/** Minutes as one says them: `12 min`, `45 min`, `2½ h`. */
export function minuteWords(minutes: number): string {
  if (minutes < 20) return `${Math.max(1, Math.round(minutes))} min`;
  if (minutes < 90) return `${Math.round(minutes / 5) * 5} min`;
  const halves = Math.round(minutes / 30);
  return `${Math.floor(halves / 2) || ''}${halves % 2 ? '½' : ''} h`;
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

/** How much a reading speaks for or against: a word and a factor, from bits. */
export interface EffectWords {
  readonly word: string;
  readonly factor: string;
  /** Length of its bar, 0–1. */
  readonly length: number;
}

/** Bits that fill the bar: a hundred times likelier. */
const FULL_BITS = Math.log2(100);

function times(factor: number): string {
  if (factor >= 1000) return 'over 1000 times';
  if (factor >= 10) return `${Number(factor.toPrecision(2))} times`;
  return factor >= 3 ? `${Math.round(factor)} times` : `${Number(factor.toFixed(1))} times`;
}

export function effectWords(bits: number): EffectWords {
  const size = Math.abs(bits);
  const word =
    size >= Math.log2(30) ? 'decisive' : size >= Math.log2(5) ? 'strong' : size >= 1 ? 'moderate' : 'slight';
  const factor = `${times(2 ** size)} ${bits >= 0 ? 'likelier' : 'less likely'}`;
  return { word, factor, length: Math.min(1, size / FULL_BITS) };
}

/** Whether a factor on the prior odds within a third and three would turn the advice. */
export function leansOnGuess(flipsAt: number | null): boolean {
  return flipsAt !== null && flipsAt >= 1 / 3 && flipsAt <= 3;
}

/** What would have to be true of the prior for the advice to turn. */
export function flipWords(flipsAt: number): string {
  const factor = flipsAt >= 1 ? flipsAt : 1 / flipsAt;
  const by = factor < 1.15 ? 'a little' : `${Number(factor.toPrecision(2))} times`;
  return `${by} ${flipsAt >= 1 ? 'more common' : 'rarer'} than guessed`;
}
