/** Which spoken word does what at the bench, and a step as it is spoken. */
import type { HandsFree } from './hands-free.ts';

const WORDS: readonly (readonly [RegExp, HandsFree])[] = [
  [/\b(?:done|finished)\b/, 'done'],
  [/\bback\b/, 'back'],
  [/\bnext\b/, 'next'],
  [/\b(?:again|repeat)\b/, 'again'],
];

/** What was said, from what the browser heard; null for words that mean nothing here or more than one thing. */
export function heardAct(heard: string): HandsFree | null {
  const acts = new Set(WORDS.flatMap(([word, act]) => (word.test(heard.toLowerCase()) ? [act] : [])));
  return acts.size === 1 ? [...acts][0]! : null;
}

/** A step as it is spoken: the caution first, figures without signs that a voice stumbles on. */
export function spoken(step: {
  readonly does: string;
  readonly caution: string | null;
  readonly torque: string | null;
}): string {
  const words = [step.caution ? `Caution. ${step.caution}` : '', step.does, step.torque ?? ''];
  return words
    .filter(Boolean)
    .join('. ')
    .replaceAll('N·m', ' newton metres')
    .replaceAll('lbf·ft', ' foot pounds')
    .replaceAll('lbf·in', ' inch pounds')
    .replaceAll('–', ' to ');
}
