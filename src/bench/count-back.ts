/** What came off, and whether it went back on. */
import type { Machine } from '../machine/definition.ts';

export interface Off {
  /** Id of the move that took it off. */
  readonly action: string;
  readonly does: string;
  /** What it still takes to put it back, in words; empty when all is done. */
  readonly missing: readonly string[];
}

/**
 * Moves made on the way in, in the file's order: those wholly put back, and those that are not. A move that nothing puts
 * back (the engine got cold) is neither.
 */
export function countBack(
  machine: Pick<Machine, 'work'>,
  done: ReadonlyMap<string, number>,
): { readonly off: readonly Off[]; readonly lost: readonly Off[] } {
  const moves = Object.entries(machine.work?.actions ?? {}).flatMap(([action, { does, back }]): Off[] => {
    if (!done.has(action) || !back || back.length === 0) return [];
    // A step without hands runs off by itself.
    const missing = back.filter((step) => !done.has(step.id) && step.hands !== 0);
    return [{ action, does, missing: missing.map((step) => step.does) }];
  });
  return {
    off: moves.filter(({ missing }) => missing.length === 0),
    lost: moves.filter(({ missing }) => missing.length > 0),
  };
}
