/** The bench without hands on the screen: which key and which spoken word does what. */

export type HandsFree = 'done' | 'back' | 'next' | 'again';

/** What a Bluetooth pedal or a clicker sends, and a keyboard's own keys; on a control the key is the control's. */
const KEYS: Readonly<Record<string, HandsFree>> = {
  ' ': 'done',
  PageDown: 'done',
  PageUp: 'back',
  ArrowRight: 'next',
  ArrowLeft: 'back',
};
/** Pedals send these wherever the focus is; no control of a page has a use for them. */
const ANYWHERE: ReadonlySet<string> = new Set(['PageDown', 'PageUp']);

/** What a key does at the bench; null for nothing. `control` tells whether the focus is on a control that takes keys. */
export function keyAct(key: string, control: boolean, typing: boolean): HandsFree | null {
  const act = KEYS[key] ?? null;
  if (act === null || typing) return null;
  return control && !ANYWHERE.has(key) ? null : act;
}

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
