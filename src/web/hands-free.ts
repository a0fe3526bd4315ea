/** The bench without hands on the screen: which key does what. */

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
