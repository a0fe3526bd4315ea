/** A reading in words. */
import { completeKey, KINDS, SEEN } from './catalogue.ts';
import type { ReadingKey } from './key.ts';

const TERMINAL: Readonly<Record<string, string>> = { a: 'pin a', b: 'pin b', c: 'pin c', pos: '+', neg: '−' };

/** E.g. "Battery volts, engine running: 3000 rpm, low beam". States that are the usual ones are left out. */
export function describeReading(partial: ReadingKey): string {
  const kind = KINDS[partial.kind];
  if (!kind) return partial.kind;
  const s = completeKey(partial).state;
  if (partial.kind === 'visual') return `Look: ${SEEN[s.what!] ?? s.what}`;
  const words: string[] = [];
  if (s.pair) words.push(`pins ${s.pair[0]}–${s.pair[1]}`);
  if (s.pin) words.push(`pin ${s.pin}`);
  if (s.red && s.black) words.push(`red on ${TERMINAL[s.red]}, black on ${TERMINAL[s.black]}`);
  if (s.cell) words.push(`cell ${s.cell}`);
  if (s.probe) words.push(s.probe === 'clamp' ? 'at the clamps' : 'at the posts');
  if (s.state) words.push(s.state === 'crank' ? 'while cranking' : 'with the lights on');
  if (s.rpm) words.push(s.rpm === 'idle' ? 'at idle' : `${s.rpm} rpm`);
  if (s.lights) words.push(s.lights === 'off' ? 'lights off' : `${s.lights} beam`);
  if (s.temp === 'hot') words.push('engine hot');
  if (s.charged === 'True') words.push('battery charged first');
  if (s.acc === 'False') words.push('accessories off');
  if (s.wiggle === 'True') words.push('moving the harness');
  if (s.through_plug === 'True') words.push('through the mated plug');
  if (s.loaded === 'True') words.push('with 220 Ω across the meter');
  return words.length ? `${kind.title}: ${words.join(', ')}` : kind.title;
}
