/** Random streams by name: one seed gives every drawn thing a stream of its own, so that the order of asking cannot matter. */
import { openStream, type Stream } from '../numbers/random.ts';

/** A 32-bit number from a text: FNV-1a (Fowler, Noll & Vo, RFC 9923), dimensionless. */
export function hashText(text: string): number {
  let hash = 0x811c9dc5;
  for (let n = 0; n < text.length; n++) hash = Math.imul(hash ^ text.charCodeAt(n), 0x01000193);
  return hash >>> 0;
}

/** The stream of this name under this seed. */
export function openNamed(seed: number, name: string): Stream {
  return openStream(hashText(`${seed} ${name}`));
}

/** A number drawn evenly from `low` to `high`, in the unit of these two. */
export function between(stream: Stream, low: number, high: number): number {
  return low + (high - low) * stream();
}

/** One of a list. */
export function pick<T>(stream: Stream, list: readonly T[]): T {
  return list[Math.floor(stream() * list.length)]!;
}

/** One of a list, by weight. */
export function pickWeighted<T>(stream: Stream, list: readonly T[], weight: (item: T) => number): T {
  let at = stream() * list.reduce((sum, item) => sum + weight(item), 0);
  for (const item of list) {
    at -= weight(item);
    if (at < 0) return item;
  }
  return list.at(-1)!;
}
